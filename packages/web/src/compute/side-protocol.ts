import type { Project } from '@sunlap/project/schema/project';
import type { LifeCard } from '@sunlap/workbench/build/life-cards';
import type { Interval } from '@sunlap/workbench/results';
import type { DayAnswer, Judged } from '../sheets/testday/answer';
import type { MomentInput } from '../store/doc';

/** What building the panel takes, for the home screen. */
export interface BuildCounts {
  gluedJoints: number;
  cost: number;
  /** Parts that nobody gave a price for. */
  unpriced: number;
  currency: string;
  cards: readonly LifeCard[];
}

/** Questions beside the sheet's own flow and heat. */
export interface SideQuestions {
  build: { ask: { project: Project }; answer: BuildCounts };
  testDay: { ask: { project: Project; day: string }; answer: DayAnswer | null };
  testDayLog: { ask: { project: Project }; answer: readonly Judged[] };
  /** The band of the heat, widened by what is not known. */
  doubts: {
    ask: { project: Project; moment: MomentInput; heat_W: number; band: Interval };
    answer: Interval;
  };
}

export type SideKind = keyof SideQuestions;
export type SideAsk = { [K in SideKind]: { id: number; kind: K } & SideQuestions[K]['ask'] }[SideKind];
export type SideReply =
  | { id: number; ok: true; answer: unknown }
  | { id: number; ok: false; message: string };

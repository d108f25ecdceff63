import type { Project } from '@sunlap/project/schema/project';
import type { LifeCard } from '@sunlap/workbench/build/life-cards';
import type { DayAnswer } from '../sheets/testday/answer';

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
  testDay: { ask: { project: Project; day: string }; answer: DayAnswer };
  testDayLog: { ask: { project: Project }; answer: readonly DayAnswer[] };
}

export type SideKind = keyof SideQuestions;
export type SideAsk = { [K in SideKind]: { id: number; kind: K } & SideQuestions[K]['ask'] }[SideKind];
export type SideReply =
  | { id: number; ok: true; answer: unknown }
  | { id: number; ok: false; message: string };

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

/** After a step less before it. */
export interface StepChange {
  heat_W: number;
  gluedJoints: number;
  cost: number;
}

/** An answer of the home screen with its band before the doubts. */
export interface Banded {
  value: number;
  band: Interval;
}
export type HomeReadout = 'heat_W' | 'flow_m3s' | 'poolPerSunnyDay_K';

/** Questions beside the sheet's own flow and heat. */
export interface SideQuestions {
  build: { ask: { project: Project }; answer: BuildCounts };
  /** What a step of the panel does to heat, joints and cost. */
  step: { ask: { before: Project; after: Project; moment: MomentInput }; answer: StepChange };
  /** The next cheap step, in words. */
  next: { ask: { project: Project; moment: MomentInput; as: 'planner' | 'owner' }; answer: string };
  /** Bands widened by what is not known. */
  doubts: {
    ask: { project: Project; moment: MomentInput; readouts: Record<HomeReadout, Banded> };
    answer: Record<HomeReadout, Interval>;
  };
  testDay: { ask: { project: Project; day: string }; answer: DayAnswer | null };
  testDayLog: { ask: { project: Project }; answer: readonly Judged[] };
}

export type SideKind = keyof SideQuestions;
export type SideAsk = { [K in SideKind]: { id: number; kind: K } & SideQuestions[K]['ask'] }[SideKind];
export type SideReply =
  | { id: number; ok: true; answer: unknown }
  | { id: number; ok: false; message: string };

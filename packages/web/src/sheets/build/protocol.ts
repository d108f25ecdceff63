import type { BuildDrawing } from '@sunlap/drawing/buildPlan';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { BuildStudies, BuildValues } from '@sunlap/workbench/build/build';
import type { MoneyPlan } from '@sunlap/workbench/build/money';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';

export interface Built {
  values: BuildValues;
  notices: readonly Notice[];
  drawings: readonly BuildDrawing[];
  /** True where the heat of the moment was at hand. */
  heated: boolean;
  /** True where the integer solver had its say. */
  tried: boolean;
}

interface Common {
  project: Project;
  /** Loads the integer solver first. */
  prove: boolean;
}

export interface Questions {
  build: { ask: Common & { studies: BuildStudies; drawn: boolean }; answer: Built };
  /** The same with a year run for its money, or with that which another sheet has run; `band` runs one for each doubt too. */
  year: {
    ask: Common & { studies: BuildStudies; band: boolean; known: SeasonAnswer | null };
    answer: MoneyPlan;
  };
  report: { ask: Common & { date: string }; answer: string };
  csv: { ask: Common & { table: 'parts' | 'cuts' }; answer: string };
}

export type Kind = keyof Questions;
export type Ask = { [K in Kind]: { id: number; kind: K } & Questions[K]['ask'] }[Kind];
export type Reply = { id: number; ok: true; answer: unknown } | { id: number; ok: false; message: string };

import type { ShadeTable } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';

export const COLUMNS = 73;
export const ROWS = 48;

export interface YardAsk {
  id: number;
  project: Pick<Project, 'site' | 'pool' | 'collector' | 'yard'>;
}

/** Shadows of a yard over the sky and over the year. */
export interface YardShade {
  pool: ShadeTable | null;
  parts: (ShadeTable | null)[];
  /** Area of each part [m²]. */
  areas: number[];
  /** share[column × ROWS + row]; −1 where the sun is down. */
  poolCarpet: Float32Array;
  collectorCarpet: Float32Array;
  /** Share of the year's direct light on the level, and by month. */
  year: { pool: number; collector: number };
  months: { pool: number[]; collector: number[] };
}

export type YardReply =
  | { id: number; ok: true; shade: YardShade }
  | { id: number; ok: false; message: string };

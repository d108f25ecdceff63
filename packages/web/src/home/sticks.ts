import type { Project } from '@sunlap/project/schema/project';
import { stockLengths } from '@sunlap/workbench/build/stock-lengths';

/** Longest and shortest tube that pulling goes to [m]. */
const SHORTEST_m = 0.9;
const LONGEST_m = 25;

/**
 * Tube lengths that leave no offcut, shortest first: whole sticks, halves and thirds of one, and several joined.
 *
 * @example lengthsOfSticks(project, 'pvc-sch40-1/2') // 1.016, 1.524, 2.032, 3.048, 6.096, 9.144 …
 */
export function lengthsOfSticks(project: Pick<Project, 'prices'>, pipe: string): number[] {
  const out = new Set<number>();
  for (const { length_m, per } of stockLengths(project, pipe)) {
    if (per === 'coil') {
      for (let v = 1; v <= LONGEST_m; v += 0.5) out.add(v);
      continue;
    }
    for (const part of [1 / 3, 1 / 2]) out.add(round(length_m * part));
    for (let n = 1; n * length_m <= LONGEST_m; n++) out.add(round(n * length_m));
  }
  return [...out].filter((v) => v >= SHORTEST_m).sort((a, b) => a - b);
}

const round = (v: number) => Number(v.toFixed(4));

/** The longest stick that is sold [m]. */
export const stickOf = (project: Pick<Project, 'prices'>, pipe: string): number =>
  Math.max(...stockLengths(project, pipe).map((s) => s.length_m));

export const nearest = (values: readonly number[], wanted: number): number =>
  values.reduce(
    (best, v) => (Math.abs(v - wanted) < Math.abs(best - wanted) ? v : best),
    values[0] ?? wanted,
  );

/** The next one up or down; the same where there is none. */
export const beside = (values: readonly number[], now: number, way: 1 | -1): number =>
  (way > 0 ? values.find((v) => v > now + 1e-6) : values.findLast((v) => v < now - 1e-6)) ?? now;

import type { Project } from '@sunlap/project/schema/project';
import type { Doc } from '../store/doc';

/**
 * Parts of a project that neither flow nor heat depends on: prices, what is bought and ticked off, how it is
 * built, and the log. What was built and mended when counts: the heater runs with the tubes that a repair left plugged. What of these sets
 * joints into the water's way counts, see {@link sameJoints}.
 */
const APART: ReadonlySet<string> = new Set<keyof Project>([
  '$schema',
  'name',
  'notes',
  'invented',
  'prices',
  'stock',
  'build',
  'testDays',
]);

/** Parts that a test day's answer does not depend on, beside those of the name and the notes. */
const APART_FROM_A_DAY: ReadonlySet<string> = new Set<keyof Project>([
  '$schema',
  'name',
  'notes',
  'invented',
  'prices',
  'stock',
  'build',
  'season',
]);

function alikeBut(apart: ReadonlySet<string>, a: Project, b: Project): boolean {
  if (a === b) return true;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Project>;
  for (const key of keys) if (!apart.has(key) && a[key] !== b[key]) return false;
  return true;
}

/** Lengths that the person's own rows sell or say are not to be had: they decide where pipe is coupled. */
const ownLengths = ({ prices }: Project): string =>
  JSON.stringify(
    (prices?.parts ?? [])
      .filter((row) => row.stockLength_m !== undefined || row.notSold)
      .map((row) => [row.part, row.stockLength_m, row.notSold, row.price !== undefined]),
  );

/** True where the same couplings and unions stand in the water's way. */
const sameJoints = (a: Project, b: Project): boolean =>
  a.stock?.measured === b.stock?.measured &&
  a.build?.unions === b.build?.unions &&
  (a.prices === b.prices || ownLengths(a) === ownLengths(b));

/** True where flow and heat of both are one answer. By identity: an edit leaves what it does not touch as it is. */
export const sameStudy = (a: Doc, b: Doc): boolean =>
  a.moment === b.moment && alikeBut(APART, a.project, b.project) && sameJoints(a.project, b.project);

/** True where every test day is judged alike. */
export const sameDays = (a: Project, b: Project): boolean => alikeBut(APART_FROM_A_DAY, a, b);

/** Keeps giving the older of two that are the same. */
export function keepSame<T>(same: (a: T, b: T) => boolean): (now: T) => T {
  let last: T | undefined;
  return (now) => {
    if (last === undefined || !same(last, now)) last = now;
    return last;
  };
}

import { inchesOf, inchSizeOf } from './nominalSizes';
import table from './solventCement.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

export interface CementJoints extends Provenance {
  nominal: string;
  /** Joints from a US quart of cement, none wasted. Primer does twice as many. */
  jointsPerQuart: number;
}

/** Times for a range of sizes and of temperatures. */
export interface CementCure extends Provenance {
  from: string;
  to: string;
  over_C: number;
  upTo_C: number;
  /** Until the joint may be handled. */
  set_s: number;
  /** Until pressure to 180 psi (1.24 MPa), and above. */
  cureLow_s: number;
  cureHigh_s: number;
}

export const cementJoints: readonly CementJoints[] = readTable<CementJoints>(table.about, table.joints);
export const cementCures: readonly CementCure[] = readTable<CementCure>(table.about, table.cure);

const jointsOf = finder(cementJoints, (row) => row.nominal);

/** Also for metric sizes, by the inch size that serves as one. */
export function findCementJoints(nominal: string): CementJoints | undefined {
  return jointsOf(inchSizeOf(nominal) ?? '');
}

/** Set and cure times of a size at a temperature; the colder band on the edge; undefined outside the table. */
export function findCementCure(nominal: string, at_C: number): CementCure | undefined {
  const size = inchesOf(inchSizeOf(nominal) ?? '');
  return cementCures.findLast(
    (row) =>
      size >= inchesOf(row.from) && size <= inchesOf(row.to) && at_C >= row.over_C && at_C <= row.upTo_C,
  );
}

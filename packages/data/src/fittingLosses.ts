import table from './fittingLosses.json';
import { inchSizeOf } from './nominalSizes';
import type { Provenance } from './table';
import { finder, readTable } from './table';

export interface FittingLoss extends Provenance {
  id: string;
  label: string;
  /** Coefficient is this × friction factor of the size (Crane); absent where size does not matter. */
  perFrictionFactor?: number;
  /** On the velocity head of the pipe it belongs to, for 1 in. */
  K: number;
  low: number;
  high: number;
}

export interface FullyTurbulentFriction extends Provenance {
  nominal: string;
  fT: number;
}

export const fittingLosses: readonly FittingLoss[] = readTable<FittingLoss>(table.about, table.table);
export const frictionFactors: readonly FullyTurbulentFriction[] = readTable<FullyTurbulentFriction>(
  table.about,
  table.frictionFactors,
);

export const findFittingLoss = finder(fittingLosses, (row) => row.id);
const frictionOf = finder(frictionFactors, (row) => row.nominal);

/** Loss coefficient of a fitting in a nominal size; that of 1 in when the size is not in the table. */
export function fittingK(loss: FittingLoss, nominal: string): number {
  const friction = frictionOf(inchSizeOf(nominal) ?? '');
  return loss.perFrictionFactor === undefined || friction === undefined
    ? loss.K
    : loss.perFrictionFactor * friction.fT;
}

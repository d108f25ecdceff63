import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { usualUnit } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';

/** A quantity as it was typed; without a unit, in the one that the person reads. */
export const read = (text: string, kind: QuantityKind, system: UnitSystem) =>
  parseQuantity(text, kind, kind === 'money' || kind === 'count' ? undefined : usualUnit(kind, system));

import { DomainError } from '@sunlap/engine/numeric/errors';
import type { QuantityKind } from './kinds';
import { KINDS, unitsOf } from './kinds';
import type { Unit } from './unitTable';

/**
 * The unit of a kind by its id.
 * @throws {DomainError} when the kind has no such unit
 */
export function unitById(kind: QuantityKind, id: string): Unit {
  const found = unitsOf(kind).find((unit) => unit.id === id);
  if (found === undefined) throw new DomainError(`unit of ${KINDS[kind].words}`, id, knownIds(kind));
  return found;
}

const knownIds = (kind: QuantityKind): string =>
  unitsOf(kind)
    .map((unit) => unit.id)
    .join(', ');

/** @example toHouse(82, 'temperature', '°F') // 27.777… °C */
export function toHouse(value: number, kind: QuantityKind, unitId: string): number {
  const { factor, offset = 0 } = unitById(kind, unitId);
  return (value + offset) * factor;
}

/** @example fromHouse(0.001, 'flow', 'gpm') // 15.850… */
export function fromHouse(value: number, kind: QuantityKind, unitId: string): number {
  const { factor, offset = 0 } = unitById(kind, unitId);
  return value / factor - offset;
}

import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { usualUnit } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';

/** Heat and power are known to three figures at best, and never shown with more. */
export function show(value: number, kind: QuantityKind, system: UnitSystem) {
  const finite = Number.isFinite(value) ? value : 0;
  const shown = formatQuantity(finite, kind, system);
  if ((kind !== 'heatRate' && kind !== 'power') || Math.abs(shown.value) < 1000) return shown;
  return formatQuantity((finite * Number(shown.value.toPrecision(3))) / shown.value, kind, system);
}

/** `show` as one text. */
export const say = (value: number | null | undefined, kind: QuantityKind, system: UnitSystem): string =>
  value === null || value === undefined || !Number.isFinite(value) ? '–' : show(value, kind, system).text;

/** A difference with its sign. Temperatures differ by degrees, not by a temperature. */
export function difference(value: number, kind: QuantityKind, system: UnitSystem): string {
  const of = kind === 'temperature' ? 'temperatureDifference' : kind;
  const { number, unit } = show(Math.abs(value), of, system);
  return `${value < 0 ? '−' : '+'}${number}${unit === '' ? '' : ` ${unit}`}`;
}

export const read = (text: string, kind: QuantityKind, system: UnitSystem) =>
  parseQuantity(text, kind, kind === 'money' || kind === 'count' ? undefined : usualUnit(kind, system));

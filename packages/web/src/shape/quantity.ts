import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { printed } from '@sunlap/workbench/flow/say';

/** Heat and power are known to three figures at best, and never shown with more. */
export function show(value: number, kind: QuantityKind, system: UnitSystem) {
  const finite = Number.isFinite(value) ? value : 0;
  const exact = formatQuantity(finite, kind, system);
  const coarse = (kind === 'heatRate' || kind === 'power') && Math.abs(exact.value) >= 1000;
  const shown = coarse
    ? formatQuantity((finite * Number(exact.value.toPrecision(3))) / exact.value, kind, system)
    : exact;
  return { ...shown, text: printed(shown.text), number: printed(shown.number) };
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

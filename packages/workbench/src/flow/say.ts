import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';

/** Writes quantities into a notice as the person of the project likes to read them. */
export type Say = (value: number, kind: QuantityKind) => string;

export function sayIn(system: UnitSystem): Say {
  return (value, kind) =>
    Number.isFinite(value) ? printed(formatQuantity(value, kind, system).text) : 'unknown';
}

/** A minus as it is printed; reading takes either. @example printed('-4870 Btu/h') // '−4870 Btu/h' */
export const printed = (text: string): string => text.replace(/^-(?=[\d.])/, '−');

/**
 * A value as it stands beside another: with a digit more, two at most, where both would read alike.
 *
 * @example sayBeside(0.11, 0.13, 'temperatureDifference', 'us') // '0.20 °F', beside '0.23 °F'
 */
export function sayBeside(value: number, other: number, kind: QuantityKind, system: UnitSystem): string {
  if (!(Number.isFinite(value) && Number.isFinite(other))) return sayIn(system)(value, kind);
  let [own, beside] = [formatQuantity(value, kind, system), formatQuantity(Math.abs(other), kind, system)];
  const usual = own.number.split('.')[1]?.length ?? 0;
  const alike = (): boolean => own.number.replace(/^-/, '') === beside.number;
  for (
    let decimals = usual + 1;
    alike() && Math.abs(value) !== Math.abs(other) && decimals <= usual + 2;
    decimals++
  ) {
    own = formatQuantity(value, kind, system, { decimals });
    beside = formatQuantity(Math.abs(other), kind, system, { decimals });
  }
  return printed(own.text);
}

/** @example percent(0.123) // '12 %' */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** A list of tube numbers in words, runs drawn together. @example numberRuns([1, 2, 3, 7]) // '1–3, 7' */
export function numberRuns(numbers: readonly number[]): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const runs: string[] = [];
  for (let i = 0; i < sorted.length; i++) {
    const start = sorted[i];
    while (i + 1 < sorted.length && sorted[i + 1] === sorted[i] + 1) i++;
    runs.push(start === sorted[i] ? `${start}` : `${start}–${sorted[i]}`);
  }
  return runs.join(', ');
}

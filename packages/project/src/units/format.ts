import { DomainError } from '@sunlap/engine/numeric/errors';
import { fromHouse } from './convert';
import type { DisplayRule, QuantityKind, UnitSystem } from './kinds';
import { KINDS, ruleOf } from './kinds';
import type { Rounding } from './numberText';
import { decimalsFor, grouped, mixedFraction, roundTo } from './numberText';

export interface FormatOptions {
  /** Show in this unit instead of the usual one. */
  unit?: string;
  /** Significant digits, decimals, finest fraction (16 for 1/16 in) instead of the usual. */
  significant?: number;
  decimals?: number;
  fraction?: number;
  rounding?: Rounding;
  /** Currency written behind money. */
  currency?: string;
}

export interface Formatted {
  /** Number and unit; `parseQuantity` reads it back. */
  text: string;
  /** The number alone, for faces that set the unit smaller. Feet and inches are whole in `number`. */
  number: string;
  /** Unit behind `number`; empty for counts, and for feet with inches. */
  unit: string;
  /** The number as shown, in the unit shown (feet for feet and inches). */
  value: number;
  /** Heat in US units: the same in W or kW. */
  beside?: string;
}

/** What would need more is nothing in the unit that the person reads. */
const MOST_DECIMALS = 9;

/**
 * Writes a house value as a person of that system likes to read it.
 * @throws {DomainError} when the value is not finite or the kind lacks the unit
 * @example formatQuantity(0.0011356, 'flow', 'us').text // '18.0 gpm'
 * @example formatQuantity(12.954, 'length', 'us').text // '42 ft 6 in'
 */
export function formatQuantity(
  value: number,
  kind: QuantityKind,
  system: UnitSystem,
  options: FormatOptions = {},
): Formatted {
  if (!Number.isFinite(value))
    throw new DomainError(`${KINDS[kind].words} to show`, value, 'a finite number');
  const rule = ruleFor(value, kind, system, options);
  const separator = system === 'us' ? ',' : '\u00A0';
  const rounding = options.rounding ?? 'nearest';
  const shown = KINDS[kind].dimension === undefined ? value : fromHouse(value, kind, rule.unit);

  if ('feetInches' in rule.digits) return feetAndInches(shown, rule.digits.feetInches, rounding, separator);
  if ('fraction' in rule.digits) {
    const parts = Math.round(roundTo(shown * rule.digits.fraction, 1, rounding));
    const number = `${parts < 0 ? '-' : ''}${mixedFraction(Math.abs(parts), rule.digits.fraction)}`;
    return withUnit(number, parts / rule.digits.fraction, rule.unit);
  }
  const decimals =
    'decimals' in rule.digits ? rule.digits.decimals : decimalsFor(shown, rule.digits.significant);
  const rounded = rounding === 'nearest' ? shown : roundTo(shown, 10 ** -decimals, rounding);
  let digits = rounded.toFixed(decimals);
  if (kind === 'diameter' && digits.includes('.')) digits = digits.replace(/\.?0+$/, '');
  if (Number(digits) === 0) digits = digits.replace('-', '');
  // a remnant of something that is not there
  if ('significant' in rule.digits && decimals > MOST_DECIMALS) digits = '0';
  const number = grouped(digits, separator);
  const unit = kind === 'money' ? (options.currency ?? '') : rule.unit;
  const result = withUnit(number, Number(digits), unit);
  if (kind === 'heatRate' && system === 'us' && options.unit === undefined)
    result.beside = formatQuantity(value, kind, 'metric').text;
  return result;
}

function ruleFor(value: number, kind: QuantityKind, system: UnitSystem, options: FormatOptions): DisplayRule {
  const usual = ruleOf(kind, system, value);
  const { unit, significant, decimals, fraction } = options;
  if (significant !== undefined) return { unit: unit ?? usual.unit, digits: { significant } };
  if (decimals !== undefined) return { unit: unit ?? usual.unit, digits: { decimals } };
  if (fraction !== undefined && unit === undefined)
    return {
      unit: usual.unit,
      digits: 'feetInches' in usual.digits ? { feetInches: fraction } : { fraction },
    };
  if (unit === undefined) return usual;
  const known = [...KINDS[kind].us, ...KINDS[kind].metric].find((rule) => rule.unit === unit);
  return { unit, digits: fraction === undefined ? (known?.digits ?? { significant: 4 }) : { fraction } };
}

function withUnit(number: string, value: number, unit: string): Formatted {
  const words = unit === 'in/ft' ? 'in per ft' : unit;
  const gap = words === '' || words === '°' ? '' : ' ';
  return { text: `${number}${gap}${words}`, number, unit, value: value === 0 ? 0 : value };
}

function feetAndInches(feet: number, fraction: number, rounding: Rounding, separator: string): Formatted {
  const parts = Math.round(roundTo(feet * 12 * fraction, 1, rounding));
  const size = Math.abs(parts);
  const wholeFeet = Math.floor(size / (12 * fraction));
  const rest = size - wholeFeet * 12 * fraction;
  const inches = `${mixedFraction(rest, fraction)} in`;
  const ft = `${grouped(String(wholeFeet), separator)} ft`;
  const body = wholeFeet === 0 ? inches : rest === 0 ? ft : `${ft} ${inches}`;
  const text = `${parts < 0 ? '-' : ''}${body}`;
  return { text, number: text, unit: '', value: parts === 0 ? 0 : parts / (12 * fraction) };
}

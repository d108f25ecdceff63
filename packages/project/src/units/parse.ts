import { unitById } from './convert';
import type { QuantityKind } from './kinds';
import { KINDS, unitsOf, usualUnit } from './kinds';
import { inchText, plainNumber } from './numberText';
import type { Parsed } from './parsed';
import { failure } from './parsed';
import { readCount, readMoney } from './plainKinds';
import { readable } from './readable';
import { readNumber } from './readNumber';
import { readBearing, readSlope } from './specialForms';
import type { Unit } from './unitTable';

const LONGEST = 80;

/**
 * Reads a quantity the way people write it. Never throws on text; a bare number is in the preferred unit.
 *
 * @param text          what the person typed
 * @param kind          what the field holds
 * @param preferredUnit unit id of the field; for money the currency; by default the usual metric one
 * @returns the value in the house unit of the kind (°C, Pa, m³/s, …; slope as rise over run, share as 0…1,
 *          angles in degrees), or what could not be read, where, and what was expected
 * @throws {DomainError} when the kind has no such preferred unit (a programmer's mistake)
 * @example parseQuantity('42 ft 6 in', 'length', 'm') // value 12.954, unit 'ft', canonicalText '42 ft 6 in'
 */
export function parseQuantity(text: string, kind: QuantityKind, preferredUnit?: string): Parsed {
  const spec = KINDS[kind];
  const preferred = preferredUnit ?? (kind === 'money' ? '' : usualUnit(kind, 'metric'));
  if (spec.dimension !== undefined) unitById(kind, preferred);
  if (text.length > LONGEST) return failure(kind, 'The text is too long for a quantity', LONGEST);

  const { text: clean, at } = readable(text);
  if (clean === '') return failure(kind, 'Nothing was typed', 0);
  const fail = (problem: string, index: number): Parsed =>
    failure(kind, problem, at[Math.min(index, at.length - 1)]);

  if (kind === 'money') return readMoney(clean, preferred, fail);
  if (kind === 'count') return readCount(clean, fail);
  if (kind === 'bearing' || kind === 'slope') {
    const special = kind === 'bearing' ? readBearing(clean) : readSlope(clean);
    if (special !== undefined) return special;
  }
  return readParts(clean, kind, preferred, fail);
}

interface Part {
  value: number;
  unit: Unit;
}

function readParts(
  text: string,
  kind: QuantityKind,
  preferred: string,
  fail: (problem: string, index: number) => Parsed,
): Parsed {
  const signed = /^([+-]) ?/.exec(text);
  const negative = signed?.[1] === '-';
  let place = signed?.[0].length ?? 0;
  let closing = 1;
  const parts: Part[] = [];

  while (place < text.length) {
    const hemisphere = kind === 'angle' && parts.length > 0 ? /^ ?([nsew])$/.exec(text.slice(place)) : null;
    if (hemisphere) {
      closing = hemisphere[1] === 's' || hemisphere[1] === 'w' ? -1 : 1;
      break;
    }
    const previous = parts.at(-1);
    if (previous !== undefined) {
      if (previous.unit.smaller === undefined)
        return fail(`“${text.slice(place).trim()}” was not expected here`, place);
      place += /^[ ,]*(?:- ?|and )?/.exec(text.slice(place))?.[0].length ?? 0;
    }

    const read = readNumber(text, place);
    if ('problem' in read) return fail(capital(read.problem), place);
    const unitAt = text[read.end] === ' ' ? read.end + 1 : read.end;
    const found = matchUnit(text, unitAt, kind, preferred);
    const unit = found?.unit ?? impliedUnit(text, place, read.end, kind, preferred, previous?.unit);
    if (unit === undefined) return fail(noUnit(text.slice(unitAt), kind), unitAt);
    const typed = text.slice(place, read.end);
    if (isEitherWay(typed, kind, unit.id, preferred)) return fail(eitherWay(typed), place);
    const problem = previous === undefined ? undefined : misfit(previous, { value: read.value, unit });
    if (problem !== undefined) return fail(problem, place);
    parts.push({ value: read.value, unit });
    place = found?.end ?? read.end;
  }
  if (parts.length === 0) return fail('A number was expected', place);
  return total(parts, negative ? -closing : closing, kind, fail);
}

const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);

function noUnit(rest: string, kind: QuantityKind): string {
  if (rest === '') return 'The last number needs its unit';
  return /^[-/\d]/.test(rest)
    ? `“${rest}” after the number could not be read`
    : `“${rest}” is not a unit of ${KINDS[kind].words}`;
}

/**
 * One comma before three digits, in metric: thousands to one person, decimals to the next. US units have no decimal
 * comma, and nobody writes thousands behind a lone zero.
 */
function isEitherWay(typed: string, kind: QuantityKind, unit: string, preferred: string): boolean {
  const metricOnly = (id: string): boolean =>
    KINDS[kind].metric.some((rule) => rule.unit === id) && !KINDS[kind].us.some((rule) => rule.unit === id);
  return /^[1-9]\d{0,2},\d{3}$/.test(typed) && metricOnly(unit) && metricOnly(preferred);
}

const eitherWay = (typed: string): string =>
  `“${typed}” is ${typed.replace(',', '')} or ${typed.replace(',', '.')}: write it without the comma, or with a point`;

/** Why a part cannot follow the one before it in a compound such as 42 ft 6 in. */
function misfit(before: Part, part: Part): string | undefined {
  if (!(before.unit.smaller ?? []).includes(part.unit.id))
    return `${part.unit.id} does not follow ${before.unit.id}`;
  if (!Number.isInteger(before.value))
    return `Only the last part may have a fraction (${before.value} ${before.unit.id})`;
  if (!(part.value * part.unit.factor < before.unit.factor * (1 - 1e-12)))
    return `${part.value} ${part.unit.id} is a whole ${before.unit.id} or more`;
  return undefined;
}

/** The unit of a number that names none: the field's, or the next smaller one behind 42 ft. */
function impliedUnit(
  text: string,
  start: number,
  end: number,
  kind: QuantityKind,
  preferred: string,
  previous: Unit | undefined,
): Unit | undefined {
  if (end < text.length) return undefined;
  if (previous === undefined) return unitById(kind, preferred);
  // 5ft2 might be meant as square feet.
  const mayBePower = /[a-z]/.test(text[start - 1]) && /^[23]$/.test(text.slice(start, end));
  if (previous.smaller === undefined || previous.bareSmaller === false || mayBePower) return undefined;
  return unitById(kind, previous.smaller[0]);
}

function total(
  parts: readonly Part[],
  sign: number,
  kind: QuantityKind,
  fail: (problem: string, index: number) => Parsed,
): Parsed {
  const { unit } = parts[0];
  const value =
    parts.length === 1
      ? (sign * parts[0].value + (unit.offset ?? 0)) * unit.factor
      : sign * parts.reduce((sum, part) => sum + part.value * part.unit.factor, 0);
  if (!Number.isFinite(value)) return fail('The number is too large', 0);
  if (kind === 'temperature' && value < -273.15) return fail('Nothing is colder than −273.15 °C', 0);
  const body = parts.map((part) => partText(part)).join(' ');
  const canonicalText = `${sign < 0 && value !== 0 ? '-' : ''}${body}`;
  return { ok: true, value: value === 0 ? 0 : value, unit: unit.id, canonicalText };
}

function partText({ value, unit }: Part): string {
  const number = unit.id === 'in' || unit.id === 'in/ft' ? inchText(value) : plainNumber(value);
  return unit.id === '1' ? number : `${number} ${unit.id}`;
}

type Names = ReadonlyArray<readonly [string, Unit]>;
const namesOfKind = new Map<QuantityKind, Names>();

/** Every written form of a kind's units, longest first. */
function namesOf(kind: QuantityKind): Names {
  let names = namesOfKind.get(kind);
  if (names === undefined) {
    names = unitsOf(kind)
      .flatMap((unit) => unit.names.map((name) => [readable(name).text, unit] as const))
      .sort((a, b) => b[0].length - a[0].length);
    namesOfKind.set(kind, names);
  }
  return names;
}

function matchUnit(
  text: string,
  place: number,
  kind: QuantityKind,
  preferred: string,
): { unit: Unit; end: number } | undefined {
  for (const [name, unit] of namesOf(kind)) {
    if (!text.startsWith(name, place)) continue;
    const end = place + name.length;
    const next = text[end] ?? '';
    const cutsWord = /\p{L}$/u.test(name) && /[\p{L}/]/u.test(next);
    const cutsPower = /\d$/.test(name) && /\d/.test(next);
    if (!cutsWord && !cutsPower) return { unit, end };
  }
  const degrees = kind.startsWith('temperature') ? /^(?:°|deg|degrees)$/.exec(text.slice(place)) : null;
  return degrees ? { unit: unitById(kind, preferred), end: text.length } : undefined;
}

/** A number read from `start`, ending before `end`; or why there is none. */
export type NumberRead = { value: number; end: number; whole: boolean } | { problem: string };

const MIXED = /(\d+)(?: | ?- ?)(\d+)\/(\d+)(?![\d.,/])/y;
const FRACTION = /(\d+)\/(\d+)(?![\d.,/])/y;
const SPACED = /\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,/])/y;
const PLAIN = /[.,]?\d(?:[\d.,]*\d)?\.?/y;
const EXPONENT = /e[+-]?\d+/y;

const match = (pattern: RegExp, text: string, start: number): RegExpExecArray | null => {
  pattern.lastIndex = start;
  return pattern.exec(text);
};

/**
 * Reads an unsigned number as people write it: `3/4`, `1-1/2`, `1 1/2`, `12,500`, `12 500`, `1.234,5`, `0,5`,
 * `1.2e3`. A single comma before exactly three digits separates thousands, unless a lone zero stands before it;
 * otherwise it is a decimal comma. A single point is always the decimal point. (In a metric field `parseQuantity` asks
 * which of the two such a comma is.)
 * @param text lower case, typographic marks already plain (see `readable`)
 */
export function readNumber(text: string, start: number): NumberRead {
  const mixed = match(MIXED, text, start);
  if (mixed) return fraction(Number(mixed[1]), Number(mixed[2]), Number(mixed[3]), start + mixed[0].length);
  const simple = match(FRACTION, text, start);
  if (simple) return fraction(0, Number(simple[1]), Number(simple[2]), start + simple[0].length);

  const token = match(SPACED, text, start) ?? match(PLAIN, text, start);
  if (!token) return { problem: 'a number was expected' };
  const digits = asDecimal(token[0].replaceAll(' ', ''));
  if (digits === undefined) return { problem: `“${token[0]}” mixes points and commas in no known way` };
  let end = start + token[0].length;
  const exponent = match(EXPONENT, text, end);
  if (exponent) end += exponent[0].length;
  const value = Number(digits + (exponent?.[0] ?? ''));
  if (!Number.isFinite(value)) return { problem: 'the number is too large' };
  return { value, end, whole: Number.isInteger(value) };
}

function fraction(whole: number, top: number, bottom: number, end: number): NumberRead {
  if (!(bottom > 0)) return { problem: 'a fraction cannot have 0 below the line' };
  if (whole > 0 && top >= bottom) return { problem: `${top}/${bottom} after ${whole} is not a part of one` };
  const value = whole + top / bottom;
  if (!Number.isFinite(value)) return { problem: 'the number is too large' };
  return { value, end, whole: Number.isInteger(value) };
}

/** Digits with a point for the decimals and nothing else, or undefined when the separators contradict. */
function asDecimal(token: string): string | undefined {
  const commas = token.split(',').length - 1;
  const points = token.split('.').length - 1;
  if (commas === 0 && points <= 1) return token;
  if (commas === 0) return /^\d{1,3}(\.\d{3})+$/.test(token) ? token.replaceAll('.', '') : undefined;
  if (points === 0) {
    if (/^[1-9]\d{0,2}(,\d{3})+$/.test(token)) return token.replaceAll(',', '');
    return commas === 1 ? token.replace(',', '.') : undefined;
  }
  if (/^\d{1,3}(,\d{3})+\.\d*$/.test(token)) return token.replaceAll(',', '');
  if (/^\d{1,3}(\.\d{3})+,\d+$/.test(token)) return token.replaceAll('.', '').replace(',', '.');
  return undefined;
}

/** Rounding of a shown number. A least length is rounded up, a greatest one down. */
export type Rounding = 'nearest' | 'up' | 'down';

/** Rounds to a multiple of a step; a value within 1e-9 of a multiple counts as on it. */
export function roundTo(value: number, step: number, rounding: Rounding): number {
  const n = value / step;
  const near = Math.round(n);
  if (rounding === 'nearest' || Math.abs(n - near) < 1e-9 * Math.max(1, Math.abs(n))) return near * step;
  return (rounding === 'up' ? Math.ceil(n) : Math.floor(n)) * step;
}

/** Decimals that leave so many significant digits, never negative. */
export function decimalsFor(value: number, significant: number): number {
  const size = Math.abs(value);
  if (!(size > 0)) return 0;
  const decimals = significant - 1 - Math.floor(Math.log10(size) + 1e-12);
  return Math.min(20, Math.max(0, decimals));
}

/** Thousands in groups of three from five digits on; `separator` a comma or a no-break space. */
export function grouped(digits: string, separator: string): string {
  if (digits.includes('e')) return digits;
  const [whole, part] = digits.split('.');
  const body = whole.replace('-', '');
  const groups = body.length > 4 ? body.replace(/\B(?=(\d{3})+$)/g, separator) : body;
  return `${whole.startsWith('-') ? '-' : ''}${groups}${part === undefined ? '' : `.${part}`}`;
}

/** A whole number of parts as a builder writes it: 43 sixteenths → `2-11/16`. Not negative. */
export function mixedFraction(parts: number, denominator: number): string {
  const whole = Math.floor(parts / denominator);
  let top = parts - whole * denominator;
  if (!(top > 0)) return String(whole);
  let bottom = denominator;
  while (top % 2 === 0 && bottom % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return whole > 0 ? `${whole}-${top}/${bottom}` : `${top}/${bottom}`;
}

/** The shortest text that reads back as the same number to nine digits. */
export function plainNumber(value: number): string {
  const text = String(Number(value.toPrecision(9)));
  return text === '-0' ? '0' : text;
}

/** A length in inches: a fraction where it is one (to 1/64), else decimals. */
export function inchText(inches: number): string {
  const parts = Math.round(inches * 64);
  const isFraction = inches >= 0 && parts < 1e6 && Math.abs(inches * 64 - parts) < 1e-6;
  return isFraction ? mixedFraction(parts, 64) : plainNumber(inches);
}

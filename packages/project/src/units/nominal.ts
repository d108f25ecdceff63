import { mixedFraction } from './numberText';
import { readable } from './readable';
import { readNumber } from './readNumber';

/**
 * A nominal pipe size as its designation: `3/4`, `1-1/2`, `50`. It is a name, never converted: nominal 1/2 in
 * pipe measures 0.84 in outside.
 * @example readNominal('1½"') // '1-1/2'
 * @example readNominal('DN 50') // '50'
 */
export function readNominal(text: string): string | undefined {
  if (text.length > 24) return undefined;
  const clean = readable(text).text.replace(/^(?:dn|nps|nominal|d) ?/, '');
  const read = readNumber(clean, 0);
  if ('problem' in read || !(read.value > 0 && read.value < 1000)) return undefined;
  if (!/^ ?(?:"|in|inch|inches|mm|nps)?$/.test(clean.slice(read.end))) return undefined;
  const eighths = read.value * 8;
  return Number.isInteger(eighths) ? mixedFraction(eighths, 8) : undefined;
}

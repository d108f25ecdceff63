import { plainNumber } from './numberText';
import type { Parsed } from './parsed';
import { readNumber } from './readNumber';

type Fail = (problem: string, index: number) => Parsed;

const DOLLARS = ['usd', 'aud', 'cad', 'nzd', 'us$', 'au$', 'a$', 'c$', 'nz$', '$'];
const SIGNS: Readonly<Record<string, readonly string[]>> = {
  $: DOLLARS,
  '€': ['eur', '€'],
  '£': ['gbp', '£'],
  eur: ['eur', '€'],
  gbp: ['gbp', '£'],
  usd: ['usd', 'us$', '$'],
  aud: ['aud', 'au$', 'a$', '$'],
  cad: ['cad', 'c$', '$'],
  nzd: ['nzd', 'nz$', '$'],
};

const sameCurrency = (a: string, b: string): boolean =>
  a === b || (SIGNS[a] ?? []).includes(b) || (SIGNS[b] ?? []).includes(a);

/** Money is counted in one currency, the project's; nothing is converted. Cents are hundredths of it. */
export function readMoney(text: string, currency: string, fail: Fail): Parsed {
  const start = /^(-?)((?:[a-z]{0,3}\p{Sc}|[a-z]{3})?)( ?)(-?)/u.exec(text);
  const place = start?.[0].length ?? 0;
  const read = readNumber(text, place);
  if ('problem' in read) return fail('A price was expected', place);
  const before = start?.[2] ?? '';
  const after = text.slice(read.end).trim();
  const isCents = after === '¢' || after === 'ct' || after === 'cent' || after === 'cents';
  const named = before !== '' ? before : isCents ? '' : after;
  if (before !== '' && after !== '' && !isCents) return fail(`“${after}” was not expected here`, read.end);
  if (named !== '' && !/^(?:[a-z]{0,3}\p{Sc}|[a-z]{3})$/u.test(named))
    return fail(`“${named}” is not a currency`, read.end);
  if (named !== '' && currency !== '' && !sameCurrency(named, currency.toLowerCase()))
    return fail(`This project counts in ${currency}`, before === '' ? read.end : 0);

  const sign = start?.[1] === '-' || start?.[4] === '-' ? -1 : 1;
  const amount = (sign * read.value) / (isCents ? 100 : 1);
  const value = amount === 0 ? 0 : amount;
  const unit = currency === '' ? named.toUpperCase() : currency;
  return { ok: true, value, unit, canonicalText: `${plainNumber(value)}${unit === '' ? '' : ` ${unit}`}` };
}

/** A whole number of things, none negative. */
export function readCount(text: string, fail: Fail): Parsed {
  const read = readNumber(text, 0);
  if ('problem' in read) return fail('A whole number was expected', 0);
  if (read.end < text.length) return fail(`“${text.slice(read.end).trim()}” was not expected here`, read.end);
  if (!Number.isSafeInteger(read.value)) return fail('It must be a whole number', 0);
  return { ok: true, value: read.value, unit: '', canonicalText: String(read.value) };
}

/** Text made uniform for reading, with the place of each character in what the person typed. */
export interface Readable {
  text: string;
  /** Index in the original of each character of `text`, and of its end. */
  at: readonly number[];
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

const SAME: Readonly<Record<string, string>> = {
  '′': "'",
  '‘': "'",
  '’': "'",
  '´': "'",
  '`': "'",
  '″': '"',
  '“': '"',
  '”': '"',
  '−': '-',
  '–': '-',
  '—': '-',
  '⁄': '/',
  '∕': '/',
  º: '°',
  '˚': '°',
  '·': ' ',
  '⋅': ' ',
};

const isDigit = (c: string | undefined): boolean => c !== undefined && c >= '0' && c <= '9';
const isLetter = (c: string | undefined): boolean => c !== undefined && /\p{L}/u.test(c);

/**
 * Lower case; typographic marks as plain ones; ½ as 1/2; ² as 2; `per` as `/`; no space round `/`; no full stop
 * behind a word; runs of space as one.
 * @example readable('1½ in. per ft').text // '1 1/2 in/ft'
 */
export function readable(original: string): Readable {
  const chars: string[] = [];
  const at: number[] = [];
  const push = (text: string, index: number): void => {
    for (let k = 0; k < text.length; k++) {
      chars.push(text[k]);
      at.push(index);
    }
  };

  let index = 0;
  for (const c of original) {
    const fraction = FRACTIONS[c];
    if (fraction !== undefined) push(isDigit(chars.at(-1)) ? ` ${fraction}` : fraction, index);
    else if (SAME[c] !== undefined) push(SAME[c], index);
    else push(/\s/u.test(c) ? ' ' : c.normalize('NFKC').toLowerCase(), index);
    index += c.length;
  }

  const out: string[] = [];
  const place: number[] = [];
  for (let i = 0; i < chars.length; i++) {
    const c = chars[i];
    const before = out.at(-1);
    if (c === '^') continue;
    if (c === '.' && isLetter(before) && !isDigit(chars[i + 1])) continue;
    if (c === ' ' && (before === undefined || before === ' ' || before === '/')) continue;
    if (c === "'" && before === "'") {
      out[out.length - 1] = '"';
      continue;
    }
    const isPer =
      c === 'p' && before === ' ' && chars[i + 1] === 'e' && chars[i + 2] === 'r' && chars[i + 3] === ' ';
    if ((c === '/' || isPer) && before === ' ') {
      out[out.length - 1] = '/';
      if (isPer) i += 2;
      continue;
    }
    out.push(c);
    place.push(at[i]);
  }
  while (out.at(-1) === ' ') {
    out.pop();
    place.pop();
  }
  return { text: out.join(''), at: [...place, original.length] };
}

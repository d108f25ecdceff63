/** Largest weather file taken [bytes]: ten years of minutes are smaller. */
export const LARGEST_FILE = 64 * 1024 * 1024;

const CHUNK = 8192;

/**
 * Text of a file: UTF-8, UTF-16 of either order by its mark or by its zeros, and where bytes are no UTF-8, Latin-1.
 * Everything that saves a table is one of these.
 */
export function textOfBytes(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return utf16(bytes, 2, true);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return utf16(bytes, 2, false);
  const head = bytes.subarray(0, 400);
  let even = 0;
  let odd = 0;
  head.forEach((b, i) => {
    if (b !== 0) return;
    if (i % 2 === 1) odd++;
    else even++;
  });
  if (odd > head.length / 4 && even === 0) return utf16(bytes, 0, true);
  if (even > head.length / 4 && odd === 0) return utf16(bytes, 0, false);
  const start = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  return utf8(bytes, start) ?? latin1(bytes, start);
}

function utf16(bytes: Uint8Array, start: number, little: boolean): string {
  const units: string[] = [];
  for (let from = start; from < bytes.length; from += 2 * CHUNK) {
    const part = new Uint16Array(Math.floor((Math.min(bytes.length, from + 2 * CHUNK) - from) / 2));
    const [low, high] = little ? [0, 1] : [1, 0];
    for (let k = 0, i = from; k < part.length; k++, i += 2) part[k] = bytes[i + low] | (bytes[i + high] << 8);
    units.push(ofCodes(part));
  }
  return units.join('');
}

function latin1(bytes: Uint8Array, start: number): string {
  const parts: string[] = [];
  for (let from = start; from < bytes.length; from += CHUNK)
    parts.push(ofCodes(bytes.subarray(from, from + CHUNK)));
  return parts.join('');
}

/** Text of a short run of UTF-16 units. */
function ofCodes(units: Uint8Array | Uint16Array): string {
  return String.fromCharCode.apply(null, units as unknown as number[]);
}

/** Strict UTF-8, or null at the first byte that is none. */
function utf8(bytes: Uint8Array, start: number): string | null {
  const parts: string[] = [];
  let part: number[] = [];
  for (let i = start; i < bytes.length; ) {
    if (part.length === 0) {
      // most tables are nothing but this
      const plain = asciiRun(bytes, i);
      if (plain > 0) parts.push(ofCodes(bytes.subarray(i, i + plain)));
      i += plain;
      if (plain > 0) continue;
    }
    const b = bytes[i];
    const more =
      b < 0x80 ? 0 : b >= 0xc2 && b < 0xe0 ? 1 : b >= 0xe0 && b < 0xf0 ? 2 : b >= 0xf0 && b < 0xf5 ? 3 : -1;
    if (more < 0 || i + more >= bytes.length + (more === 0 ? 1 : 0)) return null;
    let code = more === 0 ? b : b & (0x3f >> more);
    for (let k = 1; k <= more; k++) {
      const c = bytes[i + k];
      if ((c & 0xc0) !== 0x80) return null;
      code = (code << 6) | (c & 0x3f);
    }
    part.push(code);
    i += more + 1;
    if (part.length >= 64) {
      parts.push(String.fromCodePoint(...part));
      part = [];
    }
  }
  parts.push(String.fromCodePoint(...part));
  return parts.join('');
}

/** How many bytes of at most a chunk are ASCII, from a place on. */
function asciiRun(bytes: Uint8Array, from: number): number {
  const to = Math.min(bytes.length, from + CHUNK);
  let i = from;
  while (i < to && bytes[i] < 0x80) i++;
  return i - from;
}

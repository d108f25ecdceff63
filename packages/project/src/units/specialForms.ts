import { plainNumber } from './numberText';
import type { Parsed } from './parsed';
import { readNumber } from './readNumber';

const POINTS = 'n nne ne ene e ese se sse s ssw sw wsw w wnw nw nnw'.split(' ');
const WORDS: Readonly<Record<string, string>> = { north: 'n', east: 'e', south: 's', west: 'w' };

/** Compass words as degrees clockwise from north: `SSE`, `south-east`, `due north`. Else undefined. */
export function readBearing(text: string): Parsed | undefined {
  const letters = text
    .replace(/^due /, '')
    .replaceAll(/north|east|south|west/g, (word) => WORDS[word])
    .replaceAll(/[ -]/g, '');
  const index = POINTS.indexOf(letters);
  return index < 0
    ? undefined
    : { ok: true, value: index * 22.5, unit: '°', canonicalText: `${plainNumber(index * 22.5)} °` };
}

const LENGTH_M: Readonly<Record<string, number>> = {
  in: 0.0254,
  inch: 0.0254,
  inches: 0.0254,
  '"': 0.0254,
  ft: 0.3048,
  foot: 0.3048,
  feet: 0.3048,
  "'": 0.3048,
  mm: 1e-3,
  cm: 0.01,
  m: 1,
};

const TWO_LENGTHS = /^(in(?:ch(?:es)?)?|"|ft|foot|feet|'|mm|cm|m)? ?(?:\/|in|on|to|over|:) ?$/;
const DEGREES = /^(?:°|deg|degrees?)$/;

/** Slopes written as an angle (`2°`), a pair (`1:40`, `1 in 40`) or two lengths (`1 in per 10 ft`). Else undefined. */
export function readSlope(text: string): Parsed | undefined {
  const sign = text.startsWith('-') ? -1 : 1;
  const start = sign < 0 ? 1 : 0;
  const rise = readNumber(text, start);
  if ('problem' in rise) return undefined;
  const rest = text.slice(rise.end).trim();
  if (DEGREES.test(rest)) {
    if (!(rise.value < 90)) return undefined;
    const value = sign * Math.tan((rise.value * Math.PI) / 180);
    return { ok: true, value, unit: '°', canonicalText: `${plainNumber(sign * rise.value)} °` };
  }
  const digit = /\d/.exec(text.slice(rise.end));
  if (!digit) return undefined;
  const runAt = rise.end + digit.index;
  const run = readNumber(text, runAt);
  if ('problem' in run || !(run.value > 0)) return undefined;
  const between = text.slice(rise.end, runAt).trim();
  const runUnit = text.slice(run.end).trim();

  let riseUnit = '';
  const joined = TWO_LENGTHS.exec(between);
  if (joined) riseUnit = joined[1] ?? '';
  else if (Object.hasOwn(LENGTH_M, between) && Object.hasOwn(LENGTH_M, runUnit)) riseUnit = between;
  else return undefined;
  if (runUnit !== '' && between === 'in') riseUnit = 'in';
  if ((riseUnit === '') !== (runUnit === '') || (runUnit !== '' && !Object.hasOwn(LENGTH_M, runUnit)))
    return undefined;

  const scale = riseUnit === '' ? 1 : LENGTH_M[riseUnit] / LENGTH_M[runUnit];
  const value = (sign * rise.value * scale) / run.value;
  if (!Number.isFinite(value)) return undefined;
  return {
    ok: true,
    value: value === 0 ? 0 : value,
    unit: 'm/m',
    canonicalText: `${plainNumber(value)} m/m`,
  };
}

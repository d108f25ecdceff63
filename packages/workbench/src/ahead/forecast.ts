import { findSky } from '@sunlap/data/skies';
import { type UnitSystem, usualUnit } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';

/** Sky of a day: global light over that of the clear sky, with its interval, and cloud. */
export interface ForecastSky {
  readonly words: string;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly cloud: number;
}

/** One day as a forecast puts it. */
export interface ForecastDay {
  readonly high_C: number;
  readonly low_C: number;
  readonly sky: ForecastSky;
  /** Mean at 10 m, with its interval [m/s]. */
  readonly wind_ms: number;
  readonly windLow_ms: number;
  readonly windHigh_ms: number;
  /** Dew point less the nightly low [K]. */
  readonly dewOffset_K: number;
}

/** A part of the text that was not understood. */
export interface ForecastProblem {
  /** Day, from 1, and place in the whole text, from 1. */
  readonly day: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
  readonly message: string;
}

export type ForecastReading =
  | { readonly ok: true; readonly days: ForecastDay[] }
  | { readonly ok: false; readonly problems: ForecastProblem[] };

const sky = (id: string, words: string): ForecastSky => {
  const row = findSky(id)!;
  return { words, share: row.shareOfClear, low: row.low, high: row.high, cloud: row.cloud };
};

/** Words a forecast uses; those between the rows of the sky table are judgement. */
const SKIES: Record<string, () => ForecastSky> = {
  sunny: () => sky('clear', 'sunny'),
  clear: () => sky('clear', 'clear'),
  fair: () => sky('hazy', 'fair'),
  hazy: () => sky('hazy', 'hazy'),
  'mostly sunny': () => sky('hazy', 'mostly sunny'),
  thin: () => sky('thinCloud', 'thin cloud'),
  partly: () => sky('halfCloud', 'partly cloudy'),
  'partly cloudy': () => sky('halfCloud', 'partly cloudy'),
  'partly sunny': () => sky('halfCloud', 'partly sunny'),
  half: () => sky('halfCloud', 'half cloud'),
  'mostly cloudy': () => ({ words: 'mostly cloudy', share: 0.45, low: 0.3, high: 0.65, cloud: 0.8 }),
  cloudy: () => ({ words: 'cloudy', share: 0.35, low: 0.2, high: 0.5, cloud: 0.9 }),
  overcast: () => sky('overcast', 'overcast'),
  rain: () => ({ words: 'rain', share: 0.2, low: 0.1, high: 0.35, cloud: 1 }),
  rainy: () => ({ words: 'rain', share: 0.2, low: 0.1, high: 0.35, cloud: 1 }),
  storms: () => ({ words: 'storms', share: 0.4, low: 0.2, high: 0.6, cloud: 0.8 }),
};

/** Means over day and night at 10 m; judgement after the Beaufort scale. */
const WINDS: Record<string, readonly [number, number, number]> = {
  still: [0.5, 0, 1],
  calm: [1, 0.5, 2],
  light: [2, 1, 3.5],
  gentle: [3, 2, 4.5],
  breezy: [5, 3.5, 7],
  windy: [8, 6, 10.5],
  strong: [11, 8.5, 14],
  gale: [17, 13, 21],
};

/** Dew point by the nightly low; a forecast says humid when the night hardly cools below it. */
const HUMIDITY: Record<string, number> = { dry: -6, humid: 1.5, muggy: 2 };

const COLDEST_C = -45;
const HOTTEST_C = 58;
const MOST_DAYS = 10;
const EXPECTED =
  'a day as "84/66 sunny calm": high/low, a sky (sunny, hazy, partly, cloudy, overcast, rain) and a wind (calm, light, breezy, windy, or a speed)';

/**
 * Reads a typed forecast: days parted by `;`, each high/low, sky and wind in any order.
 *
 * Temperatures without a unit are in the person's. Sky and wind may be left out: then half cloud and light wind.
 *
 * @param text   `84/66 sunny calm; 80/64 cloudy breezy`
 * @param system units of bare numbers
 * @example readForecast('29/18 sunny calm', 'metric')
 */
export function readForecast(text: string, system: UnitSystem): ForecastReading {
  const problems: ForecastProblem[] = [];
  const days: ForecastDay[] = [];
  let column = 1;
  const pieces = text.split(/[;\n]/);
  pieces.forEach((piece, i) => {
    const start = column + (piece.length - piece.trimStart().length);
    column += piece.length + 1;
    if (piece.trim() === '' && (i === pieces.length - 1 || pieces.length > 1)) return;
    const day = readDay(piece.trim(), start, days.length + 1, system, problems);
    if (day) days.push(day);
  });
  if (days.length === 0 && problems.length === 0) problems.push(problem(1, 1, text, EXPECTED));
  if (days.length > MOST_DAYS)
    problems.push(problem(MOST_DAYS + 1, 1, `${days.length} days`, `at most ${MOST_DAYS} days`));
  return problems.length > 0 ? { ok: false, problems } : { ok: true, days };
}

function problem(day: number, column: number, found: string, expected: string): ForecastProblem {
  const short = found.length > 40 ? `${found.slice(0, 40)}…` : found;
  const got = short.trim() === '' ? 'nothing' : `“${short}”`;
  return {
    day,
    column,
    found: short,
    expected,
    message: `Day ${day}, at character ${column}: expected ${expected}, found ${got}`,
  };
}

function readDay(
  text: string,
  start: number,
  day: number,
  system: UnitSystem,
  problems: ForecastProblem[],
): ForecastDay | null {
  const before = problems.length;
  const fail = (at: number, found: string, expected: string): void => {
    problems.push(problem(day, start + at, found, expected));
  };
  let range: { high: number; low: number } | null = null;
  let skyFound: ForecastSky | null = null;
  let wind: readonly [number, number, number] | null = null;
  let dew: number | null = null;
  const words = [...text.matchAll(/[^\s,]+/g)].map((m) => ({ text: m[0], at: m.index }));
  for (let k = 0; k < words.length; k++) {
    const { text: raw, at } = words[k];
    const word = raw.toLowerCase();
    const two = k + 1 < words.length ? `${word} ${words[k + 1].text.toLowerCase()}` : '';
    if (raw.includes('/') && !/(m\/s|km\/h)$/i.test(raw)) {
      if (range) fail(at, raw, 'one high/low for a day');
      range = readRange(raw, system);
      if (!range) {
        fail(at, raw, `high/low, as ${system === 'us' ? '84/66' : '29/19'}`);
        range = { high: 0, low: 0 };
      } else if (!(range.low <= range.high)) fail(at, raw, 'the high before the low');
      else if (!(range.low >= COLDEST_C && range.high <= HOTTEST_C))
        fail(at, raw, `temperatures of weather, ${COLDEST_C} to ${HOTTEST_C} °C; is the unit right?`);
    } else if (Object.hasOwn(SKIES, two)) {
      if (skyFound) fail(at, two, 'one sky for a day');
      skyFound = SKIES[two]();
      k++;
    } else if (Object.hasOwn(SKIES, word)) {
      if (skyFound) fail(at, raw, 'one sky for a day');
      skyFound = SKIES[word]();
    } else if (Object.hasOwn(WINDS, word)) {
      if (wind) fail(at, raw, 'one wind for a day');
      wind = WINDS[word];
    } else if (Object.hasOwn(HUMIDITY, word)) {
      dew = HUMIDITY[word];
    } else if (/^[\d.]/.test(raw)) {
      // a speed may be one word or two
      const unit = k + 1 < words.length && /^(mph|m\/s|km\/h|kn|kt|kts|knots)$/i.test(words[k + 1].text);
      const whole = unit ? `${raw} ${words[++k].text}` : raw;
      const read = parseQuantity(whole, 'windSpeed', usualUnit('windSpeed', system));
      if (!read.ok || !(read.value >= 0 && read.value <= 40))
        fail(at, whole, 'a wind speed, as 8 mph or 3 m/s');
      else wind = [read.value, 0.75 * read.value, 1.25 * read.value];
    } else fail(at, raw, 'high/low, a sky, a wind, dry or humid');
  }
  if (!range && problems.length === before) fail(0, text, EXPECTED);
  if (problems.length > before || !range) return null;
  const [wind_ms, windLow_ms, windHigh_ms] = wind ?? [2.5, 1, 5];
  return {
    high_C: range.high,
    low_C: range.low,
    sky: skyFound ?? { ...SKIES.half(), words: 'not said', low: 0.2, high: 1 },
    wind_ms,
    windLow_ms,
    windHigh_ms,
    dewOffset_K: dew ?? 0,
  };
}

function readRange(text: string, system: UnitSystem): { high: number; low: number } | null {
  const [first, second, ...more] = text.split('/');
  if (second === undefined || more.length > 0) return null;
  const unit = /[a-z°]/i.test(second) && !/[a-z°]/i.test(first) ? second.replace(/[-−+\d.]/g, '') : '';
  const of = (part: string): number => {
    const read = parseQuantity(part, 'temperature', usualUnit('temperature', system));
    return read.ok ? read.value : Number.NaN;
  };
  const [high, low] = [of(first + unit), of(second)];
  return Number.isFinite(high) && Number.isFinite(low) ? { high, low } : null;
}

import { type UnitSystem, usualUnit } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';
import { skyRow, skyTexts } from '../heat/sky-words';

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

/** How a row is said where another word than the typed one is plainer. */
const SAID: Readonly<Record<string, string>> = {
  thin: 'thin cloud',
  thincloud: 'thin cloud',
  partly: 'partly cloudy',
  half: 'half cloud',
  halfcloud: 'half cloud',
};

function ofRow(text: string): ForecastSky {
  const row = skyRow(text)!;
  const words = Object.hasOwn(SAID, text) ? SAID[text] : text;
  return { words, share: row.shareOfClear, low: row.low, high: row.high, cloud: row.cloud };
}

const between = (words: string, share: number, low: number, high: number, cloud: number): ForecastSky => ({
  words,
  share,
  low,
  high,
  cloud,
});
const MOSTLY = between('mostly cloudy', 0.45, 0.3, 0.65, 0.8);
const CLOUDY = between('cloudy', 0.35, 0.2, 0.5, 0.9);
const RAIN = between('rain', 0.2, 0.1, 0.35, 1);
const SHOWERS = between('showers', 0.4, 0.2, 0.65, 0.8);
const STORMS = between('storms', 0.4, 0.2, 0.6, 0.8);
const FOG = between('fog', 0.5, 0.25, 0.8, 0.7);
const SNOW = between('snow', 0.25, 0.1, 0.4, 1);

/** Words a forecast uses; those beside the rows of the sky table are judgement. */
const SKIES: Readonly<Record<string, ForecastSky>> = {
  ...Object.fromEntries(skyTexts.map((text) => [text, ofRow(text)])),
  'mostly cloudy': MOSTLY,
  'broken clouds': MOSTLY,
  cloudy: CLOUDY,
  clouds: CLOUDY,
  rain: RAIN,
  rainy: RAIN,
  'heavy rain': RAIN,
  'light rain': RAIN,
  drizzle: RAIN,
  showers: SHOWERS,
  'rain showers': SHOWERS,
  'scattered showers': SHOWERS,
  'isolated showers': SHOWERS,
  storms: STORMS,
  stormy: STORMS,
  storm: STORMS,
  thunderstorm: STORMS,
  thunderstorms: STORMS,
  thunder: STORMS,
  't-storms': STORMS,
  'scattered thunderstorms': STORMS,
  'isolated thunderstorms': STORMS,
  'scattered storms': STORMS,
  fog: FOG,
  foggy: FOG,
  mist: FOG,
  misty: FOG,
  snow: SNOW,
};

/** Mean, least and most [m/s]. */
type Wind = readonly [number, number, number];

/** Means over day and night at 10 m; judgement after the Beaufort scale. */
const WINDS: Readonly<Record<string, Wind>> = {
  still: [0.5, 0, 1],
  calm: [1, 0.5, 2],
  light: [2, 1, 3.5],
  gentle: [3, 2, 4.5],
  breezy: [5, 3.5, 7],
  windy: [8, 6, 10.5],
  breeze: [4, 2, 6],
  'light breeze': [2.5, 1.5, 3.5],
  strong: [11, 8.5, 14],
  gale: [17, 13, 21],
};

/** Dew point by the nightly low; a forecast says humid when the night hardly cools below it. */
const HUMIDITY: Readonly<Record<string, number>> = { dry: -6, humid: 1.5, muggy: 2 };

const COLDEST_C = -45;
const HOTTEST_C = 58;
const MOST_DAYS = 10;
const EXPECTED =
  'a day as "84/66 sunny calm": high/low, a sky (sunny, hazy, thin cloud, partly cloudy, cloudy, overcast, fog, rain, showers, storms) and a wind (calm, light, breezy, windy, or a speed)';

/** Words that say nothing by themselves: “light wind”, “and”. */
const FILLERS: readonly string[] = ['and', 'with', 'wind', 'winds', 'sky', 'skies', 'a', 'some'];
const MOST_WORDS = 2;
const FASTEST_MS = 40;

const DEGREES = String.raw`[-−+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?\s*(?:°\s*)?(?:[CFK]\b|°)?`;
const SPEED_UNIT = String.raw`(?:mph|m\/s|km\/h|kmh|kph|knots|kts?|kn)\b`;
const at = (pattern: string): RegExp => new RegExp(pattern, 'iy');
/** `10-15 mph` */
const SPEEDS = at(String.raw`(\d+(?:\.\d+)?)\s*(?:-|–|to)\s*(\d+(?:\.\d+)?)\s*(${SPEED_UNIT})`);
const SPEED = at(String.raw`(\d+(?:\.\d+)?)\s*(${SPEED_UNIT})`);
/** `high 84 low 66`, in either order. */
const HIGH = String.raw`hi(?:gh)?s?(?:\s+of)?\s*:?\s*(${DEGREES})`;
const LOW = String.raw`lo(?:w)?s?(?:\s+of)?\s*:?\s*(${DEGREES})`;
const HIGH_LOW = at(String.raw`${HIGH}\s*[,/]?\s*(?:and\s+)?${LOW}`);
const LOW_HIGH = at(String.raw`${LOW}\s*[,/]?\s*(?:and\s+)?${HIGH}`);
/** `84/66`, `84 / 66`, `84-66`, `84 to 66` */
const RANGE = at(String.raw`(${DEGREES})\s*(?:\/|-|–|—|to\b)\s*(${DEGREES})(?=$|[\s,.])`);
const WORD = at(String.raw`[^\s,]+`);
const GAP = at(String.raw`[\s,]+`);

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
  const fail = (place: number, found: string, expected: string): void => {
    problems.push(problem(day, start + place, found, expected));
  };
  let range: { high: number; low: number } | null = null;
  let skyFound: ForecastSky | null = null;
  let wind: Wind | null = null;
  const windBy = new Set<'word' | 'figure'>();
  let dew: number | null = null;
  let k = 0;
  const take = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = k;
    return pattern.exec(text);
  };
  /** A figure goes before a word: “light winds 10-15 mph”. */
  const setWind = (found: string, value: Wind | null, by: 'word' | 'figure'): void => {
    if (!value) fail(k, found, 'a wind speed, as 8 mph or 3 m/s');
    else if (!(value[2] <= 1.25 * FASTEST_MS)) fail(k, found, 'a wind speed of at most 40 m/s (90 mph)');
    else if (windBy.has(by)) fail(k, found, 'one wind for a day');
    else if (by === 'figure' || !wind) wind = value;
    windBy.add(by);
  };
  const setRange = (found: string, read: { high: number; low: number } | null): void => {
    if (range) fail(k, found, 'one high/low for a day');
    range = read ?? { high: 0, low: 0 };
    if (!read) fail(k, found, `high/low, as ${system === 'us' ? '84/66' : '29/19'}`);
    else if (!(read.low <= read.high)) fail(k, found, 'the high before the low');
    else if (!(read.low >= COLDEST_C && read.high <= HOTTEST_C))
      fail(k, found, `temperatures of weather, ${COLDEST_C} to ${HOTTEST_C} °C; is the unit right?`);
  };
  /** Reads what begins at `k`; returns its length. */
  const step = (): number => {
    let m = take(SPEEDS);
    if (m) {
      const [low, high] = [speedOf(m[1], m[3], system), speedOf(m[2], m[3], system)];
      setWind(m[0], low <= high ? [(low + high) / 2, low, high] : null, 'figure');
      return m[0].length;
    }
    m = take(SPEED);
    if (m) {
      setWind(m[0], aboutSpeed(speedOf(m[1], m[2], system)), 'figure');
      return m[0].length;
    }
    m = take(HIGH_LOW) ?? take(RANGE);
    if (m) {
      setRange(m[0], rangeOf(m[1], m[2], system));
      return m[0].length;
    }
    m = take(LOW_HIGH);
    if (m) {
      setRange(m[0], rangeOf(m[2], m[1], system));
      return m[0].length;
    }
    for (let words = MOST_WORDS; words >= 1; words--) {
      const phrase = phraseAt(text, k, words);
      if (phrase === null) continue;
      const said = phrase.toLowerCase().replace(/\s+/g, ' ');
      if (Object.hasOwn(SKIES, said)) {
        if (skyFound) fail(k, phrase, 'one sky for a day');
        skyFound = SKIES[said];
      } else if (Object.hasOwn(WINDS, said)) setWind(phrase, WINDS[said], 'word');
      else if (Object.hasOwn(HUMIDITY, said)) dew = HUMIDITY[said];
      else if (!FILLERS.includes(said)) continue;
      return phrase.length;
    }
    const word = take(WORD)?.[0] ?? text.slice(k);
    if (word.includes('/')) setRange(word, null);
    else if (/^[\d.]/.test(word)) setWind(word, aboutSpeed(speedOf(word, '', system)), 'figure');
    else fail(k, word, 'high/low, a sky, a wind, dry or humid');
    return word.length;
  };
  while (k < text.length) k += take(GAP)?.[0].length ?? step();
  return finished();

  function finished(): ForecastDay | null {
    if (!range && problems.length === before) fail(0, text, EXPECTED);
    if (problems.length > before || !range) return null;
    const [wind_ms, windLow_ms, windHigh_ms] = wind ?? [2.5, 1, 5];
    return {
      high_C: range.high,
      low_C: range.low,
      sky: skyFound ?? { ...SKIES.half, words: 'not said', low: 0.2, high: 1 },
      wind_ms,
      windLow_ms,
      windHigh_ms,
      dewOffset_K: dew ?? 0,
    };
  }
}

/** So many words from a place on, as they stand; null where there are fewer. */
function phraseAt(text: string, from: number, words: number): string | null {
  const m = new RegExp(String.raw`[^\s,]+(?:\s+[^\s,]+){${words - 1}}`, 'y');
  m.lastIndex = from;
  return m.exec(text)?.[0] ?? null;
}

/** A speed [m/s]; NaN where it is none. */
function speedOf(number: string, unit: string, system: UnitSystem): number {
  const read = parseQuantity(`${number} ${unit}`.trim(), 'windSpeed', usualUnit('windSpeed', system));
  return read.ok && read.value >= 0 ? read.value : Number.NaN;
}

const aboutSpeed = (speed_ms: number): Wind | null =>
  Number.isFinite(speed_ms) ? [speed_ms, 0.75 * speed_ms, 1.25 * speed_ms] : null;

/** High and low; a unit of the second holds for the first as well. */
function rangeOf(first: string, second: string, system: UnitSystem): { high: number; low: number } | null {
  const unit = /[a-z]/i.test(second) && !/[a-z]/i.test(first) ? second.replace(/[-−+\d.\s]/g, '') : '';
  const of = (part: string): number => {
    const read = parseQuantity(part.replace(/°$/, ''), 'temperature', usualUnit('temperature', system));
    return read.ok ? read.value : Number.NaN;
  };
  const [high, low] = [of(unit === '' ? first : first.replace(/\s*°?\s*$/, '') + unit), of(second)];
  return Number.isFinite(high) && Number.isFinite(low) ? { high, low } : null;
}

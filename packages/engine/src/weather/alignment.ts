import type { WeatherSeries } from './series';
import { cosZenithAt, type SolarDay, solarDayOf, solarDays } from './solar-days';

const DAY_MS = 86_400_000;
/** Offsets tried on each side [min], and their step. */
const REACH_MIN = 180;
const STEP_MIN = 6;
/** Days judged in a year: the clearest of each stretch of eight. */
const STRETCH = 8;

/** How the stamps of the sunlight lie against the computed sun. */
export interface Alignment {
  /** The instant the light stands for, minus the middle of its step as stated [min]; null: cannot tell. */
  readonly shift_min: number | null;
  /** Half the interquartile spread of the days' own shifts [min]. */
  readonly spread_min: number;
  /** The shift follows the equation of time: the source's clock ran by the sun. */
  readonly solarTime: boolean;
  /** Correlation of light and sun at that shift [–]. */
  readonly correlation: number;
  /** Clear days used. */
  readonly days: number;
}

/**
 * Finds how a source's sunlight is stamped by correlating it with the computed sun: on the clearest day of each
 * eight, the shift of the sun at which measured light and cos(zenith)^1.2 agree best; the median of those days.
 * Where the days' shifts run with the equation of time, the source is in solar time.
 *
 * The exponent is that of clear air; correlation hardly feels it. Afternoon clouds bias single days by up to half
 * an hour, the median by a few minutes.
 *
 * @param series with its stated place, offset and shift
 * @returns shift against what is stated, so 0 when the statement is right
 */
export function detectAlignment(series: WeatherSeries): Alignment {
  const step_ms = series.step_s * 1000;
  const end_ms = series.start_ms + series.length * step_ms;
  const days = solarDays(series.place, series.start_ms, end_ms);
  const stated_ms = series.sunShift_s * 1000;
  const shifts: { shift: number; day: SolarDay; correlation: number }[] = [];
  for (let first = 0; first < days.length; first += STRETCH) {
    const clear = clearestDay(series, days, first, Math.min(days.length, first + STRETCH));
    if (clear < 0) continue;
    const found = bestShift(series, days[clear], stated_ms);
    if (found) shifts.push({ ...found, day: days[clear] });
  }
  if (shifts.length < 5)
    return { shift_min: null, spread_min: 0, solarTime: false, correlation: 0, days: shifts.length };
  const plain = robust(shifts.map((s) => s.shift));
  // In solar time each day's shift is a constant minus the equation of time.
  const bySun = robust(shifts.map((s) => s.shift + s.day.equationOfTime_min));
  const equation = shifts.map((s) => s.day.equationOfTime_min);
  const solarTime =
    shifts.length >= 12 &&
    Math.max(...equation) - Math.min(...equation) > 15 &&
    bySun.spread < 0.6 * plain.spread;
  const chosen = solarTime ? bySun : plain;
  return {
    shift_min: chosen.median,
    spread_min: chosen.spread,
    solarTime,
    correlation: robust(shifts.map((s) => s.correlation)).median,
    days: shifts.length,
  };
}

/** Day of a stretch with the most light for its season, if it was reasonably clear; −1 when none was. */
function clearestDay(series: WeatherSeries, days: readonly SolarDay[], from: number, to: number): number {
  const step_ms = series.step_s * 1000;
  let best = -1;
  let most = 0.5;
  for (let k = from; k < to; k++) {
    const day = days[k];
    if (day.extraterrestrial_Jm2 < 5e6) continue; // low winter sun tells little
    const first = Math.ceil((day.noon_ms - DAY_MS / 2 - series.start_ms) / step_ms);
    const last = first + DAY_MS / step_ms;
    if (first < 0 || last > series.length) continue;
    let sum = 0;
    for (let i = first; i < last; i++) sum += series.global_Wm2[i];
    const clearness = (sum * series.step_s) / day.extraterrestrial_Jm2;
    if (clearness > most && clearness < 1.1) {
      most = clearness;
      best = k;
    }
  }
  return best;
}

function bestShift(
  series: WeatherSeries,
  day: SolarDay,
  stated_ms: number,
): { shift: number; correlation: number } | null {
  const step_ms = series.step_s * 1000;
  const first = Math.max(0, Math.ceil((day.noon_ms - DAY_MS / 2 - series.start_ms) / step_ms));
  const last = Math.min(series.length, first + DAY_MS / step_ms);
  const at = (shift_min: number): number => {
    let n = 0;
    let x = 0;
    let y = 0;
    let xx = 0;
    let yy = 0;
    let xy = 0;
    for (let i = first; i < last; i++) {
      const middle = series.start_ms + (i + 0.5) * step_ms + stated_ms + shift_min * 60_000;
      const sun = Math.max(0, cosZenithAt(day, middle)) ** 1.2;
      const light = series.global_Wm2[i];
      n++;
      x += sun;
      y += light;
      xx += sun * sun;
      yy += light * light;
      xy += sun * light;
    }
    const spread = Math.sqrt((n * xx - x * x) * (n * yy - y * y));
    return spread > 0 ? (n * xy - x * y) / spread : -1;
  };
  let best = 0;
  let value = -2;
  for (let shift = -REACH_MIN; shift <= REACH_MIN; shift += STEP_MIN) {
    const r = at(shift);
    if (r > value) {
      value = r;
      best = shift;
    }
  }
  if (Math.abs(best) >= REACH_MIN || value < 0.9) return null;
  const below = at(best - STEP_MIN);
  const above = at(best + STEP_MIN);
  const bend = below - 2 * value + above;
  const fine = bend < 0 ? (0.5 * (below - above) * STEP_MIN) / bend : 0;
  return { shift: best + fine, correlation: value };
}

function robust(values: readonly number[]): { median: number; spread: number } {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (p: number): number => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))];
  return { median: at(0.5), spread: (at(0.75) - at(0.25)) / 2 };
}

/** Equation of time of each step [min], for `lightInterval_ms` of a source in solar time. */
export function equationOfTimeOfSteps(series: WeatherSeries): Float64Array {
  const end_ms = series.start_ms + series.length * series.step_s * 1000;
  const days = solarDays(series.place, series.start_ms, end_ms);
  return Float64Array.from(
    { length: series.length },
    (_, i) => days[solarDayOf(days, series.start_ms + (i + 0.5) * series.step_s * 1000)].equationOfTime_min,
  );
}

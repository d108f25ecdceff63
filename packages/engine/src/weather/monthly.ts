import { humidityFromDewPoint } from '../fluids/moist-air';
import { localMoment, stepStart_ms, type WeatherSeries } from './series';

/** One month of a series in the terms of an almanac; NaN where the series has none of that month. */
export interface MonthSummary {
  readonly days: number;
  readonly air_C: number;
  /** Mean of the daily highest and lowest step. */
  readonly high_C: number;
  readonly low_C: number;
  readonly irradiation_kWhm2day: number;
  readonly directNormal_kWhm2day: number;
  readonly humidity: number;
  readonly dewPoint_C: number;
  readonly wind_ms: number;
}

/** Twelve months, January first, by local standard time. */
export function monthlySummary(series: WeatherSeries): MonthSummary[] {
  const sums = Array.from({ length: 12 }, () => ({
    n: 0,
    air: 0,
    g: 0,
    b: 0,
    rh: 0,
    dew: 0,
    wind: 0,
    high: 0,
    low: 0,
    days: 0,
  }));
  let day = -1;
  let month = 0;
  let high = -Infinity;
  let low = Infinity;
  let steps = 0;
  const perDay = 86_400 / series.step_s;
  const close = (): void => {
    if (steps >= 0.8 * perDay) {
      sums[month].high += high;
      sums[month].low += low;
      sums[month].days++;
    }
    high = -Infinity;
    low = Infinity;
    steps = 0;
  };
  for (let i = 0; i < series.length; i++) {
    const local = localMoment(stepStart_ms(series, i) + series.step_s * 500, series.utcOffset_h);
    if (local.dayOfYear !== day) {
      close();
      day = local.dayOfYear;
      month = local.month;
    }
    const m = sums[local.month];
    m.n++;
    m.air += series.air_C[i];
    m.g += series.global_Wm2[i];
    m.b += series.directNormal_Wm2[i];
    m.dew += series.dewPoint_C[i];
    m.rh += Math.min(1, humidityFromDewPoint(series.air_C[i], series.dewPoint_C[i]));
    m.wind += series.wind_ms[i];
    high = Math.max(high, series.air_C[i]);
    low = Math.min(low, series.air_C[i]);
    steps++;
  }
  close();
  return sums.map((m) => ({
    days: m.n / perDay,
    air_C: m.air / m.n,
    high_C: m.high / m.days,
    low_C: m.low / m.days,
    irradiation_kWhm2day: (m.g / m.n) * 0.024,
    directNormal_kWhm2day: (m.b / m.n) * 0.024,
    humidity: m.rh / m.n,
    dewPoint_C: m.dew / m.n,
    wind_ms: m.wind / m.n,
  }));
}

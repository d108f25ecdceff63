import type { ClimateMonth } from '@sunlap/engine/weather/climate-table';

/** Monthly normals as they stand in the tables: twelve numbers in a text, January first. */
export interface ClimateTexts {
  high: string;
  low: string;
  /** Bright sunshine [h/day]. */
  sunshine: string;
  /** Mean relative humidity [%]. */
  humidity: string;
  /** Mean wind at 10 m [m/s]. */
  wind: string;
}

/** Twelve rows for the engine. */
export function climateMonths(texts: ClimateTexts): readonly ClimateMonth[] {
  const read = (text: string): number[] => text.split(' ').map(Number);
  const [high, low, sunshine, humidity, wind] = [
    texts.high,
    texts.low,
    texts.sunshine,
    texts.humidity,
    texts.wind,
  ].map(read);
  return high.map((high_C, m) => ({
    high_C,
    low_C: low[m],
    sunshine_h: sunshine[m],
    humidity: humidity[m] / 100,
    wind_ms: wind[m],
  }));
}

import type { ClimateMonth, ClimateTable } from '../../src/weather/climate-table';

/** Invented temperate climate at 40° N, zone UTC−5, or another place. */
export function temperate(over: Partial<ClimateTable> = {}, month: Partial<ClimateMonth> = {}): ClimateTable {
  const high = [4, 6, 11, 17, 22, 27, 30, 29, 25, 19, 12, 6];
  const low = [-4, -3, 1, 6, 12, 17, 20, 19, 15, 8, 3, -2];
  const sun = [4.6, 5.3, 6.1, 7.0, 7.9, 9.1, 9.4, 8.7, 7.6, 6.6, 5.0, 4.3];
  const humidity = [0.66, 0.63, 0.6, 0.58, 0.64, 0.67, 0.68, 0.7, 0.71, 0.69, 0.67, 0.67];
  const wind = [4.4, 4.5, 4.6, 4.4, 3.8, 3.4, 3.2, 3.0, 3.2, 3.5, 4.0, 4.2];
  return {
    name: 'invented temperate',
    place: { latitude_deg: 40, longitude_deg: -75, elevation_m: 50 },
    utcOffset_h: -5,
    months: high.map((high_C, m) => ({
      high_C,
      low_C: low[m],
      sunshine_h: sun[m],
      humidity: humidity[m],
      wind_ms: wind[m],
      ...month,
    })),
    ...over,
  };
}

export function place(
  latitude_deg: number,
  longitude_deg: number,
  utcOffset_h: number,
): Partial<ClimateTable> {
  return { place: { latitude_deg, longitude_deg, elevation_m: 100 }, utcOffset_h };
}

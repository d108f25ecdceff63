import { bench, describe } from 'vitest';
import { detectAlignment } from '../src/weather/alignment';
import type { ClimateTable } from '../src/weather/climate-table';
import { synthesiseYear } from '../src/weather/synthesis';

const table: ClimateTable = {
  name: 'invented',
  place: { latitude_deg: 40, longitude_deg: -75, elevation_m: 50 },
  utcOffset_h: -5,
  months: Array.from({ length: 12 }, (_, m) => ({
    high_C: 17 - 13 * Math.cos(((m - 0.5) / 6) * Math.PI),
    low_C: 7 - 12 * Math.cos(((m - 0.5) / 6) * Math.PI),
    irradiation_kWhm2: 4 - 2.2 * Math.cos(((m + 0.5) / 6) * Math.PI),
    humidity: 0.65,
    wind_ms: 3.5,
  })),
};

describe('a year of weather', () => {
  bench('twelve rows to 8760 hours', () => {
    synthesiseYear(table);
  });
  const { series } = synthesiseYear(table);
  bench('how the light is stamped', () => {
    detectAlignment(series);
  });
});

import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { farBelow, type NumberColumn, negativeCode } from './table';

/** What makes a column of a quantity, apart from where it stands and its unit. */
export const QUANTITIES: Record<RawColumn, Omit<NumberColumn, 'index' | 'scale' | 'offset'>> = {
  air_C: { what: 'air temperature [°C]', low: -70, high: 70, missing: farBelow },
  dewPoint_C: { what: 'dew point [°C]', low: -80, high: 70, missing: farBelow },
  humidity: { what: 'relative humidity [%]', low: 0, high: 110, missing: (v) => v >= 999 || negativeCode(v) },
  pressure_Pa: {
    what: 'air pressure [Pa]',
    low: 31_000,
    high: 120_000,
    missing: (v) => v >= 999_000 || negativeCode(v),
  },
  wind_ms: { what: 'wind speed [m/s]', low: 0, high: 80, missing: (v) => v >= 99 || negativeCode(v) },
  global_Wm2: {
    what: 'global sunlight [W/m²]',
    low: -9,
    high: 1600,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  directNormal_Wm2: {
    what: 'direct sunlight [W/m²]',
    low: -9,
    high: 1500,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  diffuse_Wm2: {
    what: 'diffuse sunlight [W/m²]',
    low: -9,
    high: 1200,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  longWave_Wm2: {
    what: 'long wave from the sky [W/m²]',
    low: 0,
    high: 800,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  cloud: { what: 'sky cover', low: 0, high: 10, missing: (v) => v >= 99 || negativeCode(v) },
  rain_kgm2: { what: 'rain [mm]', low: 0, high: 500, missing: (v) => v >= 900 || negativeCode(v) },
};

/** Columns of a header row by any of their names, capitals and blanks apart; the first that is there. */
export function findColumn(header: readonly string[], names: readonly string[]): number {
  const plain = (s: string): string => s.toLowerCase().replace(/[\s_]+/g, '');
  const known = header.map(plain);
  for (const name of names) {
    const at = known.indexOf(plain(name));
    if (at >= 0) return at;
  }
  return -1;
}

/** Pressures in mbar written as such: range and missing codes in the source's own unit. */
export function millibar(index: number): NumberColumn {
  return {
    index,
    what: 'air pressure [mbar]',
    low: 310,
    high: 1200,
    missing: (v) => v >= 9990 || negativeCode(v),
    scale: 100,
  };
}

import { findExposure } from '@sunlap/data/exposure';
import { findPoolCover, type PoolCover } from '@sunlap/data/poolCovers';
import type { EvaporationName } from '@sunlap/engine/pool/evaporation';
import { localMoment, stepStart_ms, type WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan as FilePlan, Season } from '@sunlap/project/schema/season';
import type { ExposureValue } from '../heat/moment';

/** Hours in which a filter pump runs where the file says nothing: the sunny third of the day; judgement. */
export const FILTER_HOURS = { from_h: 9, to_h: 17 } as const;
/** A valve turned by hand is closed for the day when the water is this much over the wish [K]; judgement. */
const OVER_WISH_K = 2;
/** Months whose mean is below this are not worth opening a valve for, and may freeze it [°C]; judgement. */
const COLD_MONTH_C = 8;
/** A swimmer stirs this much water's surface into twice the evaporation [m²] (ASHRAE gives 4.5 m² a bather of a
 * public pool with activity 1 against 0.5 for a quiet one; from memory). */
export const STIRRED_M2 = 4.5;
/** Floor colours: absorbed share of sunlight (.85 light, .90 dark: ISO/TR 12596, from memory). */
export const FLOOR_ABSORPTANCE = { light: 0.85, medium: 0.875, dark: 0.9 } as const;
/** From the level at which the mains fill up to the overflow [m]: the middle third of a skimmer's mouth; judgement. */
export const LEVEL_RANGE_M = 0.05;
/** The cover that is tried where the project has none. */
export const USUAL_COVER = 'bubble-clear';

/** Names of the file for the engine's correlations. */
export const EVAPORATION: Record<NonNullable<Season['evaporation']>, EvaporationName> = {
  smithLofJones: 'smithLofJones',
  carrier: 'carrier',
  carrierHalf: 'halfCarrier',
  as3634: 'czarnecki',
  isoTr12596: 'isoTr12596',
  richter: 'richter',
  mcmillan: 'mcMillan',
};

/** Heat into the pool over what is burned or drawn; common practice, heat pump at about 20 °C air. */
export const HEATER_EFFICIENCY = { gas: 0.81, condensingGas: 0.92, resistance: 1, heatPump: 5 } as const;

/** What another heater is called in a sentence. */
export const HEATER_WORD: Readonly<Record<keyof typeof HEATER_EFFICIENCY, string>> = {
  gas: 'gas',
  condensingGas: 'a condensing gas heater',
  resistance: 'electric resistance heat',
  heatPump: 'a heat pump',
};

/** COP of a pool heat pump by the air's temperature; judgement: 5 at 20 °C, a tenth a kelvin, 3 to 6.5. */
export function heatPumpCop(air_C: number): number {
  return Math.min(6.5, Math.max(3, 5 + 0.1 * (air_C - 20)));
}

/** Wind over the pool over wind at 10 m, with its interval. */
export function poolExposure(project: Pick<Project, 'site'>): ExposureValue {
  const given = project.site.exposure.pool;
  const row = findExposure('pool', given.setting) ?? { ratio: 0.45, low: 0.3, high: 0.6 };
  const ratio = given.windRatio ?? row.ratio;
  const own = given.windRatio !== undefined;
  return {
    ratio,
    low: given.windRatioLow ?? (own ? 0.7 * ratio : row.low),
    high: given.windRatioHigh ?? (own ? 1.3 * ratio : row.high),
  };
}

/** Cover of the season, or null. An unknown row counts as the usual one. */
export function coverOf(season: Season | undefined): PoolCover | null {
  if (!season?.cover) return null;
  return findPoolCover(season.cover.cover) ?? findPoolCover(USUAL_COVER) ?? null;
}

/** The plan of the file, or the usual one: nine to five by hand, in months that are not cold. */
export function planOf(project: Pick<Project, 'season' | 'pool'>, series: WeatherSeries): FilePlan {
  const given = project.season?.run;
  if (given) return given;
  const sum = new Float64Array(12);
  const count = new Float64Array(12);
  for (let i = 0; i < series.length; i += 6) {
    const { month } = localMoment(stepStart_ms(series, i), series.utcOffset_h);
    sum[month] += series.air_C[i];
    count[month]++;
  }
  return {
    kind: 'hours',
    months: Array.from({ length: 12 }, (_, m) => ({
      ...FILTER_HOURS,
      on: count[m] > 0 && sum[m] / count[m] >= COLD_MONTH_C,
    })),
    limit_C: Math.min(45, project.pool.wish_C + OVER_WISH_K),
  };
}

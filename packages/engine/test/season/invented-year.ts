import { type PoolConditions, QUIET_CONDITIONS } from '../../src/pool/conditions';
import type { CollectorRun, CollectorStanding, SeasonCollector } from '../../src/season/collector';
import type { YearSteps } from '../../src/season/year-types';

/** Weather of an invented place: smooth seasons and days, sun from six to six. */
export function inventedSteps(
  days: number,
  over: (i: number, sun: number) => Partial<PoolConditions> = () => ({}),
  shares: Partial<Pick<YearSteps, 'runShare' | 'filterShare' | 'heaterShare'>> = {},
  step_h = 1,
): YearSteps {
  const perDay = 24 / step_h;
  const n = Math.round(days * perDay);
  const month = new Uint8Array(n);
  const day = new Uint16Array(n);
  const hour = new Float64Array(n);
  const conditions: PoolConditions[] = [];
  for (let i = 0; i < n; i++) {
    const d = Math.floor(i / perDay);
    day[i] = d;
    month[i] = Math.min(11, Math.floor((12 * d) / 365));
    hour[i] = ((i % perDay) + 0.5) * step_h;
    const sun = Math.max(0, Math.sin(((hour[i] - 6) / 12) * Math.PI));
    const season = -Math.cos((2 * Math.PI * d) / 365);
    const air_C = 14 + 9 * season + 5 * Math.sin(((hour[i] - 9) / 12) * Math.PI);
    conditions.push({
      ...QUIET_CONDITIONS,
      step_s: 3600 * step_h,
      air_C,
      airVapour_Pa: 900 + 350 * season,
      wind_ms: 1.2,
      windHeight_m: 2,
      direct_Wm2: (480 + 220 * season) * sun,
      diffuse_Wm2: (90 + 30 * season) * sun,
      cosZenith: sun,
      skyLongWave_Wm2: 300 + 45 * season,
      ground_C: 14,
      mains_C: 12,
      ...over(i, sun),
    });
  }
  const noon = (from: number, to: number): Float64Array =>
    Float64Array.from(hour, (h) => (h > from && h < to ? 1 : 0));
  return {
    step_s: 3600 * step_h,
    length: n,
    month,
    day,
    days: Math.ceil(days),
    hour,
    conditions,
    runShare: noon(9, 17),
    filterShare: noon(8, 16),
    heaterShare: null,
    ...shares,
  };
}

/** A collector of a textbook: A·(η·G − U·(T − Ta)), its water standing where that is zero. */
export function plainCollector(
  steps: YearSteps,
  area_m2: number,
  eta = 0.8,
  loss_Wm2K = 12,
  holds_JK = 30_000 * area_m2,
): SeasonCollector {
  const light = (i: number): number => steps.conditions[i].direct_Wm2 + steps.conditions[i].diffuse_Wm2;
  return {
    powerThrough_W: 900,
    powerPast_W: 700,
    holds_JK,
    running(i: number, water_C: number, out: CollectorRun): void {
      out.heat_W = area_m2 * (eta * light(i) - loss_Wm2K * (water_C - steps.conditions[i].air_C));
      out.slope_WK = -area_m2 * loss_Wm2K;
      out.headers_W = 0.05 * out.heat_W;
      out.headersSlope_WK = 0.05 * out.slope_WK;
      out.pipes_W = 0;
      out.pipesSlope_WK = 0;
      out.capacity_WK = 8000;
      out.rise_K = out.heat_W / 8000;
      out.mean_C = water_C + out.rise_K / 2;
    },
    standing(i: number, out: CollectorStanding): void {
      out.standing_C = steps.conditions[i].air_C + (eta * light(i)) / loss_Wm2K;
      out.tau_s = 900;
    },
  };
}

/** By hand in the hours of the steps, never stopped. */
export const BY_HAND = { controller: null, limit_C: Infinity, hysteresis_K: 0.2 } as const;

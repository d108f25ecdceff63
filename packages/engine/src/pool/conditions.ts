import { DomainError } from '../numeric/errors';
import type { PoolSunModel } from './absorption';
import { type CoverKind, checkCover } from './cover';
import { EVAPORATION_MODELS, type EvaporationModel } from './evaporation';

/** The pool itself: what does not change from hour to hour. */
export interface PoolBody {
  /** Surface of the water [m²]. */
  readonly area_m2: number;
  readonly volume_m3: number;
  /** Floor and walls under water [m²]. */
  readonly wettedArea_m2: number;
  readonly sun: PoolSunModel;
  /** Long-wave emittance of water [–]. */
  readonly emittance: number;
  /** Floor and walls to the ground's temperature [W/m²K]. */
  readonly groundConductance_Wm2K: number;
  readonly evaporation: EvaporationModel;
  /** Multiplies the correlation, for bands and fits [–]. */
  readonly evaporationFactor: number;
  /** Height the correlation's wind is carried to [m]; its own when left out. */
  readonly evaporationWindHeight_m?: number;
  /** Does moisture that condenses on cold water bring its heat? */
  readonly condensationCounts: boolean;
  /** From the level at which the mains fill up to the overflow [m]; 0 when left out: all rain over a step's loss runs over. */
  readonly levelRange_m?: number;
}

/** Defaults of the method: emittance .95, ground 0.3 W/m²K, Smith–Löf–Jones, absorptance .85. */
export function poolBody(
  area_m2: number,
  volume_m3: number,
  wettedArea_m2: number,
  over: Partial<PoolBody> = {},
): PoolBody {
  const body: PoolBody = {
    area_m2,
    volume_m3,
    wettedArea_m2,
    sun: { kind: 'absorptance', absorptance: 0.85 },
    emittance: 0.95,
    groundConductance_Wm2K: 0.3,
    evaporation: EVAPORATION_MODELS.smithLofJones,
    evaporationFactor: 1,
    condensationCounts: true,
    ...over,
  };
  checkBody(body);
  return body;
}

/** What acts on the pool during one step; rates are means over it. */
export interface PoolConditions {
  readonly step_s: number;
  readonly air_C: number;
  readonly airVapour_Pa: number;
  readonly pressure_Pa: number;
  /** Wind at the pool, still at the height it was measured at [m/s]: shelter and screen already taken off. */
  readonly wind_ms: number;
  readonly windHeight_m: number;
  /** Sun on the level surface after shade [W/m²]. */
  readonly direct_Wm2: number;
  readonly diffuse_Wm2: number;
  /** Cosine of the sun's zenith angle [–]; any value when there is no direct light. */
  readonly cosZenith: number;
  /** Long wave from the whole open sky on the level [W/m²]. */
  readonly skyLongWave_Wm2: number;
  /** Share of the sky the water sees [–]; the rest radiates at air temperature. */
  readonly skyShare: number;
  readonly ground_C: number;
  readonly mains_C: number;
  /** Rain [kg/m²] in this step and its temperature [°C]. */
  readonly rain_kgm2: number;
  readonly rain_C: number;
  /** Water lost otherwise in this step and replaced from the mains [kg]. */
  readonly splash_kg: number;
  readonly backwash_kg: number;
  readonly swimmers: number;
  /** Heat of one swimmer [W]. */
  readonly swimmerHeat_W: number;
  /** Evaporation and convection of the open surface, over that of quiet water [–]. */
  readonly activity: number;
  readonly cover: CoverKind | null;
  /** Share of step × surface that is covered [–]. */
  readonly coverShare: number;
}

/** Quiet open pool, no sun, nothing added, 22 °C air at 50 %; a starting point to be overridden. */
export const QUIET_CONDITIONS: PoolConditions = {
  step_s: 3600,
  air_C: 22,
  airVapour_Pa: 1322.8,
  pressure_Pa: 101_325,
  wind_ms: 0,
  windHeight_m: 10,
  direct_Wm2: 0,
  diffuse_Wm2: 0,
  cosZenith: 1,
  skyLongWave_Wm2: 336,
  skyShare: 1,
  ground_C: 15,
  mains_C: 15,
  rain_kgm2: 0,
  rain_C: 15,
  splash_kg: 0,
  backwash_kg: 0,
  swimmers: 0,
  swimmerHeat_W: 200, // moderate swimming, sensible part (from memory)
  activity: 1,
  cover: null,
  coverShare: 0,
};

export function checkBody(body: PoolBody): void {
  positive('pool surface', body.area_m2, 'm²');
  positive('pool volume', body.volume_m3, 'm³');
  notNegative('wetted area', body.wettedArea_m2, 'm²');
  notNegative('ground conductance', body.groundConductance_Wm2K, 'W/m²K');
  notNegative('evaporation factor', body.evaporationFactor, '');
  notNegative('range of the level', body.levelRange_m ?? 0, 'm');
  share('emittance of the water', body.emittance);
}

/** @throws {DomainError} for the first value that is none; NaN never passes */
export function checkConditions(c: PoolConditions): void {
  positive('step', c.step_s, 's');
  within('air temperature', c.air_C, -60, 70, '°C');
  notNegative('vapour pressure', c.airVapour_Pa, 'Pa');
  within('air pressure', c.pressure_Pa, 30_000, 120_000, 'Pa');
  within('wind', c.wind_ms, 0, 100, 'm/s');
  notNegative('direct sun', c.direct_Wm2, 'W/m²');
  notNegative('diffuse sun', c.diffuse_Wm2, 'W/m²');
  notNegative('long wave from the sky', c.skyLongWave_Wm2, 'W/m²');
  share('share of sky', c.skyShare);
  within('ground temperature', c.ground_C, -60, 70, '°C');
  within('mains temperature', c.mains_C, 0, 60, '°C');
  within('rain temperature', c.rain_C, 0, 60, '°C');
  notNegative('rain', c.rain_kgm2, 'kg/m²');
  notNegative('splash', c.splash_kg, 'kg');
  notNegative('backwash', c.backwash_kg, 'kg');
  notNegative('swimmers', c.swimmers, '');
  notNegative('heat of a swimmer', c.swimmerHeat_W, 'W');
  notNegative('activity', c.activity, '');
  share('covered share', c.coverShare);
  if (c.cover) checkCover(c.cover);
}

function within(quantity: string, value: number, low: number, high: number, unit: string): void {
  if (!(value >= low && value <= high)) throw new DomainError(quantity, value, `[${low}, ${high}] ${unit}`);
}

function positive(quantity: string, value: number, unit: string): void {
  if (!(value > 0 && value < Infinity)) throw new DomainError(quantity, value, `(0, ∞) ${unit}`.trim());
}

function notNegative(quantity: string, value: number, unit: string): void {
  if (!(value >= 0 && value < Infinity)) throw new DomainError(quantity, value, `[0, ∞) ${unit}`.trim());
}

function share(quantity: string, value: number): void {
  if (!(value >= 0 && value <= 1 + 1e-12)) throw new DomainError(quantity, value, '[0, 1]');
}

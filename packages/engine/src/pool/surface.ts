import { saturationPressure } from '../fluids/moist-air';
import { STANDARD_ATMOSPHERE_PA, STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '../numeric/constants';
import { absorbedDiffuse, absorbedDirect } from './absorption';
import type { PoolBody, PoolConditions } from './conditions';
import { type CoverKind, coverTemperature } from './cover';
import { stillAirConductance } from './still-air';
import { windAtHeight } from './wind';

/** Bowen's constant: convection over evaporation, (0.061 kPa/K)·p/p0 [Pa/K] at the standard atmosphere. */
export const BOWEN_PAK = 61;
/** Sea and pool ice [W/m·K] (from memory), and its density [kg/m³]. */
const ICE_CONDUCTIVITY = 2.2;
const ICE_DENSITY = 917;

/** Heat into the water through its surface [W], gains positive. */
export interface SurfaceHeat {
  /** Taken up by the water, and by a cover lying on it. */
  sun_W: number;
  evaporation_W: number;
  convection_W: number;
  longWave_W: number;
}

/** What does not depend on the water's temperature, worked out once per step. */
export interface SurfaceStep {
  readonly body: PoolBody;
  readonly conditions: PoolConditions;
  /** Conductance of the wind correlation [W/m²Pa]. */
  readonly windConductance: number;
  readonly absorbed_Wm2: number;
  readonly longWaveIn_Wm2: number;
  readonly cover: CoverKind | null;
  readonly coverShare: number;
}

/**
 * Fixes the surface for one step.
 *
 * @param ice_kg ice on the water [kg]; it lies on the pool like a cover and grows the slower the thicker it is
 */
export function surfaceStep(body: PoolBody, conditions: PoolConditions, ice_kg = 0): SurfaceStep {
  const c = conditions;
  const model = body.evaporation;
  const height = body.evaporationWindHeight_m ?? model.windHeight_m;
  const air_K = c.air_C + ZERO_CELSIUS_K;
  const iced = ice_kg > 0;
  return {
    body,
    conditions,
    windConductance:
      body.evaporationFactor * model.conductance(windAtHeight(c.wind_ms, c.windHeight_m, height)),
    absorbed_Wm2:
      (c.direct_Wm2 > 0
        ? c.direct_Wm2 * absorbedDirect(body.sun, Math.min(1, Math.max(0, c.cosZenith)))
        : 0) + (c.diffuse_Wm2 > 0 ? c.diffuse_Wm2 * absorbedDiffuse(body.sun) : 0),
    longWaveIn_Wm2: c.skyShare * c.skyLongWave_Wm2 + (1 - c.skyShare) * STEFAN_BOLTZMANN * air_K ** 4,
    cover: iced ? iceCover(ice_kg / body.area_m2 / ICE_DENSITY, c.coverShare > 0 ? c.cover : null) : c.cover,
    coverShare: iced ? 1 : c.cover ? c.coverShare : 0,
  };
}

/** Ice, with or without a cover on it. Transmittance and absorptance of clear thin ice are guesses. */
function iceCover(thickness_m: number, over: CoverKind | null): CoverKind {
  const through = Math.max(1e-3, thickness_m) / ICE_CONDUCTIVITY;
  return {
    id: 'ice',
    name: 'ice',
    solarTransmittance: 0.5 * (over?.solarTransmittance ?? 1),
    solarAbsorptance: over?.solarAbsorptance ?? 0.2,
    conductance_Wm2K: 1 / (through + 1 / (over?.conductance_Wm2K ?? Infinity)),
    emittance: over?.emittance ?? 0.97,
    evaporationLeft: 0,
    source: 'guess',
  };
}

/**
 * Heat into the water through its surface at a water temperature: open part and covered part.
 *
 *   evaporation  −k·(p_w − p_a)         k = max(wind correlation, still-air floor)·activity
 *   convection   −0.061·(p/p0)·k·(Tw − Ta)                  (Bowen)
 *   long wave    ε·(L − σTw⁴)
 *
 * Under a cover the same convection and long wave act on the cover's own temperature.
 *
 * @param s       from {@link surfaceStep}
 * @param water_C [°C], 0…60
 */
export function surfaceHeat(s: SurfaceStep, water_C: number): SurfaceHeat {
  const { body, conditions: c } = s;
  const pw = saturationPressure(water_C);
  const difference = pw - c.airVapour_Pa;
  const floor = stillAirConductance(water_C, pw, c.air_C, c.airVapour_Pa, c.pressure_Pa);
  const quiet = Math.max(s.windConductance, floor);
  const bowen = (BOWEN_PAK * c.pressure_Pa) / STANDARD_ATMOSPHERE_PA;
  const counts = difference > 0 || body.condensationCounts;
  const k = quiet * c.activity;
  const open = (1 - s.coverShare) * body.area_m2;
  const water_K = water_C + ZERO_CELSIUS_K;
  const heat: SurfaceHeat = {
    sun_W: open * s.absorbed_Wm2,
    evaporation_W: counts ? -open * k * difference : 0,
    convection_W: -open * bowen * k * (water_C - c.air_C),
    longWave_W: open * body.emittance * (s.longWaveIn_Wm2 - STEFAN_BOLTZMANN * water_K ** 4),
  };
  const cover = s.cover;
  if (cover && s.coverShare > 0) {
    const area = s.coverShare * body.area_m2;
    const onCover = cover.solarAbsorptance * (c.direct_Wm2 + c.diffuse_Wm2);
    const h = bowen * quiet;
    const top = coverTemperature(
      water_C,
      cover.conductance_Wm2K,
      onCover,
      h,
      c.air_C,
      cover.emittance,
      s.longWaveIn_Wm2,
    );
    const longWave = cover.emittance * (s.longWaveIn_Wm2 - STEFAN_BOLTZMANN * (top + ZERO_CELSIUS_K) ** 4);
    heat.sun_W += area * (cover.solarTransmittance * s.absorbed_Wm2 + onCover);
    heat.longWave_W += area * longWave;
    heat.convection_W -= area * h * (top - c.air_C);
    if (counts) heat.evaporation_W -= area * cover.evaporationLeft * quiet * difference;
  }
  return heat;
}

import { findExposure } from '@sunlap/data/exposure';
import { findSky, type Sky } from '@sunlap/data/skies';
import {
  clearSkyEmittance,
  cloudySkyEmittance,
  type SkyEmittanceModel,
  skyTemperature_C,
} from '@sunlap/engine/collector/long-wave';
import { pressureAtElevation, saturationPressure } from '@sunlap/engine/fluids/moist-air';
import { absoluteAirMass } from '@sunlap/engine/sun/air-mass';
import { clearSkyIneichen } from '@sunlap/engine/sun/clear-sky';
import { extraterrestrialAtDistance_Wm2 } from '@sunlap/engine/sun/extraterrestrial';
import type { SkyLight } from '@sunlap/engine/sun/plane';
import { sunPlace } from '@sunlap/engine/sun/position';
import { cloudFromShare } from '@sunlap/engine/sun/sky-now';
import { splitGlobal } from '@sunlap/engine/sun/split';
import type { Project } from '@sunlap/project/schema/project';
import { ROOM_C } from '../assembly/heat-assumed';
import type { HeatWeather } from '../assembly/heat-conditions';
import type { MomentShade } from '../assembly/heat-shade';
import type { Moment } from '../results';
import { momentShade } from '../yard/moment-shade';
import { utcOf } from './local-time';

export type SkyWord = Sky['id'];

/** What the person says of a moment; anything left out is assumed and named. */
export interface MomentOptions {
  /** Local time at the site, `2026-04-12T11:00`. */
  readonly at: string;
  readonly water_C?: number;
  readonly air_C?: number;
  readonly dewPoint_C?: number;
  /** At 10 m in the open [m/s]. */
  readonly wind_ms?: number;
  /** A word, or the global irradiance on the level [W/m²]. */
  readonly sky?: SkyWord | number;
}

/** Assumed when not said, with the half-width that its doubt adds to the band; judgement. */
export const ASSUMED = {
  water_C: { value: 26, half: 3 },
  air_C: { value: 24, half: 6 },
  dewPoint_C: { value: 12, half: 6 },
  wind_ms: { value: 2, half: 1.5 },
} as const;

/** How `assumed` names them. */
const WORD: Record<keyof typeof ASSUMED, string> = {
  water_C: 'water',
  air_C: 'air',
  dewPoint_C: 'dew',
  wind_ms: 'wind',
};

/** Soil 0.1 m from a pipe, where the file says nothing [°C]; judgement. */
const GROUND_C = 16;
/** Turbidity against which the sky table's shares are meant. */
const TABLE_TURBIDITY = 3;

/** Wind at the tubes over wind at 10 m, with its interval. */
export interface ExposureValue {
  readonly ratio: number;
  readonly low: number;
  readonly high: number;
}

export function collectorExposure(project: Project): ExposureValue {
  const given = project.site.exposure.collector;
  const row = findExposure('collector', given.setting) ?? { ratio: 0.35, low: 0.15, high: 0.65 };
  const ratio = given.windRatio ?? row.ratio;
  const own = given.windRatio !== undefined;
  return {
    ratio,
    low: given.windRatioLow ?? (own ? 0.7 * ratio : row.low),
    high: given.windRatioHigh ?? (own ? 1.3 * ratio : row.high),
  };
}

/** A moment with everything the heat side needs, before any rival is tried. */
export interface ResolvedMoment {
  readonly moment: Moment;
  readonly light: SkyLight;
  /** Global irradiance on the level where it was read, not said in a word [W/m²]. */
  readonly reading_Wm2: number | null;
  readonly cloud: number;
  readonly pressure_Pa: number;
  /** Interval of the sky's word over its middle [–]; 1, 1 for a reading. */
  readonly skyLow: number;
  readonly skyHigh: number;
  readonly exposure: ExposureValue;
}

/** Sun, sky and air of a moment at the project's site. */
export function resolveMoment(project: Project, options: MomentOptions): ResolvedMoment {
  return resolveAt(project, options, utcOf(options.at, project.site.timeZone));
}

/** The same at an instant [ms since 1970], for sums over a day. */
export function resolveAt(project: Project, options: MomentOptions, utc_ms: number): ResolvedMoment {
  const { site } = project;
  const assumed: string[] = [];
  const take = (name: keyof typeof ASSUMED): number => {
    const given = options[name];
    if (given !== undefined) return given;
    assumed.push(WORD[name]);
    return ASSUMED[name].value;
  };
  const water_C = take('water_C');
  const air_C = take('air_C');
  const dewPoint_C = Math.min(take('dewPoint_C'), air_C);
  const wind_ms = take('wind_ms');
  const sky = options.sky ?? 'clear';
  if (options.sky === undefined) assumed.push('sky');
  if (site.ground_C === undefined) assumed.push('ground');
  const pressure_Pa = pressureAtElevation(site.elevation_m);
  const sun = sunPlace(utc_ms, site, { pressure_Pa, temperature_C: Math.max(-60, Math.min(60, air_C)) });
  const extraterrestrial = extraterrestrialAtDistance_Wm2(sun.distance_au);
  const { direct, diffuse, cloud, low, high } = lightOf(
    project,
    sky,
    sun.zenith_deg,
    pressure_Pa,
    extraterrestrial,
  );
  const cosZ = Math.max(0, Math.cos((sun.zenith_deg * Math.PI) / 180));
  return {
    moment: {
      at: options.at,
      water_C,
      air_C,
      dewPoint_C,
      wind_ms,
      sky: typeof sky === 'number' ? `${sky} W/m²` : sky,
      directNormal_Wm2: direct,
      diffuse_Wm2: diffuse,
      global_Wm2: diffuse + direct * cosZ,
      sun: { elevation_deg: 90 - sun.zenith_deg, azimuth_deg: sun.azimuth_deg },
      assumed,
    },
    light: {
      sunZenith_deg: sun.zenith_deg,
      sunAzimuth_deg: sun.azimuth_deg,
      directNormal_Wm2: direct,
      diffuseHorizontal_Wm2: diffuse,
      extraterrestrial_Wm2: extraterrestrial,
    },
    reading_Wm2: typeof sky === 'number' ? sky : null,
    cloud,
    pressure_Pa,
    skyLow: low,
    skyHigh: high,
    exposure: collectorExposure(project),
  };
}

interface LightNow {
  direct: number;
  diffuse: number;
  cloud: number;
  low: number;
  high: number;
}

function lightOf(
  project: Project,
  sky: SkyWord | number,
  zenith_deg: number,
  pressure_Pa: number,
  extraterrestrial: number,
): LightNow {
  const { elevation_m, linkeTurbidity } = project.site;
  const mass = absoluteAirMass(zenith_deg, pressure_Pa);
  const clear = (turbidity: number) =>
    clearSkyIneichen(zenith_deg, mass, turbidity, elevation_m, extraterrestrial);
  if (typeof sky === 'number') {
    const split = splitGlobal(Math.max(0, sky), zenith_deg, extraterrestrial);
    const whole = clear(linkeTurbidity ?? TABLE_TURBIDITY).globalHorizontal_Wm2;
    return {
      direct: split.directNormal_Wm2,
      diffuse: split.diffuseHorizontal_Wm2,
      cloud: cloudFromShare(whole > 1 ? sky / whole : 1),
      low: 1,
      high: 1,
    };
  }
  const row = findSky(sky)!;
  const interval = { cloud: row.cloud, low: row.low / row.shareOfClear, high: row.high / row.shareOfClear };
  if (sky === 'clear' || sky === 'hazy') {
    const light = clear(sky === 'clear' ? (linkeTurbidity ?? row.linkeTurbidity) : row.linkeTurbidity);
    return { direct: light.directNormal_Wm2, diffuse: light.diffuseHorizontal_Wm2, ...interval };
  }
  const global = row.shareOfClear * clear(TABLE_TURBIDITY).globalHorizontal_Wm2;
  const split = splitGlobal(global, zenith_deg, extraterrestrial);
  return { direct: split.directNormal_Wm2, diffuse: split.diffuseHorizontal_Wm2, ...interval };
}

/** What a rival changes of a moment. */
export interface MomentChange {
  readonly exposure?: number;
  readonly skyEmittance?: SkyEmittanceModel;
  readonly lightShare?: number;
  readonly air_C?: number;
  readonly dewPoint_C?: number;
  readonly wind_ms?: number;
  /** Leaves out what stands round the collector. */
  readonly unshaded?: boolean;
}

/**
 * The moment as the panel's surroundings, with what stands round it. Wind at the tubes = wind at 10 m × exposure.
 */
export function heatWeather(project: Project, now: ResolvedMoment, change: MomentChange = {}): HeatWeather {
  const air_C = change.air_C ?? now.moment.air_C;
  const dewPoint_C = Math.min(change.dewPoint_C ?? now.moment.dewPoint_C, air_C);
  const share = change.lightShare ?? 1;
  const clear = clearSkyEmittance(dewPoint_C, saturationPressure(dewPoint_C), change.skyEmittance);
  return {
    sky: {
      ...now.light,
      directNormal_Wm2: now.light.directNormal_Wm2 * share,
      diffuseHorizontal_Wm2: now.light.diffuseHorizontal_Wm2 * share,
    },
    air: {
      air_C,
      wind_ms: (change.wind_ms ?? now.moment.wind_ms) * (change.exposure ?? now.exposure.ratio),
      pressure_Pa: now.pressure_Pa,
      sky_C: skyTemperature_C(air_C, cloudySkyEmittance(clear, now.cloud)),
    },
    ground_C: project.site.ground_C ?? GROUND_C,
    room_C: ROOM_C,
    sunlit: 1,
    shade: change.unshaded ? null : shadeNow(project, now),
  };
}

/** What things in the yard do to the sun of the moment; null where nothing stands. */
function shadeNow(project: Project, { moment }: ResolvedMoment): MomentShade | null {
  const month = Number(moment.at.slice(5, 7)) - 1;
  return momentShade(project, month, moment.sun.azimuth_deg, moment.sun.elevation_deg);
}

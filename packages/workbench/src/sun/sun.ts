import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import type { Notice } from '@sunlap/engine/numeric/notice';
import { type SunNow, sunAt, sunDays } from '@sunlap/engine/season/sun-steps';
import { sunDay } from '@sunlap/engine/sun/day';
import { cosIncidence } from '@sunlap/engine/sun/incidence';
import { sunPlace } from '@sunlap/engine/sun/position';
import { shadeGrid } from '@sunlap/engine/sun/shade-grid';
import { type ShadeTable, skyShare, sunlitShare } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { zoneNotices } from '../check/zone-notices';
import { utcOf, wallClockAt } from '../heat/local-time';
import type { Answer } from '../results';
import { type SceneObstacle, shadeTables, type YardScene, yardScene } from '../yard/scene';
import { type ShadowPatch, type ShadowPlane, shadowOf, WATER_PLANE } from '../yard/shadows';

const RAD = Math.PI / 180;

/** Shadow of one thing on the water's plane and on each part of the collector. */
export interface ThingShadow {
  id: string;
  name: string;
  onWater: ShadowPatch[];
  onParts: ShadowPatch[][];
}

export interface SunlitShare {
  /** Direct light that arrives over what would arrive in the open [–]; 0 with the sun down or behind. */
  sunlit: number;
  /** Share of the sky seen [–]. */
  sky: number;
}

export interface SunValues {
  at: string;
  elevation_deg: number;
  azimuth_deg: number;
  up: boolean;
  /** Local times of the day; null in polar day and night. */
  sunrise: string | null;
  noon: string;
  sunset: string | null;
  dayLength_h: number;
  /** Angle between the sun and the collector's normal [deg]; over 90 it shines on the rear. */
  incidence_deg: number;
  pool: SunlitShare;
  parts: SunlitShare[];
  collector: SunlitShare;
  shadows: ThingShadow[];
  /** Shadow of a pole one metre high [m]; null with the sun down. */
  poleShadow_m: number | null;
}

export type SunAnswer = Answer<SunValues>;

export interface SunOptions {
  readonly tables?: Tables;
  /** Shade tables kept between calls. */
  readonly shade?: Map<string, ShadeTable>;
}

/**
 * The sun at one local time: where it stands, what throws which shadow on water and collector, how much of each
 * is sunlit.
 *
 * @param at local time at the site, `2026-04-12T11:00`
 * @throws {DomainError} for a time that is not written so
 * @example sun(project, '2026-04-12T15:00').result.pool.sunlit
 */
export function sun(project: Project, at: string, options: SunOptions = {}): SunAnswer {
  const { site, collector } = project;
  const utc = utcOf(at, site.timeZone);
  const air = { pressure_Pa: pressureAtElevation(site.elevation_m), temperature_C: 10 };
  const place = sunPlace(utc, site, air);
  const scene = yardScene(project, options.tables ?? STANDARD_TABLES);
  const tables = shadeTables(scene, options.shade ?? new Map());
  const month = Number(at.slice(5, 7)) - 1;
  const up = place.zenith_deg < 90;
  const { tilt_deg, facing_deg } = collector.placement;
  const cos = cosIncidence(place.zenith_deg, place.azimuth_deg, tilt_deg, facing_deg);
  const share = (table: ShadeTable | null, faces: boolean): SunlitShare => ({
    sunlit:
      up && faces ? (table ? sunlitShare(table, month, place.azimuth_deg, 90 - place.zenith_deg) : 1) : 0,
    sky: table ? skyShare(table, month) : 1,
  });
  const seen = collector.backing.kind === 'none' || cos > 0;
  const parts = tables.parts.map((t) => share(t, seen));
  const area = areasOf(scene);
  const mean = (of: (s: SunlitShare) => number): number => meanByArea(area, (k) => of(parts[k]));
  const day = sunDay(utcOf(`${at.slice(0, 10)}T12:00`, site.timeZone), site, air);
  const local = (ms: number | null): string | null => (ms === null ? null : localTime(ms, site.timeZone));
  return {
    result: {
      at,
      elevation_deg: 90 - place.zenith_deg,
      azimuth_deg: place.azimuth_deg,
      up,
      sunrise: local(day.sunrise_ms),
      noon: local(day.noon_ms)!,
      sunset: local(day.sunset_ms),
      dayLength_h: day.length_ms / 3_600_000,
      incidence_deg: Math.acos(Math.min(1, Math.max(-1, cos))) / RAD,
      pool: share(tables.pool, true),
      parts,
      collector: { sunlit: mean((p) => p.sunlit), sky: mean((p) => p.sky) },
      shadows: up ? shadowsOf(scene, place.zenith_deg, place.azimuth_deg, month) : [],
      poleShadow_m: up ? Math.tan(place.zenith_deg * RAD) : null,
    },
    solver: { converged: true, iterations: 0, residual: 0 },
    band: {},
    notices: [...zoneNotices(project), ...bodiless(scene)],
    complete: true,
  };
}

/** Mean over the collector's parts, each by its area; 0 without any. */
function meanByArea(area_m2: readonly number[], of: (part: number) => number): number {
  const whole = area_m2.reduce((a, b) => a + b, 0);
  return whole > 0 ? area_m2.reduce((sum, area, k) => sum + of(k) * area, 0) / whole : 0;
}

const areasOf = (scene: YardScene): number[] => scene.parts.map((p) => shadeGrid(p).area_m2);

function bodiless(scene: YardScene): Notice[] {
  return scene.bodiless.map((name) => ({
    code: 'yard-no-body',
    severity: 'unsure',
    path: '/yard/obstacles',
    message: `${name} has no body and throws no shadow.`,
    remedy: 'Give it a height and an outline.',
  }));
}

/** What the clocks of a place show at an instant, to the minute: on the day they are changed, after the change. */
function localTime(ms: number, timeZone: string): string {
  return new Date(wallClockAt(Math.round(ms / 60_000) * 60_000, timeZone)).toISOString().slice(11, 16);
}

/** Planes of the collector's parts. */
export function partPlanes(scene: YardScene): ShadowPlane[] {
  return scene.parts.map((part) => ({ through: part.corners[0], normal: shadeGrid(part).normal }));
}

export function shadowsOf(
  scene: YardScene,
  zenith_deg: number,
  azimuth_deg: number,
  month: number,
): ThingShadow[] {
  const planes = partPlanes(scene);
  return scene.obstacles.map((o: SceneObstacle) => ({
    id: o.id,
    name: o.name,
    onWater: shadowOf(o.solid, WATER_PLANE, zenith_deg, azimuth_deg, month),
    onParts: planes.map((plane) => shadowOf(o.solid, plane, zenith_deg, azimuth_deg, month)),
  }));
}

/** When pool and collector are in the sun through a year: a row for each day, a cell for each step of the day. */
export interface YearCarpet {
  readonly year: number;
  readonly stepsPerDay: number;
  /** Sunlit share by day × step of local standard time; −1 with the sun down [–]. */
  readonly pool: Float32Array;
  readonly collector: Float32Array;
}

/**
 * The year carpet: day across, hour up.
 *
 * @param offset_h    local standard time less universal time
 * @param stepsPerDay 24 for hours, 48 for half hours
 */
export function yearCarpet(
  project: Project,
  year: number,
  offset_h: number,
  stepsPerDay = 24,
  options: SunOptions = {},
): YearCarpet {
  const { site, collector } = project;
  const scene = yardScene(project, options.tables ?? STANDARD_TABLES);
  const tables = shadeTables(scene, options.shade ?? new Map());
  const start = Date.UTC(year, 0, 1) - offset_h * 3_600_000;
  const end = Date.UTC(year + 1, 0, 1) - offset_h * 3_600_000;
  const count = Math.round((end - start) / 86_400_000);
  const days = sunDays(site, start, end);
  const { tilt_deg, facing_deg } = collector.placement;
  const pool = new Float32Array(count * stepsPerDay).fill(-1);
  const panel = new Float32Array(count * stepsPerDay).fill(-1);
  const now: SunNow = { zenith_deg: 0, azimuth_deg: 0, hourAngle_deg: 0, distance_au: 1 };
  const area = areasOf(scene);
  const rear = collector.backing.kind === 'none';
  for (let d = 0; d < count; d++) {
    const month = new Date(Date.UTC(year, 0, 1 + d)).getUTCMonth();
    for (let s = 0; s < stepsPerDay; s++) {
      sunAt(days, start + (d + (s + 0.5) / stepsPerDay) * 86_400_000, now);
      if (!(now.zenith_deg < 90)) continue;
      const at = d * stepsPerDay + s;
      const of = (t: ShadeTable | null): number =>
        t ? sunlitShare(t, month, now.azimuth_deg, 90 - now.zenith_deg) : 1;
      pool[at] = of(tables.pool);
      const faces = rear || cosIncidence(now.zenith_deg, now.azimuth_deg, tilt_deg, facing_deg) > 0;
      panel[at] = faces ? meanByArea(area, (k) => of(tables.parts[k])) : 0;
    }
  }
  return { year, stepsPerDay, pool, collector: panel };
}

/** A sunlit share that the person typed, beside the computed one. */
export interface SeenBeside {
  of: 'pool' | 'collector';
  month: number;
  seen: number;
  /** Mean sunlit share of the hours with the sun up in that month [–]. */
  computed: number;
}

/** Typed guesses beside what the yard gives. */
export function seenBeside(project: Project, carpet: YearCarpet): SeenBeside[] {
  return (project.yard?.seenSunlit ?? []).map(({ of, month, share }) => {
    const list = carpet[of];
    let sum = 0;
    let count = 0;
    list.forEach((v, i) => {
      const d = Math.floor(i / carpet.stepsPerDay);
      if (v < 0 || new Date(Date.UTC(carpet.year, 0, 1 + d)).getUTCMonth() !== month - 1) return;
      sum += v;
      count++;
    });
    return { of, month, seen: share, computed: count > 0 ? sum / count : 0 };
  });
}

import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from '@sunlap/engine/collector/options';
import type { TeeSet } from '@sunlap/engine/hydraulics/network-types';
import { type PoolBody, poolBody } from '@sunlap/engine/pool/conditions';
import { EVAPORATION_MODELS, type EvaporationName } from '@sunlap/engine/pool/evaporation';
import { type PanelSetup, panelCollector } from '@sunlap/engine/season/panel-year';
import type { RunPlan } from '@sunlap/engine/season/run-plan';
import { type SunSteps, sunSteps } from '@sunlap/engine/season/sun-steps';
import { runYear } from '@sunlap/engine/season/year';
import type { KnownPool, YearResult, YearSetup } from '@sunlap/engine/season/year-types';
import type { ShadeTable } from '@sunlap/engine/sun/shade-table';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan as FilePlan } from '@sunlap/project/schema/season';
import { type PoolSize, poolSize } from '../assembly/pool-size';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { createLoopSolver, type LoopSolver } from '../flow/solver';
import { asItStands } from '../state/standing';
import { type ShadeTables, shadeTables, type YardScene, yardScene } from '../yard/scene';
import { EVAPORATION, FLOOR_ABSORPTANCE, HEATER_EFFICIENCY, LEVEL_RANGE_M, planOf } from './assumed';
import { type SeasonCalendar, seasonCalendar } from './calendar';
import { type DriverChange, type Drivers, panelDrivers, seasonDrivers, shadeSteps } from './drivers';
import { type LoopFlows, loopFlows } from './loop-flows';
import { type PanelLayout, panelLayout, panelSetup, tubesByPart } from './panel-setup';
import { type SeasonWeather, seasonWeather } from './site-weather';
import type { ClockPlace } from './wall-clock';

/** Keeps what a change of one thing does not touch: weather, sun, shadows, analysed networks, layouts. */
export interface SeasonCache {
  readonly solver: LoopSolver;
  /** For the water sent past the collector. */
  readonly pastSolver: LoopSolver;
  readonly shade: Map<string, ShadeTable>;
  series: WeatherSeries | null;
  sun: SunSteps | null;
  calendar: SeasonCalendar | null;
  /** Whose wall clock that is. */
  clock: ClockPlace | null;
  collector: Project['collector'] | null;
  loop: Project['loop'] | null;
  pool: Project['pool'] | null;
  flows: LoopFlows | null;
  panel: PanelLayout | null;
  /** What the pump draws with the water sent past any panel [W]. */
  past: { readonly loop: Project['loop']; readonly pool: Project['pool']; readonly power_W: number } | null;
  /** The panel by kinds of surroundings with its tables, while neither it nor its flows change. */
  setup: { readonly key: readonly unknown[]; readonly setup: PanelSetup | null } | null;
  /** What acts on the pool, and the pool by itself, while neither weather nor habits change. */
  water: PoolMemory | null;
}

interface PoolMemory {
  readonly key: readonly unknown[];
  readonly drivers: Drivers;
  without: { readonly key: string; readonly pool: KnownPool } | null;
}

export function createSeasonCache(solver: LoopSolver = createLoopSolver()): SeasonCache {
  return {
    solver,
    pastSolver: createLoopSolver(),
    shade: new Map(),
    series: null,
    sun: null,
    calendar: null,
    clock: null,
    collector: null,
    loop: null,
    pool: null,
    flows: null,
    panel: null,
    past: null,
    setup: null,
    water: null,
  };
}

export interface StudyOptions {
  /** Hours read from a file; else the project's climate. */
  readonly weather?: WeatherSeries | null;
  readonly cache?: SeasonCache;
  readonly tables?: Tables;
  /** Steps into which each hour is cut. */
  readonly substeps?: number;
  /** Water at the start; a warm-up of 60 days finds it when left out. */
  readonly start_C?: number;
  /** Looks at what the collector would give in hours in which it does not run. */
  readonly potential?: boolean;
  readonly keepSteps?: boolean;
  readonly change?: StudyChange;
}

/** One departure from the project as it is. */
export interface StudyChange extends DriverChange {
  readonly tees?: TeeSet;
  readonly evaporation?: EvaporationName;
  readonly heat?: HeatOptions;
  /** No collector at all. */
  readonly bare?: boolean;
}

/** A year that was run, with everything needed to read it. */
export interface Study {
  readonly year: YearResult;
  readonly weather: SeasonWeather;
  readonly calendar: SeasonCalendar;
  readonly sun: SunSteps;
  readonly scene: YardScene;
  readonly shade: ShadeTables;
  readonly flows: LoopFlows;
  readonly plan: FilePlan;
  readonly pool: PoolSize;
  /** False when nothing flows through the collector. */
  readonly heats: boolean;
}

/** Runs one year; yields the share done. */
export function* studyYear(given: Project, options: StudyOptions = {}): Generator<number, Study> {
  const project = asItStands(given);
  const tables = options.tables ?? STANDARD_TABLES;
  const cache = options.cache ?? createSeasonCache();
  const change = options.change ?? {};
  const weather = seasonWeather(project, options.weather);
  const { series } = weather;
  if (cache.series !== series || !cache.sun) {
    cache.series = series;
    cache.sun = sunSteps(series);
    cache.calendar = null;
  }
  const { timeZone, longitude_deg } = project.site;
  const sameClock = cache.clock?.timeZone === timeZone && cache.clock.longitude_deg === longitude_deg;
  if (!cache.calendar || !sameClock) {
    cache.clock = { timeZone, longitude_deg };
    cache.calendar = seasonCalendar(series, cache.clock);
  }
  const { sun, calendar } = cache;
  yield 0;
  const scene = yardScene(project, tables);
  const shade = shadeTables(scene, cache.shade);
  yield 0;
  const plan = planOf(project, series);
  const pool = poolSize(project.pool);
  const shadeNow = shadeSteps(shade, sun, calendar, change.felled);
  const water = waterOf(project, weather, cache, shade.pool, change, () =>
    seasonDrivers(project, weather, calendar, sun, shadeNow, plan, pool.surface_m2, change),
  );
  const { drivers } = water;
  yield 0;
  const flows = flowsOf(project, tables, cache, change.tees);
  yield 0;
  const heat = {
    ...DEFAULT_HEAT_OPTIONS,
    ...change.heat,
    ...(change.skyEmittance ? { skyEmittance: change.skyEmittance } : {}),
  };
  const apart = shade.parts.some((table) => table !== null);
  const setup = change.bare ? null : setupOf(project, flows, cache, scene, heat, apart);
  const heater = project.season?.heater;
  const year: YearSetup = {
    body: bodyOf(project, pool, change.evaporation),
    heater: heater
      ? {
          capacity_W: heater.capacity_W,
          setpoint_C: heater.setpoint_C,
          efficiency: heater.efficiency ?? HEATER_EFFICIENCY[heater.kind],
        }
      : null,
    plan: enginePlan(plan),
    collector: setup
      ? panelCollector(
          setup,
          panelDrivers(
            project,
            weather,
            sun,
            shadeNow,
            drivers,
            tubesByPart(flows, cache.panel!, scene.partOfSection),
            change,
          ),
        )
      : null,
    potential: options.potential ?? false,
    keepSteps: options.keepSteps ?? false,
    ...(options.start_C !== undefined ? { start_C: options.start_C } : {}),
    ...(options.substeps !== undefined ? { substeps: options.substeps } : {}),
  };
  const aloneKey = JSON.stringify([
    change.evaporation ?? null,
    year.start_C ?? null,
    year.substeps ?? 1,
    year.keepSteps,
  ]);
  const alone = water.without?.key === aloneKey ? water.without.pool : null;
  const result = yield* runYear(drivers.steps, alone ? { ...year, without: alone } : year);
  water.without = { key: aloneKey, pool: { sums: result.without, step_C: result.stepWithout_C } };
  return { year: result, weather, calendar, sun, scene, shade, flows, plan, pool, heats: setup !== null };
}

/** What acts on the pool; kept while nothing of it changes, whatever becomes of the panel. */
function waterOf(
  project: Project,
  { series }: SeasonWeather,
  cache: SeasonCache,
  shade: ShadeTable | null,
  change: StudyChange,
  make: () => Drivers,
): PoolMemory {
  const { season, site, pool, loop } = project;
  const { poolExposure, skyEmittance, felled } = change;
  const key = [series, season, site, pool, loop.filter, shade, poolExposure, skyEmittance, felled];
  const known = cache.water;
  if (known && key.every((k, i) => k === known.key[i])) return known;
  cache.water = { key, drivers: make(), without: null };
  return cache.water;
}

/** The panel and what it answers; kept while panel, flows and options stay what they are. */
function setupOf(
  project: Project,
  flows: LoopFlows,
  cache: SeasonCache,
  scene: YardScene,
  heat: HeatOptions,
  apart: boolean,
): PanelSetup | null {
  const { collector, loop, site } = project;
  const key = [collector, loop, site, flows, cache.panel, apart, ...Object.values(heat)];
  const known = cache.setup;
  if (known && known.key.length === key.length && key.every((k, i) => k === known.key[i])) return known.setup;
  const setup = panelSetup(project, flows, cache.panel!, scene.partOfSection, heat, apart);
  cache.setup = { key, setup };
  return setup;
}

/** Flows and layout; kept while collector, loop and pool stay what they are. */
function flowsOf(project: Project, tables: Tables, cache: SeasonCache, tees?: TeeSet): LoopFlows {
  const same =
    cache.collector === project.collector && cache.loop === project.loop && cache.pool === project.pool;
  if (tees) {
    // a rival's flows are not kept; the layout is the project's own
    if (!same || !cache.panel) flowsOf(project, tables, cache);
    return loopFlows(project, tees);
  }
  if (same && cache.flows && cache.panel) return cache.flows;
  const { loop, pool } = project;
  const past = cache.past?.loop === loop && cache.past.pool === pool ? cache.past.power_W : undefined;
  cache.flows = loopFlows(project, undefined, cache.solver, cache.pastSolver, past);
  // without a bypass the water that runs anyway runs through the panel
  if (loop.bypass.kind !== 'none') cache.past = { loop, pool, power_W: cache.flows.powerPast_W };
  cache.panel = panelLayout(project, cache.flows, tables);
  cache.collector = project.collector;
  cache.loop = project.loop;
  cache.pool = project.pool;
  return cache.flows;
}

function bodyOf(project: Project, pool: PoolSize, evaporation?: EvaporationName): PoolBody {
  const name = evaporation ?? EVAPORATION[project.season?.evaporation ?? 'smithLofJones'];
  // walls of a square pool of the same surface
  const walls = 4 * Math.sqrt(pool.surface_m2) * pool.depth_m;
  return poolBody(pool.surface_m2, pool.volume_m3, pool.surface_m2 + walls, {
    sun: { kind: 'absorptance', absorptance: FLOOR_ABSORPTANCE[project.pool.floor] },
    evaporation: EVAPORATION_MODELS[name],
    levelRange_m: LEVEL_RANGE_M,
  });
}

/** Nobody heats a pool over this, whatever the hours say [°C]. */
const HOTTEST_C = 45;

function enginePlan(plan: FilePlan): RunPlan {
  if (plan.kind === 'hours')
    return { controller: null, limit_C: plan.limit_C ?? HOTTEST_C, hysteresis_K: 0.2 };
  return {
    controller: {
      on_K: plan.onDifference_K,
      off_K: plan.offDifference_K,
      nightCooling: plan.nightCooling ?? false,
    },
    limit_C: plan.limit_C,
    hysteresis_K: plan.limitHysteresis_K ?? 0.3,
  };
}

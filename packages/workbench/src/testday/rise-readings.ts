import type { Place } from '@sunlap/engine/measurement/place';
import type { RiseTest, TemperatureReadings, Thermometer } from '@sunlap/engine/measurement/rise-types';
import type { TestDay } from '@sunlap/project/schema/life';

type Inlet = NonNullable<TestDay['inlet']>;
type Outlet = NonNullable<TestDay['outlet']>;

const PLACE: Record<Inlet['where'] | Outlet['where'], Place> = {
  collectorInlet: 'stream',
  collectorOutlet: 'stream',
  poolReturn: 'returnJet',
  skimmer: 'skimmer',
  poolBulk: 'pool',
  pail: 'pail',
  pipeWall: 'pipeWall',
  elsewhere: 'elsewhere',
};

/** Thermometers of one make err alike by this correlation; judgement. */
const SAME_MAKE = 0.5;

/** Stands in for a thermometer that was not described: a household one; its readings are missing anyway. */
const NONE: TemperatureReadings = {
  readings_C: [],
  thermometer: { limit_K: 0.5, resolution_K: 0.1 },
  place: 'stream',
};

/** The file's readings, all of them, as the engine takes them. */
export function riseTest(day: TestDay): RiseTest {
  const pool = day.pool_C ?? poolOf(day.inlet);
  return {
    inlet: day.inlet ? sideOf(day.inlet) : NONE,
    outlet: day.outlet ? sideOf(day.outlet) : NONE,
    ...(day.samePail === undefined
      ? {}
      : { onePail: { inlet_C: day.samePail.map(([a]) => a), outlet_C: day.samePail.map(([, b]) => b) } }),
    classCorrelation: day.thermometers === 'oneForBoth' ? 1 : day.thermometers === 'sameMake' ? SAME_MAKE : 0,
    ...(pool === undefined ? {} : { pool_C: pool }),
  };
}

/** The rise is of the collector's own water when the outlet thermometer sat before the two ways meet. */
export function risesAt(day: TestDay, ownReturn: boolean): 'collector' | 'pump' {
  const where = day.outlet?.where;
  return ownReturn || where === undefined || where === 'collectorOutlet' || where === 'pipeWall'
    ? 'collector'
    : 'pump';
}

function sideOf(side: Inlet | Outlet): TemperatureReadings {
  return {
    readings_C: side.readings.map((r) => r.value_C),
    thermometer: thermometerOf(side.thermometer),
    place: PLACE[side.where],
  };
}

/** A found offset replaces the class: what is left is how well it was found. */
export function thermometerOf(t: Inlet['thermometer']): Thermometer {
  if (t.offset_K === undefined) return { limit_K: t.limit_K, resolution_K: t.resolution_K };
  return {
    limit_K: t.offsetUncertainty_K ?? t.limit_K,
    resolution_K: t.resolution_K,
    offset_K: t.offset_K,
  };
}

function poolOf(inlet: Inlet | undefined): number | undefined {
  if (inlet === undefined || (inlet.where !== 'skimmer' && inlet.where !== 'poolBulk')) return undefined;
  if (inlet.readings.length === 0) return undefined;
  return inlet.readings.reduce((sum, r) => sum + r.value_C, 0) / inlet.readings.length;
}

/** Slope of readings with times [K/s]; 0 where fewer than three have one or they take under a minute. */
export function driftOf(readings: Inlet['readings'] | undefined): number {
  const timed = (readings ?? []).flatMap((r) => (r.at_s === undefined ? [] : [{ t: r.at_s, y: r.value_C }]));
  if (timed.length < 3) return 0;
  const t0 = timed.reduce((sum, p) => sum + p.t, 0) / timed.length;
  const y0 = timed.reduce((sum, p) => sum + p.y, 0) / timed.length;
  const width = Math.max(...timed.map((p) => p.t)) - Math.min(...timed.map((p) => p.t));
  if (!(width >= 60)) return 0;
  const below = timed.reduce((sum, p) => sum + (p.t - t0) ** 2, 0);
  return timed.reduce((sum, p) => sum + (p.t - t0) * (p.y - y0), 0) / below;
}

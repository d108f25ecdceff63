import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { EVAPORATION_MODELS, type EvaporationName } from '@sunlap/engine/pool/evaporation';
import type { Project } from '@sunlap/project/schema/project';
import { MOST_LAMINAR_GAIN } from '../assembly/heat-assumed';
import { collectorExposure } from '../heat/moment';
import type { Interval } from '../results';
import { EVAPORATION, poolExposure } from './assumed';
import type { StudyChange } from './study';
import type { SeasonValues } from './values';

/** One departure from what is taken for granted. */
export interface SeasonRival {
  readonly group:
    | 'evaporation'
    | 'poolExposure'
    | 'collectorExposure'
    | 'tees'
    | 'skyLongWave'
    | 'insideFilm';
  readonly change: StudyChange;
}

/** Runs of the band: each doubt by itself. */
export function seasonRivals(project: Project): SeasonRival[] {
  const own = EVAPORATION[project.season?.evaporation ?? 'smithLofJones'];
  const pool = poolExposure(project);
  const tubes = collectorExposure(project);
  const others = (Object.keys(EVAPORATION_MODELS) as EvaporationName[]).filter((n) => n !== own);
  return [
    ...others.map((evaporation): SeasonRival => ({ group: 'evaporation', change: { evaporation } })),
    { group: 'poolExposure', change: { poolExposure: pool.low } },
    { group: 'poolExposure', change: { poolExposure: pool.high } },
    { group: 'collectorExposure', change: { collectorExposure: tubes.low } },
    { group: 'collectorExposure', change: { collectorExposure: tubes.high } },
    { group: 'skyLongWave', change: { skyEmittance: 'brunt' } },
    { group: 'skyLongWave', change: { skyEmittance: 'clark-allen' } },
    { group: 'insideFilm', change: { heat: { ...DEFAULT_HEAT_OPTIONS, laminarGain: MOST_LAMINAR_GAIN } } },
    { group: 'tees', change: { tees: 'gardel' } },
    { group: 'tees', change: { tees: 'ideal' } },
  ];
}

/** Quantities that get a band, by name. */
function quantities(values: SeasonValues): [string, number][] {
  const { year, months } = values;
  const out: [string, number][] = [
    ['heat_kWh', year.heat_kWh],
    ['swimDays.with', year.swimDays.with],
    ['swimDays.without', year.swimDays.without],
    ['swimDays.added', year.swimDays.with - year.swimDays.without],
    ['evaporated_m3', year.evaporated_m3.with],
  ];
  for (const m of months) {
    if (!m.pool_C.with || !m.pool_C.without) continue;
    out.push([`months.${m.month}.pool_C.with`, m.pool_C.with.mean]);
    out.push([`months.${m.month}.pool_C.without`, m.pool_C.without.mean]);
    out.push([`months.${m.month}.swimDays.with`, m.swimDays.with]);
    out.push([`months.${m.month}.heat_kWh`, m.heat_kWh]);
  }
  return out;
}

/** Gathers what rivals change; bands are root sums of squares over the groups. */
export class SeasonBand {
  private readonly base: ReadonlyMap<string, number>;
  private readonly changes = new Map<string, Map<string, Interval>>();

  constructor(values: SeasonValues) {
    this.base = new Map(quantities(values));
  }

  add(group: SeasonRival['group'], values: SeasonValues): void {
    for (const [name, value] of quantities(values)) {
      const base = this.base.get(name);
      if (base === undefined) continue;
      const groups = this.changes.get(name) ?? new Map<string, Interval>();
      const own = groups.get(group) ?? { low: 0, high: 0 };
      groups.set(group, { low: Math.min(own.low, value - base), high: Math.max(own.high, value - base) });
      this.changes.set(name, groups);
    }
  }

  /** Intervals by quantity, and `heat_kWh.evaporation` … for what each doubt does to the year. */
  intervals(): Record<string, Interval> {
    const out: Record<string, Interval> = {};
    for (const [name, groups] of this.changes) {
      const base = this.base.get(name)!;
      let low = 0;
      let high = 0;
      for (const [group, change] of groups) {
        low += change.low ** 2;
        high += change.high ** 2;
        if (!name.startsWith('months'))
          out[`${name}.${group}`] = { low: base + change.low, high: base + change.high };
      }
      out[name] = { low: base - Math.sqrt(low), high: base + Math.sqrt(high) };
      if (name.includes('swimDays') && !name.endsWith('added')) out[name].low = Math.max(0, out[name].low);
    }
    return out;
  }
}

import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { Project } from '@sunlap/project/schema/project';
import { MOST_LAMINAR_GAIN } from '../assembly/heat-assumed';
import { heatConditions } from '../assembly/heat-conditions';
import type { Interval } from '../results';
import { ASSUMED, heatWeather, type MomentChange, type ResolvedMoment } from './moment';
import type { SolvedHeat } from './solve-heat';

/** One departure from the default: what it is called, and what it changes. */
interface Rival {
  readonly group: string;
  readonly light?: Partial<HeatOptions>;
  readonly change?: MomentChange;
  readonly water_C?: number;
}

/** Heat of a rival, by the doubt that it belongs to. */
export interface HeatBand {
  readonly intervals: Record<string, Interval>;
  /** Doubts by how far they move the heat, largest first [W]. */
  readonly doubts: readonly { group: string; half_W: number }[];
}

function rivals(now: ResolvedMoment): Rival[] {
  const { moment, exposure } = now;
  const out: Rival[] = [
    { group: 'exposure', change: { exposure: exposure.low } },
    { group: 'exposure', change: { exposure: exposure.high } },
    { group: 'insideFilm', light: { laminarGain: MOST_LAMINAR_GAIN } },
    { group: 'skyModel', light: { skyModel: 'hay-davies' } },
    { group: 'skyModel', light: { skyModel: 'isotropic' } },
    { group: 'skyLongWave', change: { skyEmittance: 'brunt' } },
    { group: 'skyLongWave', change: { skyEmittance: 'clark-allen' } },
    { group: 'convection', light: { plateFilm: 'mcadams' } },
    { group: 'convection', light: { plateFilm: 'sharples' } },
  ];
  if (now.skyLow < 1) out.push({ group: 'sky', change: { lightShare: now.skyLow } });
  if (now.skyHigh > 1) out.push({ group: 'sky', change: { lightShare: now.skyHigh } });
  for (const sign of [-1, 1]) {
    if (moment.assumed.includes('air')) {
      out.push({ group: 'air', change: { air_C: moment.air_C + sign * ASSUMED.air_C.half } });
    }
    if (moment.assumed.includes('dew')) {
      out.push({ group: 'dew', change: { dewPoint_C: moment.dewPoint_C + sign * ASSUMED.dewPoint_C.half } });
    }
    if (moment.assumed.includes('wind')) {
      const wind_ms = Math.max(0, moment.wind_ms + sign * ASSUMED.wind_ms.half);
      out.push({ group: 'wind', change: { wind_ms } });
    }
    if (moment.assumed.includes('water')) {
      out.push({ group: 'water', water_C: moment.water_C + sign * ASSUMED.water_C.half });
    }
  }
  return out;
}

/**
 * Band of the heat: each doubt is tried by itself at the flow found; they are independent, so the band is the
 * root of the sum of squares of what they take away, and of what they add.
 */
export function heatBand(project: Project, now: ResolvedMoment, solved: SolvedHeat): HeatBand {
  const base = solved.panel;
  const water_C = now.moment.water_C;
  const baseOutlet = base.outlet_C ?? water_C;
  const heat = new Map<string, Interval>();
  const rise = new Map<string, Interval>();
  for (const rival of rivals(now)) {
    const light = { ...DEFAULT_HEAT_OPTIONS, ...rival.light };
    const weather = heatWeather(project, now, rival.change);
    const { panel } = heatConditions(project, solved.flow.assembled, solved.layout, weather, light);
    const inlet = Math.min(99, Math.max(0.1, rival.water_C ?? water_C));
    const other = solvePanel(solved.layout.panel, solved.elementFlow_kgs, inlet, panel, {
      laminarGain: light.laminarGain,
      tolerance_K: 1e-5,
    });
    note(heat, rival.group, other.heat_W - base.heat_W);
    note(rise, rival.group, (other.outlet_C ?? inlet) - inlet - (baseOutlet - water_C));
  }
  const intervals: Record<string, Interval> = {
    heat_W: joined(base.heat_W, heat),
    rise_K: joined(baseOutlet - water_C, rise),
  };
  intervals.outlet_C = { low: intervals.rise_K.low + water_C, high: intervals.rise_K.high + water_C };
  const doubts: { group: string; half_W: number }[] = [];
  for (const [group, change] of heat) {
    intervals[`heat_W.${group}`] = { low: base.heat_W + change.low, high: base.heat_W + change.high };
    doubts.push({ group, half_W: (change.high - change.low) / 2 });
  }
  doubts.sort((a, b) => b.half_W - a.half_W);
  return { intervals, doubts };
}

function note(changes: Map<string, Interval>, group: string, change: number): void {
  const own = changes.get(group) ?? { low: 0, high: 0 };
  changes.set(group, { low: Math.min(own.low, change), high: Math.max(own.high, change) });
}

function joined(base: number, changes: Map<string, Interval>): Interval {
  let low = 0;
  let high = 0;
  for (const change of changes.values()) {
    low += change.low ** 2;
    high += change.high ** 2;
  }
  return { low: base - Math.sqrt(low), high: base + Math.sqrt(high) };
}

import type { Project } from '@sunlap/project/schema/project';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { heatBasic } from '../heat/heat-basic';
import type { MomentOptions } from '../heat/moment';
import { createHeatCache, type HeatCache } from '../heat/solve-heat';
import type { HeatAnswer, Interval } from '../results';
import { DOUBTS, type Doubt, POOL_VOLUME } from './doubts';

/** What moves with a doubt. */
export interface DoubtReadouts {
  readonly heat_W: number;
  readonly flow_m3s: number;
  readonly rise_K: number;
  readonly poolPerSunnyDay_K: number;
}
type Readout = keyof DoubtReadouts;
const READOUTS: readonly Readout[] = ['heat_W', 'flow_m3s', 'rise_K', 'poolPerSunnyDay_K'];

export interface DoubtFound {
  readonly doubt: Doubt;
  readonly label: string;
  readonly settle: string;
  /** How far it moves each readout, relative to the readout: low ≤ 0 ≤ high [–]. */
  readonly relative: Record<Readout, Interval>;
}

/** What the "don't know"s leave open. */
export interface DoubtBand {
  /** Widest for the heat first. */
  readonly doubts: readonly DoubtFound[];
  /** All together, relative [–]. */
  readonly relative: Record<Readout, Interval>;
}

export interface DoubtOptions {
  readonly tables?: Tables;
  readonly cache?: HeatCache;
  /** Solution of the project as it stands, where there is one; with the sum over a sunny day. */
  readonly base?: HeatAnswer;
  /** False leaves degrees per sunny day to follow the heat, which is quicker. */
  readonly day?: boolean;
}

const NOTHING: Interval = { low: 0, high: 0 };

/**
 * What each "don't know" of the project leaves open, by solving both ends of its row in the table of doubts. Doubts
 * are independent: what they take away and what they add are joined by the root of their squares. Two solutions for
 * each doubt (four for the direction): meant for when the person rests; while something is dragged, widen the new
 * value by the relative band at hand.
 *
 * @example widen(heat_W, doubtBand(project, moment).relative.heat_W)
 */
export function doubtBand(project: Project, moment: MomentOptions, options: DoubtOptions = {}): DoubtBand {
  const unsure = new Set(project.unsure ?? []);
  const rows = DOUBTS.filter((row) => unsure.has(row.doubt));
  const none = record(() => NOTHING);
  if (rows.length === 0) return { doubts: [], relative: none };
  const tables = options.tables ?? STANDARD_TABLES;
  const cache = options.cache ?? createHeatCache();
  const day = options.day ?? true;
  const base = readoutsOf(options.base ?? heatBasic(project, moment, { tables, cache, day }), day);
  const doubts = rows.map((row): DoubtFound => {
    const { doubt, label, settle } = row;
    if (doubt === 'pool') {
      const relative = { low: 1 / (1 + POOL_VOLUME) - 1, high: 1 / (1 - POOL_VOLUME) - 1 };
      return { doubt, label, settle, relative: { ...none, poolPerSunnyDay_K: relative } };
    }
    const others = row
      .ends({ project, tables })
      .map((end) =>
        heatBasic(end.project, moment, { tables: end.tables, cache: freshFor(row.movesFlow, cache), day }),
      )
      .filter((answer) => answer.solver.converged)
      .map((answer) => readoutsOf(answer, day));
    return {
      doubt,
      label,
      settle,
      relative: record((key) =>
        spreadOf(
          base[key],
          others.map((o) => o[key]),
        ),
      ),
    };
  });
  doubts.sort((a, b) => width(b.relative.heat_W) - width(a.relative.heat_W));
  return { doubts, relative: record((key) => joinRelative(doubts.map((d) => d.relative[key]))) };
}

/** A value with a relative band, as an interval. */
export function widen(value: number, relative: Interval): Interval {
  const ends = [value + Math.abs(value) * relative.low, value + Math.abs(value) * relative.high];
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

/** Two bands about one value, independent of each other. */
export function joinBands(value: number, a: Interval, b: Interval): Interval {
  return {
    low: value - Math.hypot(value - a.low, value - b.low),
    high: value + Math.hypot(a.high - value, b.high - value),
  };
}

/** A pump or pipe of its own would spoil the layout kept for the project; site and surface do not. */
function freshFor(movesFlow: boolean, cache: HeatCache): HeatCache {
  return movesFlow ? createHeatCache() : { ...cache };
}

function readoutsOf(answer: HeatAnswer, day: boolean): DoubtReadouts {
  const { heat_W, rise_K, poolPerSunnyDay_K } = answer.result;
  return {
    heat_W,
    rise_K,
    flow_m3s: answer.flow.result.collectorFlow_m3s,
    poolPerSunnyDay_K: day ? poolPerSunnyDay_K : heat_W,
  };
}

function spreadOf(base: number, others: readonly number[]): Interval {
  const scale = Math.abs(base);
  if (!(scale > 0) || others.length === 0) return NOTHING;
  return {
    low: Math.min(0, ...others.map((o) => (o - base) / scale)),
    high: Math.max(0, ...others.map((o) => (o - base) / scale)),
  };
}

function joinRelative(list: readonly Interval[]): Interval {
  return {
    low: -Math.hypot(...list.map((i) => i.low)),
    high: Math.hypot(...list.map((i) => i.high)),
  };
}

const width = (i: Interval): number => i.high - i.low;

function record(value: (key: Readout) => Interval): Record<Readout, Interval> {
  return Object.fromEntries(READOUTS.map((key) => [key, value(key)])) as Record<Readout, Interval>;
}

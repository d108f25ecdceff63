import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import { type Component, fromLimits } from '@sunlap/engine/measurement/component';
import type { Project } from '@sunlap/project/schema/project';
import { heatConditions } from '../assembly/heat-conditions';
import { doubtBand } from '../first/doubt-band';
import { heatBand } from '../heat/heat-band';
import { heatReport } from '../heat/heat-basic';
import { heatValues } from '../heat/heat-values';
import { heatWeather, type MomentChange, type ResolvedMoment } from '../heat/moment';
import { createHeatCache, type SolvedHeat, solveHeat } from '../heat/solve-heat';
import type { HeatValues, SolverReport } from '../results';
import type { DayConditions } from './conditions';

/** What the model says of the very hour. */
export interface ExpectedHeat {
  readonly solved: SolvedHeat;
  readonly values: HeatValues;
  readonly solver: SolverReport;
  /** Between the places where the two thermometers were held. */
  readonly heat_W: number;
  /** Its doubts, independent of each other [W]. */
  readonly components: readonly Component[];
}

/** Sources as the engine's advice knows them, and words for them. */
const GROUPS: Record<string, readonly [source: string, label: string]> = {
  exposure: ['expected.wind', 'how much of the wind reaches the tubes'],
  wind: ['expected.wind', 'the wind of that hour'],
  sky: ['expected.sun', 'the sun of that hour'],
  skyModel: ['expected.skyModel', 'how the sky’s light is spread'],
  skyLongWave: ['expected.longWave', 'how cold the sky is'],
  cloud: ['expected.cloud', 'how much of the sky is clouded'],
  convection: ['expected.convection', 'how wind cools a row on a backing'],
  insideFilm: ['expected.film', 'the water film inside slow tubes'],
  air: ['expected.air', 'the air temperature'],
  dew: ['expected.dew', 'the dew point'],
  water: ['expected.inlet', 'the temperature of the pool’s water'],
};

/** What of the hour moves the expectation beside the rivals of `heat`. */
interface Extra {
  readonly group: string;
  readonly now?: ResolvedMoment;
  readonly change?: MomentChange;
  readonly water_C?: number;
}

/** Between which places the water's rise was measured; absent ends are the pool's. */
export interface RiseEnds {
  readonly fromCollectorInlet: boolean;
  readonly toCollectorOutlet: boolean;
}

/**
 * Heat to be expected at that hour from the heater as it stood: flow and heat solved together, and a component for
 * each doubt, as wide as the interval that holds its rivals. "Don't know"s of the project count too.
 *
 * @param inletLimit_K half-width of the measured inlet temperature [K]; 0 when it was not measured
 */
export function expectedHeat(
  project: Project,
  at: DayConditions,
  inletLimit_K: number,
  ends: RiseEnds,
): ExpectedHeat {
  const { now } = at;
  const cache = createHeatCache();
  const weather = heatWeather(project, now);
  const { water_C } = now.moment;
  const solved = solveHeat(project, weather, water_C, { cache });
  const values = heatValues(project, now, weather, solved);
  const heat_W = values.heat_W;
  const widths = new Map<string, number>();
  const note = (group: string, half: number): void => {
    if (half > 0) widths.set(group, Math.max(widths.get(group) ?? 0, half));
  };
  const band = heatBand(project, now, solved);
  for (const [key, { low, high }] of Object.entries(band.intervals)) {
    if (key.startsWith('heat_W.')) note(key.slice(7), Math.max(heat_W - low, high - heat_W));
  }
  for (const extra of extras(at, inletLimit_K)) {
    const other = heatOf(project, extra, now, solved);
    if (other !== null) note(extra.group, Math.abs(other - heat_W));
  }
  const components = [...widths].map(([group, half]) => {
    const [source, label] = GROUPS[group] ?? [`expected.${group}`, group];
    return fromLimits(source, label, 1, half);
  });
  for (const doubt of doubtBand(project, at.options, { day: false }).doubts) {
    const { low, high } = doubt.relative.heat_W;
    const half = Math.max(-low, high) * Math.abs(heat_W);
    if (half > 0) components.push(fromLimits(`expected.unsure.${doubt.doubt}`, doubt.label, 1, half));
  }
  const between = heat_W - pipesOutside_W(solved, ends);
  return { solved, values, solver: heatReport(solved), heat_W: between, components };
}

/** What feed and return take up outside the two thermometers. */
function pipesOutside_W(solved: SolvedHeat, ends: RiseEnds): number {
  let heat = 0;
  solved.layout.links.forEach((link, e) => {
    const { path } = solved.flow.assembled.infos[link];
    const outside =
      (ends.fromCollectorInlet && path.startsWith('/loop/feed')) ||
      (ends.toCollectorOutlet && path.startsWith('/loop/return'));
    if (outside) heat += solved.panel.elementHeat_W[e];
  });
  return heat;
}

function extras(at: DayConditions, inletLimit_K: number): Extra[] {
  const { now } = at;
  const out: Extra[] = [];
  const both = (
    group: string,
    interval: { low: number; high: number } | null,
    make: (x: number) => Omit<Extra, 'group'>,
  ): void => {
    if (interval) for (const x of [interval.low, interval.high]) out.push({ group, ...make(x) });
  };
  both('wind', at.wind_ms, (wind_ms) => ({ change: { wind_ms } }));
  both('air', at.air_C, (air_C) => ({ change: { air_C } }));
  both('dew', at.dewPoint_C, (dewPoint_C) => ({ change: { dewPoint_C } }));
  both('cloud', at.cloud, (cloud) => ({ now: { ...now, cloud } }));
  const { water_C } = now.moment;
  if (inletLimit_K > 0)
    both('water', { low: water_C - inletLimit_K, high: water_C + inletLimit_K }, (x) => ({ water_C: x }));
  return out;
}

/** Heat of a rival at the flow found, as `heat` judges its own. */
function heatOf(project: Project, extra: Extra, now: ResolvedMoment, solved: SolvedHeat): number | null {
  const weather = heatWeather(project, extra.now ?? now, extra.change);
  const { panel } = heatConditions(
    project,
    solved.flow.assembled,
    solved.layout,
    weather,
    DEFAULT_HEAT_OPTIONS,
  );
  const inlet = Math.min(99, Math.max(0.1, extra.water_C ?? now.moment.water_C));
  const other = solvePanel(solved.layout.panel, solved.elementFlow_kgs, inlet, panel, { tolerance_K: 1e-5 });
  return other.converged ? other.heat_W : null;
}

import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import { prepareNetwork } from '@sunlap/engine/hydraulics/network';
import { bench, describe } from 'vitest';
import { panelGeometry } from '../src/assembly/geometry';
import { heatConditions } from '../src/assembly/heat-conditions';
import { heatLayout } from '../src/assembly/heat-layout';
import { assembleNetwork } from '../src/assembly/network';
import { flow } from '../src/flow/flow';
import { flowBasic, solveFlow } from '../src/flow/flow-basic';
import { createLoopSolver } from '../src/flow/solver';
import { heatBasic } from '../src/heat/heat-basic';
import { heatWeather, resolveMoment } from '../src/heat/moment';
import { createHeatCache, solveHeat } from '../src/heat/solve-heat';
import { collector, project, section, TEST_TABLES as tables, tubes } from '../test/fixtures';

/** Three sections of two banks of 40 tubes: 240 tubes, about 740 links, 500 nodes. */
function panel(length_m: number) {
  return project({
    collector: collector(
      [0, 1, 2].map((i) =>
        section('abc'[i], {
          u_m: 7 * i,
          banks: [
            tubes(`${'abc'[i]}1`, { count: 40, length_m, supply: { pipe: 'two' }, gather: { pipe: 'two' } }),
            tubes(`${'abc'[i]}2`, {
              count: 40,
              length_m,
              across_m: 2.9,
              supply: { pipe: 'two' },
              gather: { pipe: 'two' },
            }),
          ],
          handovers: [{ joins: [{ from: 'last', to: 'first' }] }],
          outletEnds: ['last'],
        }),
      ),
    ),
  });
}

const still = panel(6);
const drawn = [5.9, 6, 6.1, 6.2].map(panel);
const MOMENT = {
  at: '2026-05-10T12:00',
  water_C: 26,
  air_C: 24,
  dewPoint_C: 12,
  wind_ms: 2,
  sky: 'clear' as const,
};
const now = resolveMoment(still, MOMENT);
const weather = heatWeather(still, now);
const solver = createLoopSolver();
const cache = createHeatCache();
const heatLive = createHeatCache();
const geometry = panelGeometry(still.collector, tables.sizes);
const solved = solveHeat(still, weather, 26, { tables, cache: createHeatCache() });
const layout = heatLayout(still, solved.flow.assembled, tables);
let k = 0;
const next = () => drawn[k++ % drawn.length];

describe('240 tubes, description to flows', () => {
  bench('project to network, everything anew', () => {
    assembleNetwork(still, tables);
  });
  bench('project to network, places known', () => {
    assembleNetwork(still, tables, {}, geometry);
  });
  bench('project to flows, cold: assembly, analysis, solution', () => {
    prepareNetwork(assembleNetwork(still, tables).description).solve();
  });
  bench('flowBasic while a length is dragged (a frame)', () => {
    flowBasic(next(), { tables, solver });
  });
  bench('flow solution alone while a length is dragged', () => {
    solveFlow(next(), { tables, solver });
  });
  bench('full study without start-up', () => {
    flow(still, { tables, startUp: false });
  });
});

describe('240 tubes, heat beyond flow (aim 3 ms)', () => {
  bench('light, surroundings and temperatures of a new moment', () => {
    const { panel: conditions } = heatConditions(
      still,
      solved.flow.assembled,
      layout,
      weather,
      DEFAULT_HEAT_OPTIONS,
    );
    solvePanel(layout.panel, solved.elementFlow_kgs, 26, conditions);
  });
  bench('flow and heat together, layout known', () => {
    solveHeat(still, weather, 26, { tables, cache });
  });
  bench('heatBasic while a length is dragged, without the day', () => {
    heatBasic(next(), MOMENT, { tables, cache: heatLive, day: false });
  });
  bench('heat layout: rows, views, elements', () => {
    heatLayout(still, solved.flow.assembled, tables);
  });
});

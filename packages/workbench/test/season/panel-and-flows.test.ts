import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import { waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { createRandom } from '@sunlap/engine/numeric/random';
import { emptyRun } from '@sunlap/engine/season/collector';
import { type PanelWeather, panelCollector } from '@sunlap/engine/season/panel-year';
import { skyShare, sunlitShare } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { heatConditions } from '../../src/assembly/heat-conditions';
import { shadeLayout } from '../../src/assembly/heat-shade';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { solveFlow } from '../../src/flow/flow-basic';
import { createLoopSolver } from '../../src/flow/solver';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { andTheirMean } from '../../src/season/drivers';
import { loopFlows } from '../../src/season/loop-flows';
import { panelLayout, panelSetup, responseStep_K, tubesByPart } from '../../src/season/panel-setup';
import { shadeTables, yardScene } from '../../src/yard/scene';
import { exampleProject } from './examples';

const started = startProject({ ...usualAnswers('us'), tubes: 30, passes: 3 });
const open: Project = {
  ...started,
  collector: { ...started.collector, backing: { kind: 'none', reflectance: 0 } },
};
const cases: [string, Project][] = [
  ['a first panel on the ground', started],
  ['the same on an open rack', open],
  ['the yard of the example', exampleProject('quince-yard')],
  ['the roof of the example', exampleProject('tern-roof')],
];

const turning = startProject({ ...usualAnswers('us'), tubes: 45, passes: 1 });

describe('flows of the year', () => {
  // The aim: what the year reads is within 0.1 % of the network solved again at that very temperature, in all and in
  // each tube: straight lines between the temperatures at which the panel's response is tabulated, where the loop is
  // solved. Temperatures are drawn at random, so that none is one of those.
  it.each([...cases, ['a bank of which tubes turn from laminar', turning] as [string, Project]])(
    '%s: each tube within 0.1 % at any temperature of the water',
    (_, project) => {
      const solver = createLoopSolver();
      const flows = loopFlows(project);
      expect(flows.converged).toBe(true);
      const parts = project.collector.sections.map(() => 0);
      const setup = panelSetup(project, flows, panelLayout(project, flows, STANDARD_TABLES), parts)!;
      const n = setup.kinds.length;
      const read = { effective: new Float64Array(n), inner_mKW: new Float64Array(n), capacity_WK: 0 };
      const ordinary = new Float64Array(n).fill(1);
      const tubes = flows.assembled.banks.flatMap((bank) => bank?.units ?? []);
      const step = responseStep_K(flows);
      const random = createRandom(5);
      for (let k = 0; k < 10; k++) {
        const water_C = 4 + 34 * random();
        const again = solveFlow(project, { solver, water_C });
        const full = again.solution.network.flow_kgs;
        setup.response.read(water_C, ordinary, read);
        const total = read.capacity_WK / waterHeatCapacity(water_C);
        expect(Math.abs(total / full[again.assembled.collectorLink] - 1)).toBeLessThan(2e-4);
        const low = Math.floor(water_C / step) * step;
        const [a, b] = [flows.at(low), flows.at(low + step)];
        const at = flows.at(water_C);
        for (const link of tubes) {
          const between = a[link] + ((water_C - low) / step) * (b[link] - a[link]);
          expect(Math.abs(between / full[link] - 1)).toBeLessThan(1e-3);
          expect(Math.abs(at[link] / full[link] - 1)).toBeLessThan(1e-5);
        }
      }
      // lazily, and not at every temperature
      expect(flows.nodes()).toBeLessThan(25);
    },
  );
});

/** Weather of single moments, as if each were a step. */
function momentsOf(project: Project, at: readonly string[], wind_ms: number, air_C: number) {
  const moments = at.map((a) =>
    heatWeather(project, resolveMoment(project, { at: a, air_C, wind_ms, dewPoint_C: 8 }), {
      unshaded: true,
    }),
  );
  const list = (of: (w: (typeof moments)[number]) => number): Float64Array => Float64Array.from(moments, of);
  const one = new Float64Array(at.length).fill(1);
  const weather: PanelWeather = {
    zenith_deg: list((w) => w.sky.sunZenith_deg),
    azimuth_deg: list((w) => w.sky.sunAzimuth_deg),
    extraterrestrial_Wm2: list((w) => w.sky.extraterrestrial_Wm2),
    directNormal_Wm2: list((w) => w.sky.directNormal_Wm2),
    diffuse_Wm2: list((w) => w.sky.diffuseHorizontal_Wm2),
    air_C: list((w) => w.air.air_C),
    sky_C: list((w) => w.air.sky_C),
    pressure_Pa: list((w) => w.air.pressure_Pa),
    wind_ms: list((w) => w.air.wind_ms),
    ground_C: moments[0].ground_C,
    room_C: moments[0].room_C,
    sunlit: [one, one, one, one],
    skyShare: [one, one, one, one],
  };
  return { moments, weather };
}

describe('heat of the year’s panel', () => {
  // Invariant: the study of a moment, tube by tube. The year's panel has mean tubes, no neighbours' long wave and
  // one water temperature for all films: held to 1 % of the noon's heat for each moment, 0.5 % over all.
  it.each(cases)('%s: is that of the study of a moment at the same flows', (_, project) => {
    const flows = loopFlows(project);
    const layout = panelLayout(project, flows, STANDARD_TABLES);
    const setup = panelSetup(
      project,
      flows,
      layout,
      project.collector.sections.map(() => 0),
    )!;
    const run = emptyRun();
    const south = project.site.latitude_deg < 0;
    const day = south ? '2026-12-12' : '2026-06-12';
    const hours = ['T08:00', 'T10:00', 'T13:00', 'T15:30', 'T18:00', 'T23:30'].map((h) => day + h);
    let noon = 0;
    let sum = 0;
    let total = 0;
    const off: number[] = [];
    for (const [wind, air_C] of [
      [0.6, 18],
      [4, 29],
    ] as const) {
      const { moments, weather } = momentsOf(project, hours, wind, air_C);
      const collector = panelCollector(setup, weather);
      for (const water_C of [16, 29])
        moments.forEach((w, i) => {
          const { panel } = heatConditions(project, flows.assembled, layout.layout, w, DEFAULT_HEAT_OPTIONS);
          const all = flows.at(water_C);
          const full = solvePanel(
            layout.layout.panel,
            Float64Array.from(layout.layout.links, (l) => all[l]),
            water_C,
            panel,
          );
          for (let k = 0; k < 3; k++) collector.running(i, water_C, run);
          noon = Math.max(noon, full.heat_W);
          off.push(Math.abs(run.heat_W - full.heat_W));
          sum += run.heat_W - full.heat_W;
          total += Math.abs(full.heat_W);
          // the slope is what a kelvin does
          if (i === 2) {
            const here = run.heat_W;
            const { slope_WK } = run;
            collector.running(i, water_C + 0.2, run);
            expect((run.heat_W - here) / 0.2 / slope_WK).toBeCloseTo(1, 0);
          }
        });
    }
    expect(Math.max(...off) / noon).toBeLessThan(0.01);
    expect(Math.abs(sum) / total).toBeLessThan(0.005);
  });
});

describe('shade in the year and in the moment', () => {
  // The year takes shares by section from its table, the moment cuts every tube at the shadow's edge. The difference
  // is the table's (edges smoothed over 3°) and that of a mean over tubes: within 4 % of the heat in the open in any
  // hour, 0.2 % on the mean of a morning.
  it('shares by section bring the heat of tubes cut at the edge', () => {
    const placed = { ...started.collector, placement: { ...started.collector.placement, x_m: 0, y_m: 0 } };
    const wall = {
      kind: 'prism' as const,
      id: 'house',
      what: 'house' as const,
      footprint: [
        [14, -4],
        [22, -4],
        [22, 12],
        [14, 12],
      ] as [number, number][],
      base_m: 0,
      top_m: 7,
    };
    const project: Project = { ...started, collector: placed, yard: { obstacles: [wall] } };
    const flows = loopFlows(project);
    const layout = panelLayout(project, flows, STANDARD_TABLES);
    const scene = yardScene(project, STANDARD_TABLES);
    const tables = shadeTables(scene, new Map());
    const setup = panelSetup(project, flows, layout, scene.partOfSection, DEFAULT_HEAT_OPTIONS, true)!;
    const hours = [7, 8, 9, 10, 11, 12].map((h) => `2026-06-12T${String(h).padStart(2, '0')}:30`);
    const { weather } = momentsOf(project, hours, 1.5, 24);
    const moments = hours.map((at) => resolveMoment(project, { at, air_C: 24, wind_ms: 1.5, dewPoint_C: 8 }));
    const weights = tubesByPart(flows, layout, scene.partOfSection);
    const sunlit = tables.parts.map((t) =>
      Float64Array.from(moments, ({ moment: { sun } }) =>
        t ? sunlitShare(t, 5, sun.azimuth_deg, sun.elevation_deg) : 1,
      ),
    );
    const sky = tables.parts.map((t) => Float64Array.from(moments, () => (t ? skyShare(t, 5) : 1)));
    const shaded: PanelWeather = {
      ...weather,
      sunlit: andTheirMean(sunlit, weights),
      skyShare: andTheirMean(sky, weights),
    };
    const [year, free] = [panelCollector(setup, shaded), panelCollector(setup, weather)];
    const run = emptyRun();
    let sum = 0;
    let least = 1;
    const all = flows.at(26);
    const noon = moments.map((now, i) => {
      const at = heatWeather(project, now);
      const cut = shadeLayout(layout.layout, flows.assembled, at.shade);
      const { panel } = heatConditions(project, flows.assembled, cut, at, DEFAULT_HEAT_OPTIONS);
      const full = solvePanel(
        cut.panel,
        Float64Array.from(cut.links, (l) => all[l]),
        26,
        panel,
      );
      for (let k = 0; k < 3; k++) year.running(i, 26, run);
      const off = run.heat_W - full.heat_W;
      for (let k = 0; k < 3; k++) free.running(i, 26, run);
      least = Math.min(least, full.heat_W / run.heat_W);
      sum += off;
      return { off, open: run.heat_W };
    });
    const most = Math.max(...noon.map((n) => n.open));
    for (const { off } of noon) expect(Math.abs(off) / most).toBeLessThan(0.01);
    expect(Math.abs(sum) / noon.length / most).toBeLessThan(0.002);
    // and there is shade to speak of
    expect(least).toBeLessThan(0.6);
  });

  // Invariant: light is where it falls. Headers are shaded with their own section, and pipe whose way nobody has
  // drawn lies in the mean of all: which section comes first in the file says nothing.
  it('headers follow their own section, undrawn pipe the mean', () => {
    const project = exampleProject('tern-roof');
    const flows = loopFlows(project);
    const layout = panelLayout(project, flows, STANDARD_TABLES);
    const { partOfSection } = yardScene(project, STANDARD_TABLES);
    const count = partOfSection.length;
    expect(count).toBeGreaterThan(1);
    const setup = panelSetup(project, flows, layout, partOfSection, DEFAULT_HEAT_OPTIONS, true)!;
    const weights = tubesByPart(flows, layout, partOfSection);
    const { weather } = momentsOf(project, ['2026-12-12T12:00'], 1.5, 24);
    const run = emptyRun();
    const heat = (lit: readonly number[]) => {
      const sunlit = andTheirMean(
        lit.map((share) => Float64Array.of(share)),
        weights,
      );
      const panel = panelCollector(setup, {
        ...weather,
        sunlit,
        skyShare: sunlit.map(() => Float64Array.of(1)),
      });
      for (let k = 0; k < 3; k++) panel.running(0, 26, run);
      return [run.headers_W, run.pipes_W] as const;
    };
    const dark = heat(partOfSection.map(() => 0));
    const open = heat(partOfSection.map(() => 1));
    const alone = partOfSection.map((_, s) => heat(partOfSection.map((__, k) => (k === s ? 1 : 0))));
    for (const which of [0, 1] as const) {
      const gains = alone.map((one) => one[which] - dark[which]);
      const whole = open[which] - dark[which];
      expect(whole).toBeGreaterThan(1);
      // each section has headers and tubes of its own, so each brings something of both
      for (const gain of gains) expect(gain / whole).toBeGreaterThan(0.5 / count);
      // films move a little with the surface's temperature
      expect(gains.reduce((a, b) => a + b, 0) / whole).toBeCloseTo(1, 1);
    }
  });
});

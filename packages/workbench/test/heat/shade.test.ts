import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import type { YardObstacle } from '@sunlap/project/schema/season';
import { describe, expect, it } from 'vitest';
import { heatConditions } from '../../src/assembly/heat-conditions';
import { plainLayout } from '../../src/assembly/heat-shade';
import { heat } from '../../src/heat/heat';
import { heatBasic } from '../../src/heat/heat-basic';
import { hottestDry_C } from '../../src/heat/hottest-dry';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { createHeatCache, solveHeat } from '../../src/heat/solve-heat';
import { sun } from '../../src/sun/sun';
import { dayConditions } from '../../src/testday/conditions';
import { expectedHeat } from '../../src/testday/expected';
import { collector, project, section, TEST_TABLES, tubes } from '../fixtures';

const tables = TEST_TABLES;
const MORNING = {
  at: '2026-05-10T10:30',
  water_C: 24,
  air_C: 24,
  dewPoint_C: 11,
  wind_ms: 2,
  sky: 'clear' as const,
};
const level = {
  x_m: 0,
  y_m: 0,
  facing_deg: 180,
  tilt_deg: 0,
  lowestHeight_m: 0,
  mounting: 'ground',
} as const;
const open: Project = project({ collector: { ...collector([section('a')]), placement: level } });
const { moment } = resolveMoment(open, MORNING);
const RAD = Math.PI / 180;

/** A long wall from south to north, 8 m east of the panel's first end, whose shadow ends at a place across. */
function wallTo(edge_m: number, over: Partial<Extract<YardObstacle, { kind: 'prism' }>> = {}): YardObstacle {
  const { azimuth_deg, elevation_deg } = moment.sun;
  return {
    kind: 'prism',
    id: 'wall',
    name: 'Long wall',
    what: 'wall',
    footprint: [
      [8, -60],
      [8.2, -60],
      [8.2, 60],
      [8, 60],
    ],
    base_m: 0,
    // the rear edge of its top throws the last shadow
    top_m: 0.03 + ((8 - edge_m) * Math.tan(elevation_deg * RAD)) / Math.sin(azimuth_deg * RAD),
    ...over,
  };
}
const behind = (...obstacles: YardObstacle[]): Project => ({ ...open, yard: { obstacles } });
const basic = (p: Project) => heatBasic(p, MORNING, { tables, day: false }).result;

describe('heat of a moment in the shade', () => {
  it('without anything that reaches the sun it is what it was, to the last digits', () => {
    const heat_W = basic(open).heat_W;
    expect(basic(behind()).heat_W).toBe(heat_W);
    // below the tubes: looked at, and nothing of it in the way
    const low = basic(behind(wallTo(3, { top_m: 0.001, base_m: -1 })));
    expect(low.shade).toMatchObject({ sunlit: 1, cost_W: null, worst: null });
    expect(low.shade!.sky).toBeCloseTo(1, 12);
    expect(Math.abs(low.heat_W / heat_W - 1)).toBeLessThan(1e-12);
    expect(basic(open).shade).toBeNull();
  });

  // Closed form: the wall's shadow ends at 3 m of tubes of 6 m. Heat is linear in direct light but for its losses:
  // between none and all of it under the same sky, half of the way within 1 %.
  it('a wall that shades half the panel takes half of what direct light brings', () => {
    const p = behind(wallTo(3));
    const now = resolveMoment(p, MORNING);
    const weather = heatWeather(p, now);
    const solved = solveHeat(p, weather, 24, { tables });
    expect(basic(p).shade!.sunlit).toBeCloseTo(0.5, 3);
    const at = (sunlit: number): number => {
      const skyShare = weather.shade!.skyOfSection[0];
      const plain = plainLayout(solved.layout);
      const flat = { ...weather, sunlit, shade: null, air: { ...weather.air, skyShare } };
      const { panel } = heatConditions(p, solved.flow.assembled, plain, flat, DEFAULT_HEAT_OPTIONS);
      return solvePanel(plain.panel, solved.elementFlow_kgs, 24, panel).heat_W;
    };
    const [none, all] = [at(0), at(1)];
    expect(all).toBeGreaterThan(none + 500);
    expect((solved.panel.heat_W - none) / (all - none)).toBeCloseTo(0.5, 2);
    // the wall hides sky as well: less of its light, and less of its cold
    expect(weather.shade!.skyOfSection[0]).toBeLessThan(0.97);
  });

  it('cuts each tube where the edge crosses it: warm half, cool half, no mean between', () => {
    const tube = basic(behind(wallTo(3))).banks[0].tubes[4];
    const rise = tube.profile_C.slice(1).map((t, i) => t - tube.profile_C[i]);
    // eight equal lengths, the first four lit: near x = 0
    const [lit, dark] = [rise.slice(0, 4), rise.slice(4)];
    expect(Math.min(...lit)).toBeGreaterThan(3 * Math.max(...dark));
    expect(tube.profile_C[0]).toBeCloseTo(tube.inlet_C, 9);
    expect(tube.profile_C[8]).toBeCloseTo(tube.outlet_C, 9);
  });

  // Invariant: more wall, less heat; and heat follows the length that is lit.
  it('heat falls as the shadow grows', () => {
    const heats = [7, 5, 4, 3, 2, 1, -1].map((edge) => basic(behind(wallTo(edge))));
    for (let i = 1; i < heats.length; i++) expect(heats[i].heat_W).toBeLessThan(heats[i - 1].heat_W);
    expect(heats.map((h) => Math.round(6 * h.shade!.sunlit))).toEqual([6, 5, 4, 3, 2, 1, 0]);
  });

  it('shades each of six sections by itself', () => {
    const six = Array.from({ length: 6 }, (_, k) =>
      section(`s${k}`, { v_m: 2 * k, banks: [tubes(`b${k}`, { count: 6 })] }),
    );
    const many: Project = project({
      collector: {
        ...collector(six, { parallel: six.map((s) => ({ section: s.id })) }),
        placement: level,
      },
    });
    // only beside the fourth
    const wall = wallTo(-1, {
      footprint: [
        [8, 5.5],
        [8.2, 5.5],
        [8.2, 12],
        [8, 12],
      ],
    });
    const shaded = { ...many, yard: { obstacles: [wall] } };
    expect(sun(shaded, MORNING.at, { tables }).result.parts).toHaveLength(6);
    const [before, after] = [many, shaded].map((p) => basic(p).banks.map((b) => b.heat_W));
    const left = after.map((h, i) => h / before[i]);
    expect(Math.min(...left)).toBeLessThan(0.4);
    expect(Math.max(...left)).toBeGreaterThan(0.9);
  });

  // Invariant: what a wall hides of one section's sky is missing at that section's headers alone.
  it('headers see the sky of their own section, undrawn pipe the mean by tubes', () => {
    const p: Project = {
      ...project({
        collector: {
          ...collector([section('a'), section('b', { v_m: 4 })]),
          placement: level,
        },
      }),
    };
    const now = resolveMoment(p, { ...MORNING, sky: 'overcast' });
    const solved = solveHeat(p, heatWeather(p, now), 24, { tables });
    const { layout } = solved;
    const { assembled } = solved.flow;
    const diffuse = (skyOfSection: readonly number[]) => {
      const shade = {
        solids: [],
        names: [],
        month: 4,
        azimuth_deg: moment.sun.azimuth_deg,
        elevation_deg: moment.sun.elevation_deg,
        skyOfSection,
      };
      const weather = { ...heatWeather(p, now), shade };
      const { panel } = heatConditions(p, assembled, layout, weather, DEFAULT_HEAT_OPTIONS);
      const sums = { a: 0, b: 0, pipe: 0, sky_C: [0, 0, 0] };
      const state = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
      layout.pieceStanding.forEach((s, piece) => {
        const standing = layout.standings[s];
        if (standing.kind !== 'header' && standing.kind !== 'pipe') return;
        const which = standing.kind === 'pipe' ? 2 : standing.section;
        sums[(['a', 'b', 'pipe'] as const)[which]] += panel.absorbed_Wm[piece];
        panel.outside[s].exact(24, state);
        sums.sky_C[which] = state.surroundings_C;
      });
      return sums;
    };
    const [whole, hidden] = [diffuse([1, 1]), diffuse([1, 0.5])];
    expect(hidden.a).toBe(whole.a);
    expect(hidden.b).toBeLessThan(0.8 * whole.b);
    // half of the tubes see half the sky: a quarter of what all would miss
    expect(whole.pipe - hidden.pipe).toBeCloseTo((whole.pipe - diffuse([0.5, 0.5]).pipe) / 2, 9);
    // and what hides the sky is as warm as the air
    expect(hidden.sky_C[0]).toBe(whole.sky_C[0]);
    expect(hidden.sky_C[1]).toBeGreaterThan(whole.sky_C[1] + 0.1);
    expect(hidden.sky_C[2]).toBeGreaterThan(whole.sky_C[2]);
    expect(hidden.sky_C[2]).toBeLessThan(hidden.sky_C[1]);
  });

  it('says what shade costs and what throws it, and a test day expects no more than that', () => {
    const p = behind(wallTo(2), wallTo(5, { id: 'low', name: 'Low wall' }));
    const full = heat(p, MORNING, { tables, startUp: false });
    const notice = full.notices.find((n) => n.code === 'shade-costs-heat');
    expect(notice?.message).toContain('Long wall');
    expect(notice?.message).toContain('33 %');
    expect(full.result.shade!.cost_W).toBeGreaterThan(0.3 * full.result.heat_W);
    expect(full.notices.some((n) => n.code === 'shade-costs-heat')).toBe(true);
    const free = heat(open, MORNING, { tables, startUp: false });
    expect(free.notices.some((n) => n.code === 'shade-costs-heat')).toBe(false);
    // dry tubes are as hot as ever: at some hour the sun gets past
    expect(hottestDry_C(p, 34)).toBe(hottestDry_C(open, 34));

    const day = { at: MORNING.at, sky: 'clear' } as unknown as TestDay;
    const ends = { fromCollectorInlet: false, toCollectorOutlet: false };
    const expected = (q: Project): number =>
      expectedHeat(q, dayConditions(q, day, 24, '/testDays/0'), 0, ends).heat_W;
    expect(expected(p)).toBeLessThan(0.75 * expected(open));
  });

  it('while only numbers are dragged keeps what it has cut', () => {
    const cache = createHeatCache();
    const p = behind(wallTo(3));
    const first = solveHeat(p, heatWeather(p, resolveMoment(p, MORNING)), 24, { tables, cache });
    const warmer = resolveMoment(p, { ...MORNING, wind_ms: 3 });
    expect(solveHeat(p, heatWeather(p, warmer), 27, { tables, cache }).layout).toBe(first.layout);
    const later = resolveMoment(p, { ...MORNING, at: '2026-05-10T11:30' });
    expect(solveHeat(p, heatWeather(p, later), 27, { tables, cache }).layout).not.toBe(first.layout);
  });
});

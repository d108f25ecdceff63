import { PUBLISHED_AVERAGE_ABSORBER } from '@sunlap/engine/collector/rated-absorber';
import { waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { describe, expect, it } from 'vitest';
import { heatLayout } from '../../src/assembly/heat-layout';
import { solveFlow } from '../../src/flow/flow-basic';
import { heat } from '../../src/heat/heat';
import { heatBasic } from '../../src/heat/heat-basic';
import { knowsTimeZone, utcOf } from '../../src/heat/local-time';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { solveHeat } from '../../src/heat/solve-heat';
import { collector, loop, pipe, project, section, TEST_TABLES, tubes } from '../fixtures';

const tables = TEST_TABLES;
const NOON = {
  at: '2026-05-10T13:00',
  water_C: 26,
  air_C: 22,
  dewPoint_C: 11,
  wind_ms: 2,
  sky: 'clear' as const,
};
const basic = (p: ReturnType<typeof project>, moment = NOON) => heatBasic(p, moment, { tables, day: false });

const atSpeed = (speed: number) => project({ loop: loop({ pump: { ...loop().pump, speed } }) });

describe('heat of a project', () => {
  it('balances: parts sum to the whole, and the whole is flow times rise', () => {
    const { result, flow } = basic(project());
    const banks = result.banks.reduce((sum, b) => sum + b.heat_W, 0);
    expect(banks).toBeCloseTo(result.collectorHeat_W, 6);
    expect(result.collectorHeat_W + result.pipesHeat_W).toBeCloseTo(result.heat_W, 9);
    const c = waterHeatCapacity((result.inlet_C + result.outlet_C) / 2);
    // density of the report is that of the pool's water, of the heat balance the mass: they are the same water
    const mass = flow.result.collectorFlow_m3s * 996.8;
    expect(result.heat_W / (mass * c * result.rise_K)).toBeCloseTo(1, 3);
    for (const bank of result.banks) {
      for (const tube of bank.tubes) {
        expect(tube.profile_C[0]).toBeCloseTo(tube.inlet_C, 9);
        expect(tube.profile_C[tube.profile_C.length - 1]).toBeCloseTo(tube.outlet_C, 9);
      }
    }
  });

  it('gives starved tubes hotter water: outlet falls with share', () => {
    const p = project({
      collector: collector([
        section('a', { outletEnds: ['last'], banks: [tubes('a1', { count: 20, pipe: 'threeQuarter' })] }),
      ]),
    });
    const { result, flow } = basic(p);
    const shares = flow.result.collector.banks[0].tubes;
    const inner = result.banks[0].tubes.slice(1, -1);
    const rank = [...inner].sort((a, b) => a.outlet_C - b.outlet_C).map((t) => t.number);
    const byShare = [...inner]
      .sort((a, b) => shares[b.number - 1].share - shares[a.number - 1].share)
      .map((t) => t.number);
    expect(rank).toEqual(byShare);
  });

  it('brings more heat with more flow, at a cooler return', () => {
    const [slow, fast] = [0.4, 1].map((speed) => basic(atSpeed(speed)).result);
    expect(fast.heat_W).toBeGreaterThan(slow.heat_W);
    expect(fast.outlet_C).toBeLessThan(slow.outlet_C);
  });

  it('gives nothing when nothing flows, and says how hot it stands', () => {
    const { result, solver } = basic(atSpeed(0), NOON);
    expect(solver.converged).toBe(true);
    expect(Math.abs(result.heat_W)).toBeLessThan(2);
    expect(result.dryStanding_C).toBeGreaterThan(NOON.air_C + 10);
    expect(result.efficiency === null || Math.abs(result.efficiency) < 1e-3).toBe(true);
  });

  it('looks where the sun is, on both halves of the earth', () => {
    const facing = (facing_deg: number, latitude_deg: number, at: string) => {
      const base = project();
      const p = {
        ...base,
        site: { ...base.site, latitude_deg },
        collector: {
          ...base.collector,
          placement: { ...base.collector.placement, facing_deg, tilt_deg: 40 },
        },
      };
      return basic(p, { ...NOON, at }).result.heat_W;
    };
    expect(facing(180, 36, '2026-03-20T13:00')).toBeGreaterThan(facing(0, 36, '2026-03-20T13:00'));
    expect(facing(0, -36, '2026-09-20T13:00')).toBeGreaterThan(facing(180, -36, '2026-09-20T13:00'));
  });

  it('takes what pipes stand in: sun warms, earth cools', () => {
    const feed = (surroundings: 'sun' | 'shade' | 'buried' | 'indoors') =>
      basic(project({ loop: loop({ feed: [pipe('feed', 40, { surroundings })] }) })).result.pipesHeat_W;
    expect(feed('sun')).toBeGreaterThan(feed('shade'));
    expect(feed('shade')).toBeGreaterThan(feed('buried'));
  });

  it('finds the neighbours of nested tubes in other banks', () => {
    const pitch = 0.07;
    const banks = [0, 1, 2].map((k) => tubes(`n${k}`, { across_m: (k * pitch) / 3, pitch_m: pitch }));
    const p = project({ collector: collector([section('a', { banks })]) });
    const { assembled } = solveFlow(p, { tables });
    const layout = heatLayout(p, assembled, tables);
    expect(layout.rows).toHaveLength(1);
    const middle = layout.panel.description.elements[layout.elementOf[assembled.banks[1].units[4]]];
    if (middle.kind !== 'pipe') throw new Error('a tube is a pipe');
    const beside = [middle.neighbours!.left, middle.neighbours!.right].map(
      (e) => assembled.infos[layout.links[e]].bank,
    );
    expect(beside.sort((a, b) => a - b)).toEqual([0, 2]);
    // packed three times closer, each tube sees less of the sky than it would alone
    const one = project({ collector: collector([section('a', { banks: [banks[0]] })]) });
    const alone = heatLayout(one, solveFlow(one, { tables }).assembled, tables);
    expect(layout.rows[0].sight.front[4]).toBeLessThan(0.8 * alone.rows[0].sight.front[4]);
  });

  it('iterates flow with heat: warmer water runs more easily', () => {
    const p = project({
      collector: collector([section('a', { banks: [tubes('a1', { count: 40, length_m: 25 })] })]),
      loop: loop({ pump: { ...loop().pump, speed: 0.25 } }),
    });
    const now = resolveMoment(p, NOON);
    const solved = solveHeat(p, heatWeather(p, now), 26, { tables });
    const cold = solveFlow(p, { tables, water_C: 26 });
    const at = solved.flow.assembled.collectorLink;
    expect(solved.converged).toBe(true);
    expect(solved.flow.solution.network.flow_kgs[at]).toBeGreaterThan(cold.solution.network.flow_kgs[at]);
  });
});

describe('a dense row of black tubes on a board', () => {
  it('lands near the published average of unglazed absorbers', () => {
    const p = project({
      collector: collector(
        [
          section('a', {
            banks: [
              tubes('a1', {
                count: 60,
                pitch_m: 0.0205,
                depth_m: 0.01,
                pipe: 'thin',
                length_m: 3,
                supply: { pipe: 'three' },
                gather: { pipe: 'three' },
              }),
            ],
          }),
        ],
        undefined,
        {
          backing: { kind: 'board', reflectance: 0.06 },
          surface: { colour: 'own', absorptance: 0.94, emittance: 0.92 },
        },
      ),
    });
    const { result } = heat(p, NOON, { tables });
    const { eta0, bu, b1, b2 } = PUBLISHED_AVERAGE_ABSORBER;
    for (const line of result.curves) {
      const published = { eta0: eta0 * (1 - bu * line.wind_ms), loss: b1 + b2 * line.wind_ms };
      // published average, from memory; common practice. Ours: η₀ 0.07 (at 0.5 m/s) to 0.14 (at 3 m/s) above it
      // and loss 11 to 24 % under it, because a plate film of 2.8 + 3.0 v has less wind in it than that average
      expect(Math.abs(line.eta0 - published.eta0)).toBeLessThan(0.15);
      expect(Math.abs(line.loss_Wm2K / published.loss - 1)).toBeLessThan(0.3);
    }
  });
});

describe('moments', () => {
  it('turns a local time into an instant, with summer time', () => {
    expect(utcOf('2026-07-01T12:00', 'America/Denver')).toBe(Date.UTC(2026, 6, 1, 18));
    expect(utcOf('2026-01-01T12:00', 'America/Denver')).toBe(Date.UTC(2026, 0, 1, 19));
    expect(utcOf('2026-01-01T12:00', 'Australia/Adelaide')).toBe(Date.UTC(2026, 0, 1, 1, 30));
    // skipped by summer time, and no zone at all
    expect(Number.isFinite(utcOf('2026-03-08T02:30', 'America/Denver'))).toBe(true);
    expect(utcOf('2026-07-01T12:00', 'Nowhere/Land')).toBe(Date.UTC(2026, 6, 1, 12));
    expect(knowsTimeZone('Nowhere/Land')).toBe(false);
    expect(() => utcOf('noon', 'UTC')).toThrow(/local time/);
  });

  it('names what it assumes, and each assumption widens the band', () => {
    const p = project();
    const full = heat(p, NOON, { tables });
    const bare = heat(p, { at: NOON.at }, { tables });
    expect(full.result.moment.assumed).toEqual(['ground']);
    expect(bare.result.moment.assumed).toEqual(['water', 'air', 'dew', 'wind', 'sky', 'ground']);
    const width = (a: typeof full) => a.band.heat_W.high - a.band.heat_W.low;
    expect(width(bare)).toBeGreaterThan(1.3 * width(full));
    for (const name of ['exposure', 'insideFilm', 'skyModel', 'skyLongWave', 'convection']) {
      const { low, high } = full.band[`heat_W.${name}`];
      expect(low).toBeLessThanOrEqual(full.result.heat_W + 1e-6);
      expect(high).toBeGreaterThanOrEqual(full.result.heat_W - 1e-6);
    }
    expect(bare.notices.some((n) => n.code === 'heat-doubt')).toBe(true);
  });

  it('orders skies in words by their light, and takes a reading as it is', () => {
    const p = project();
    const global = (sky: 'clear' | 'hazy' | 'thinCloud' | 'halfCloud' | 'overcast' | number) =>
      resolveMoment(p, { ...NOON, sky }).moment.global_Wm2;
    const words = (['clear', 'hazy', 'thinCloud', 'halfCloud', 'overcast'] as const).map(global);
    expect([...words].sort((a, b) => b - a)).toEqual(words);
    expect(global(640)).toBeCloseTo(640, 6);
    expect(resolveMoment(p, { ...NOON, at: '2026-05-10T02:00' }).moment.global_Wm2).toBe(0);
  });

  it('warns of the first slug and of water that the panel cools', () => {
    const still = heat(
      atSpeed(0.3),
      { ...NOON, air_C: 36, wind_ms: 0.3, at: '2026-06-21T13:00' },
      { tables },
    );
    const night = heat(project(), { ...NOON, at: '2026-05-10T02:00' }, { tables });
    expect(night.result.heat_W).toBeLessThan(0);
    expect(night.notices.some((n) => n.code === 'collector-cools')).toBe(true);
    const scald = still.notices.find((n) => n.code === 'first-water-scalds');
    expect(scald !== undefined).toBe(still.result.firstSlug.temperature_C >= 48);
  });
});

import { describe, expect, it } from 'vitest';
import { prepareAir } from '../../src/hydraulics/air-states';
import type { AirLayout } from '../../src/hydraulics/air-types';
import type { NetworkDescription, NetworkLink } from '../../src/hydraulics/network-types';
import { endPressures, lowestPressure } from '../../src/hydraulics/pressure';
import { studyStart } from '../../src/hydraulics/start';
import { pumpedFlow, withPumpSpeed } from '../../src/hydraulics/start-speed';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/start-lift.json';
import { buildLoop } from './air-loop';

const heights_m = [0.5, 1.5, 3];

describe('an upper path above a lower one, headers without loss', () => {
  // the truth's lower path on a pump, and above it the same tubes with the truth's lift, open to the air
  const { lower, lift_m } = truth;
  const law = {
    kind: 'pipe',
    length_m: lower.length_m,
    bore_m: lower.bore_m,
    roughness_m: lower.roughness_m,
    minorLoss: lower.minorLoss,
  } as const;
  const links: NetworkLink[] = [
    {
      id: 'pump',
      from: 0,
      to: 1,
      law: {
        kind: 'pump',
        bore_m: 0.05,
        curve: { kind: 'parabola', shutOffHead_m: 4, coefficient_s2m5: 2e5 },
        speed: 1,
      },
    },
    { id: 'down', from: 2, to: 3, law: { kind: 'pipe', length_m: 1, bore_m: 0.05, roughness_m: 0 } },
    ...Array.from({ length: lower.tubes }, (_, t) => ({ id: `low${t}`, from: 1, to: 3, law })),
    ...Array.from({ length: lower.tubes }, (_, t) => ({ id: `high${t}`, from: 1, to: 2, law })),
  ];
  const network: NetworkDescription = {
    referenceDensity_kgm3: truth.density_kgm3,
    viscosity_Pas: truth.viscosity_Pas,
    nodes: [
      { id: 'pool', elevation_m: 0, fixedHead_m: 0 },
      { id: 'supply', elevation_m: 0 },
      { id: 'upper header', elevation_m: lift_m },
      { id: 'outlet', elevation_m: 0, fixedHead_m: 0 },
    ],
    links,
    tees: [],
  };
  const tube = { discharge: 'to' as const, space: 0, path: 'upper' };
  const layout: AirLayout = {
    tubes: Array.from({ length: lower.tubes }, (_, t) => ({ ...tube, link: 12 + t, crown_m: lift_m })),
    spaces: [
      {
        id: 'upper',
        inlet: { kind: 'bleed', node: 2, elevation_m: lift_m, openPressure_Pa: 0 },
        downLeg: null,
      },
    ],
  };

  it('starts at the flow of the hand calculation', () => {
    const air = prepareAir(network, layout);
    const report = studyStart(air, { pumps: [0], mostSpeed: 1, share: 0, resolution: 5e-4 });
    const [upper] = report.paths;
    // verified: 44.3 L/min through the lower path; the speed is found to 0.05 %, from above
    const flow = upper!.aliveAtFlow_m3s! * 60_000;
    expect(flow).toBeGreaterThan(truth.flow_Lmin - 0.1);
    expect(flow).toBeLessThan(truth.flow_Lmin * 1.01);
    // just under that speed the lower path alone carries less than that, and the upper one stays dry
    air.update(withPumpSpeed(network, [0], upper!.aliveAtSpeed! * 0.998));
    const under = air.solve({ before: 'empty' });
    expect(under.tubes.every((t) => t.state === 'unfilled' && t.cause === 'bleed')).toBe(true);
    expect(pumpedFlow(network, [0], under.solution) * 60_000).toBeLessThan(truth.flow_Lmin + 0.1);
  });
});

describe('three sections at different heights', () => {
  const study = (options: Partial<Parameters<typeof buildLoop>[0]>) => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], ...options });
    const air = prepareAir(loop.network, loop.layout);
    return {
      loop,
      air,
      report: studyStart(air, { pumps: [loop.pump], mostSpeed: 2, share: 0.5, resolution: 0.02 }),
    };
  };

  it('come alive one after the other, lowest first, and stay full when turned down', () => {
    const { report, loop, air } = study({});
    expect(report.converged).toBe(true);
    const alive = report.paths.map((path) => path.aliveAtSpeed!);
    expect(alive[0]!).toBeLessThan(alive[1]!);
    expect(alive[1]!).toBeLessThan(alive[2]!);
    const flow = report.paths.map((path) => path.aliveAtFlow_m3s!);
    expect(flow[0]!).toBeLessThan(flow[1]!);
    expect(flow[1]!).toBeLessThan(flow[2]!);
    for (const path of report.paths) {
      // water over the top is not yet a path without air, and a full path runs at speeds that never start it
      expect(path.clearsAtSpeed!).toBeGreaterThanOrEqual(path.aliveAtSpeed!);
      expect(path.runsDownToSpeed!).toBeLessThan(path.aliveAtSpeed!);
    }
    expect(report.runsFrom).toBe('start');
    expect(report.leastStartSpeed).toBe(Math.max(...report.paths.map((path) => path.clearsAtSpeed!)));
    expect(report.leastRunSpeed!).toBeLessThan(report.leastStartSpeed!);
    expect(report.leastSpeedAllTubes!).toBeGreaterThanOrEqual(alive[2]!);
    expect(air.description).toBe(loop.network);
  });

  it('have no siphon to fall back on when a bleed is open: they stop where they started', () => {
    const { report } = study({ inlet: () => ({ kind: 'bleed', openPressure_Pa: 0 }) });
    // both found to a fiftieth of the highest speed
    for (const path of report.paths)
      expect(Math.abs(path.runsDownToSpeed! - path.aliveAtSpeed!)).toBeLessThan(0.04);
  });

  it('keep running below their start behind a vacuum breaker, down to where it opens', () => {
    const inlet = () => ({ kind: 'vacuumBreaker', openPressure_Pa: 15_000 }) as const;
    const { report } = study({ inlet, heights_m: [0.3, 1, 1.8] });
    const upper = report.paths[2]!;
    expect(upper.runsDownToSpeed!).toBeLessThan(upper.aliveAtSpeed! - 0.1);
    expect(upper.runsDownToSpeed!).toBeGreaterThan(0.02);
  });

  it('say what holds a path that never comes alive', () => {
    const { report } = study({ heights_m: [0.5, 1.5, 80] });
    expect(report.paths[2]).toMatchObject({ aliveAtSpeed: null, cause: 'trappedAir' });
    expect(report.paths[2]!.missingLift_m).toBeGreaterThan(20);
    // filled by other means, a siphon would run at any speed
    expect(report.paths[2]!.runsDownToSpeed!).toBeLessThan(0.04);
    expect(report.leastStartSpeed).toBeNull();
    expect(report.leastFlowAllTubes_m3s).toBeNull();
    expect(report.runsFrom).toBe('filled');
  });

  it('cost less speed to start in series than side by side', () => {
    const speed = (plumbing: readonly (readonly number[])[]) => study({ plumbing }).report.leastStartSpeed!;
    const [parallel, mixed, series] = [speed([[0], [1], [2]]), speed([[0, 1], [2]]), speed([[0, 1, 2]])];
    expect(series).toBeLessThan(mixed);
    expect(mixed).toBeLessThan(parallel);
  });

  it('run no lower than what else is asked of a running state', () => {
    const loop = buildLoop({ heights_m: [6], plumbing: [[0]] });
    const air = prepareAir(loop.network, loop.layout);
    const options = { pumps: [loop.pump], mostSpeed: 1.5, share: 0.5 };
    const free = studyStart(air, options).leastRunSpeed!;
    const held = studyStart(air, {
      ...options,
      acceptable: ({ solution }) =>
        lowestPressure(endPressures(loop.network, solution, 101_325, 4247))!.absolute_Pa > 60_000,
    }).leastRunSpeed!;
    expect(held).toBeGreaterThan(free);
  });

  it('refuse impossible questions', () => {
    const loop = buildLoop({ heights_m: [1], plumbing: [[0]] });
    const air = prepareAir(loop.network, loop.layout);
    const options = { pumps: [loop.pump], mostSpeed: 1, share: 0.5 };
    for (const bad of [
      { mostSpeed: 0 },
      { mostSpeed: Number.NaN },
      { share: 1.1 },
      { speeds: 0 },
      { resolution: Number.NaN },
      { pumps: [0] },
    ])
      expect(() => studyStart(air, { ...options, ...bad })).toThrow(DomainError);
    expect(() => withPumpSpeed(loop.network, [loop.pump], -1)).toThrow(DomainError);
  });
});

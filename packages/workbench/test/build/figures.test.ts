import { joinableOf } from '@sunlap/data/joinable';
import { findCementJoints } from '@sunlap/data/solventCement';
import { closingOf } from '@sunlap/engine/building/order-closing';
import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import { build } from '../../src/build/build';
import { moneyPlan } from '../../src/build/money';
import { KERF_M } from '../../src/build/options';
import { coupling, elbow, equalTee } from '../../src/build/strand';
import { hottestDry_C } from '../../src/heat/hottest-dry';

function quinceProject(): Project {
  const read = readProject(JSON.stringify(quince));
  if (!read.ok) throw new Error('the example does not read');
  return read.project;
}

const plain = quinceProject();

describe('figures of building', () => {
  // common practice
  it('kerf: ratchet 0, hand saw 1 mm, chop saw 3 mm', () => {
    expect(KERF_M).toEqual({ ratchet: 0, handSaw: 0.001, chopSaw: 0.003 });
  });

  // common practice: joints for each quart, 1-1/4 in interpolated
  it.each([
    ['1/2', 300],
    ['3/4', 200],
    ['1', 125],
    ['1-1/4', 105],
    ['1-1/2', 90],
    ['2', 60],
  ])('a quart of cement does %s in joints: %d', (nominal, joints) => {
    expect(findCementJoints(nominal)?.jointsPerQuart).toBe(joints);
  });

  it('a tee is three joints, an elbow or coupling two', () => {
    const pipe = joinableOf('pvc-sch40-1')!;
    const joints = (part: { joints: readonly { count: number }[] }): number =>
      part.joints.reduce((n, j) => n + j.count, 0);
    expect([equalTee(pipe), elbow(pipe), coupling(pipe)].map(joints)).toEqual([3, 2, 2]);
  });

  it('a quart of primer serves twice the joints of a quart of cement', () => {
    const { gluing } = build(plain).result;
    expect(gluing.primer_qt).toBeCloseTo(gluing.cement_qt / 2, 12);
  });

  // common practice; the heat pump's is tested beside the money
  it.each([
    ['gas', 0.78, 0.84],
    ['condensingGas', 0.89, 0.95],
    ['resistance', 1, 1],
  ] as const)('efficiency of %s: %d to %d', (kind, least, most) => {
    const parts = { price: 1, unpriced: 0, demo: 0, paid: 0, cost: 1, open: 1 };
    const prices = {
      currency: 'USD',
      asOf: '2026-01-01',
      replacedHeat: { kind, price_perkWh: 1 },
      parts: [],
    };
    const facts = { heatNow_W: null, extraPump_W: null, season: null, air_C: [] };
    const [low, high] = moneyPlan({ prices }, parts, facts).heat_perkWh!;
    expect([1 / high, 1 / low]).toEqual([expect.closeTo(least, 12), expect.closeTo(most, 12)]);
  });

  // common practice: about +31 K for an open tube in calm air; within a fifth, for sun and colour of the design
  it('dry in the sun an open tube is some 31 K over calm air, and PVC passes its 60 °C on a day of 30 °C', () => {
    const { collector } = plain;
    const open = {
      ...plain,
      collector: { ...collector, backing: { ...collector.backing, kind: 'none' as const } },
    };
    const over = hottestDry_C(open, 30) - 30;
    expect(Math.abs(over / 31 - 1)).toBeLessThan(0.2);
    expect(30 + over).toBeGreaterThan(60);
  });
});

/** A design with one thing that cannot be built, and the same after doing as its remedy says. */
describe('what cannot be built, and what mends it', () => {
  const withBank = (over: object, base: Project = plain): Project => {
    const [section, ...sections] = base.collector.sections;
    const [bank, ...banks] = section.banks;
    return {
      ...base,
      collector: {
        ...base.collector,
        sections: [{ ...section, banks: [{ ...bank, ...over } as typeof bank, ...banks] }, ...sections],
      },
    };
  };
  const header = (pipe: string): object => ({
    supply: { pipe, leadIn_m: 0.3 },
    gather: { pipe, leadIn_m: 0.3 },
  });
  const [tee] = build(plain).result.headers;
  const deep = { part: tee.tee.part, socket_m: 0.05 };

  const cases: [string, string, Project, Project][] = [
    [
      'a pitch under what the tees allow',
      'pitch-below-tees',
      withBank({ pitch_m: tee.leastPitch_m - 0.002 }),
      withBank({ pitch_m: tee.leastPitch_m + 1e-4 }),
    ],
    [
      'a nipple shorter than two measured sockets',
      'pitch-below-tees',
      { ...plain, stock: { pipes: [], parts: [], boards: [], measured: [deep] } },
      {
        ...withBank({ pitch_m: 2 * (tee.takeOff_m + 0.05) + 1e-4 }),
        stock: { pipes: [], parts: [], boards: [], measured: [deep] },
      },
    ],
    [
      'a tube longer than the stock, without couplings',
      'build-longer-than-stock',
      { ...withBank({ length_m: 9 }), build: { join: 'none' } },
      withBank({ length_m: 9 }),
    ],
    [
      'a tee that nobody makes in that size',
      'build-no-such-tee',
      withBank({ ...header('pvc-sch40-3') }),
      withBank({ ...header('pvc-sch40-1-1/2') }),
    ],
    [
      'a second header that cannot be closed',
      'build-header-closing',
      withBank({ length_m: 0.5, count: 20 }),
      withBank({ length_m: 0.5, count: 4 }),
    ],
  ];

  it.each(cases)('%s is a notice with a remedy', (_what, code, broken, mended) => {
    const place = /sections\/0\/banks\/0/;
    const found = build(broken).notices.filter((n) => n.code === code && place.test(n.path));
    expect(found.length).toBeGreaterThan(0);
    for (const notice of found) {
      expect(['damage', 'unsure']).toContain(notice.severity);
      expect(notice.remedy!.length).toBeGreaterThan(20);
      expect(notice.message).toMatch(/\d/);
    }
    expect(build(mended).notices.filter((n) => n.code === code && place.test(n.path))).toEqual([]);
  });

  it('closes a second header by bowing long tubes in one at a time', () => {
    // verified by hand: 20 joints at 15 s are over 60 s; y = (2/3)(1/200)6²/0.0213 = 5.63 m, shortened by far more than 22 mm
    expect(closingOf(20, 6, 0.0213, 0.022).way).toBe('bowed');
    expect(closingOf(20, 0.5, 0.0213, 0.022).way).toBe('teeByTee');
    expect(closingOf(4, 0.5, 0.0213, 0.022).way).toBe('atOnce');
  });
});

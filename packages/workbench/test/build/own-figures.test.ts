import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { build } from '../../src/build/build';
import { cutLength } from '../../src/build/cut-length';
import { completeOptions, KERF_M, USUAL_BUILD } from '../../src/build/options';
import { stockLengths } from '../../src/build/stock-lengths';
import { buildNotices, teePitch_m } from '../../src/check/build-notices';
import { sayIn } from '../../src/flow/say';

function quinceProject(): Project {
  const read = readProject(JSON.stringify(quince));
  if (!read.ok) throw new Error('the example does not read');
  return read.project;
}

describe('figures that a person measured or paid', () => {
  const plain = quinceProject();
  const before = build(plain).result;
  const header = before.headers[0];

  it('takes G and S of a tee from the project, and every nipple follows', () => {
    const project: Project = {
      ...plain,
      stock: {
        pipes: [],
        parts: [],
        boards: [],
        measured: [{ part: header.tee.part, takeOff_m: header.takeOff_m + 0.002, socket_m: 0.021 }],
      },
    };
    expect(readProject(JSON.stringify(project)).ok).toBe(true);
    const after = build(project).result.headers[0];
    expect(after.tee.known).toBe('measured');
    expect(after.socket_m).toBe(0.021);
    expect(after.leastNipple_m).toBeCloseTo(0.042, 12);
    // p − 2G: two millimetres more in each tee are four less of nipple
    expect(after.nipple_m).toBeCloseTo(header.nipple_m - 0.004, 12);
  });

  it('asks for the pitch that the measured tees need', () => {
    const large = { part: header.tee.part, takeOff_m: 0.02, socket_m: 0.03 };
    const project: Project = { ...plain, stock: { pipes: [], parts: [], boards: [], measured: [large] } };
    const { pipe } = plain.collector.sections[0].banks[0] as { pipe: string };
    const [wide, usual] = [project, plain].map((p) => buildNotices(p, STANDARD_TABLES, sayIn('metric')));
    expect(teePitch_m('pvc-sch40-1-1/2', pipe, [large])).toBeCloseTo(0.1, 12);
    expect(wide.some((n) => n.code === 'pitch-below-tees' && n.message.includes('100'))).toBe(true);
    expect(usual.some((n) => n.code === 'pitch-below-tees')).toBe(false);
  });

  it('lets options overrule the project', () => {
    const measured = { [header.tee.part]: { socket_m: 0.03 } };
    expect(build(plain, { measured }).result.headers[0].socket_m).toBe(0.03);
  });

  it('counts what is bought and paid without taking it for a price', () => {
    const line = before.shop.find((l) => l.group === 'fittings' && l.priceFrom === 'demo' && l.toBuy > 0)!;
    const paid = (line.price ?? 0) + 7;
    const project: Project = {
      ...plain,
      prices: {
        currency: 'USD',
        asOf: '2026-04-12',
        parts: [{ part: line.part, bought: line.toBuy, paid }],
      },
    };
    expect(readProject(JSON.stringify(project)).ok).toBe(true);
    const own = build({ ...plain, prices: { ...project.prices!, parts: [] } }).result;
    const after = build(project).result;
    const now = after.shop.find((l) => l.id === line.id)!;
    expect(now).toMatchObject({ bought: line.toBuy, paid, price: line.price, priceFrom: 'demo' });
    expect(after.shopTotal.price).toBeCloseTo(own.shopTotal.price, 9);
    expect(after.shopTotal.cost).toBeCloseTo(own.shopTotal.price + 7, 9);
    expect(after.shopTotal.open).toBeCloseTo(own.shopTotal.price - (line.price ?? 0), 9);
  });
});

describe('stock lengths', () => {
  const pipe = 'pvc-sch40-1/2';
  const priced = (parts: NonNullable<Project['prices']>['parts']) =>
    stockLengths({ prices: { currency: 'USD', asOf: '2026-04-12', parts } }, pipe).map((s) => [
      s.length_m,
      s.price,
      s.from,
    ]);
  // lengths and prices of the demo table
  const demo = [
    [3.048, 5, 'demo'],
    [6.096, 9.5, 'demo'],
  ];

  it('keep the demo lengths beside an own one', () => {
    expect(priced([])).toEqual(demo);
    expect(priced([{ part: pipe, stockLength_m: 4, price: 6 }])).toEqual([demo[0], [4, 6, 'own'], demo[1]]);
  });

  it('take an own price of the same length in place of the demo one, and no other', () => {
    expect(priced([{ part: pipe, stockLength_m: 6.096, price: 8 }])).toEqual([demo[0], [6.096, 8, 'own']]);
    expect(priced([{ part: pipe, stockLength_m: 6.096, bought: 2 }])).toEqual(demo);
  });

  it('leave out what the person says is not to be had', () => {
    expect(priced([{ part: pipe, stockLength_m: 6.096, notSold: true }])).toEqual([demo[0]]);
    // somebody who strikes out everything still gets a plan
    expect(
      priced([3.048, 6.096].map((stockLength_m) => ({ part: pipe, stockLength_m, notSold: true }))),
    ).toEqual(demo);
  });
});

describe('how it is built', () => {
  const plain = quinceProject();

  it('stands in the file, and the call goes before it', () => {
    const project: Project = {
      ...plain,
      build: {
        scope: 'all',
        tool: 'chopSaw',
        primer: false,
        unions: false,
        spares: 0,
        water_C: 55,
        done: ['cut'],
      },
    };
    expect(readProject(JSON.stringify(project)).ok).toBe(true);
    const v = build(project).result;
    expect(v.scope).toBe('all');
    for (const sheet of v.cutting) expect(sheet.kerf_m).toBe(KERF_M.chopSaw);
    expect(v.gluing.primer_qt).toBe(0);
    expect(v.fittings.some((f) => f.kind === 'union')).toBe(false);
    for (const line of v.shop) expect(line.spares).toBe(0);
    for (const row of v.pressure.rows) expect(row.running_C).toBe(55);
    expect(v.steps.filter((s) => s.done).map((s) => s.id)).toEqual(['cut']);
    const over = build(project, { scope: 'heater', primer: true }).result;
    expect(over.scope).toBe('heater');
    expect(over.gluing.primer_qt).toBeGreaterThan(0);
  });

  it('is the usual where neither says anything', () => {
    expect(completeOptions({ scope: undefined }, {})).toEqual({
      ...USUAL_BUILD,
      measured: {},
      kerf_m: KERF_M.handSaw,
    });
    expect(completeOptions({}, { build: { kerf_m: 0.002 } }).kerf_m).toBe(0.002);
    expect(completeOptions({ tool: 'ratchet' }, { build: { kerf_m: 0.002 } }).kerf_m).toBe(0);
  });
});

describe('a length to cut', () => {
  // verified by hand: 2.5226 m = 99.315 in = 8 ft 3.315 in, nearest sixteenth 5/16
  it.each([
    [0.0517, 'us', '2.035 in'],
    [0.0517, 'metric', '51.7 mm'],
    [0.9746, 'us', '38-3/8 in'],
    [2.5226, 'us', '8 ft 3-5/16 in'],
    [1.3284, 'metric', '1328 mm'],
    [50, 'metric', '50.00 m'],
  ] as const)('%f m in %s is %s', (length, system, text) => {
    expect(cutLength(length, system)).toBe(text);
  });
});

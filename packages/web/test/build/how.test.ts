import { build } from '@sunlap/workbench/build/build';
import { describe, expect, it } from 'vitest';
import { howOf, isDone, setDone, setHow, takeKept } from '../../src/sheets/build/how';
import { sameBuild } from '../../src/sheets/build/same';
import { setBought, setPrice, withBought } from '../../src/sheets/build/shop-edits';
import { isLegal, quinceDoc } from '../examples';

const doc = quinceDoc();
const { build: _, ...plain } = doc.project;
const legal = (project: typeof plain): boolean => isLegal({ ...doc, project });

describe('how it is built', () => {
  it('stands at the usual until the project says otherwise', () => {
    expect(howOf(plain)).toMatchObject({ scope: 'heater', join: 'coupling', tool: 'handSaw', kerf_m: 0.001 });
    expect(howOf(setHow(plain, { tool: 'chopSaw' })).kerf_m).toBe(0.003);
  });

  it('keeps each figure, and takes it back without a trace', () => {
    const after = setHow(plain, { glueAir_C: 12, spares: 0.2, kerf_m: 0.002 });
    expect(legal(after)).toBe(true);
    expect(after.build).toEqual({ glueAir_C: 12, spares: 0.2, kerf_m: 0.002 });
    expect(setHow(after, { glueAir_C: null, spares: null, kerf_m: null })).toEqual(plain);
  });

  it('lets another tool bring its own width of cut', () => {
    const filed = setHow(plain, { kerf_m: 0.0015 });
    expect(howOf(setHow(filed, { tool: 'ratchet' })).kerf_m).toBe(0);
  });

  it('reaches the plan: spares are bought, primer is left out', () => {
    const tees = (p: typeof plain) =>
      build(p).result.shop.find((l) => l.part.startsWith('reducingTee'))?.spares ?? 0;
    expect(tees(setHow(plain, { spares: 0.2 }))).toBeGreaterThan(tees(plain));
    expect(build(setHow(plain, { primer: false })).result.shop.some((l) => l.part === 'primer')).toBe(false);
  });
});

describe('ticks of the order of work', () => {
  it('come and go, and the file stays legal', () => {
    const [first, second] = build(plain).result.steps.map((s) => s.id);
    const ticked = setDone(setDone(plain, first, true), second, true);
    expect(legal(ticked)).toBe(true);
    expect(isDone(ticked, first)).toBe(true);
    expect(
      build(ticked)
        .result.steps.filter((s) => s.done)
        .map((s) => s.id),
    ).toEqual([first, second]);
    expect(setDone(setDone(ticked, first, false), second, false)).toEqual(plain);
    expect(setDone(ticked, first, true).build?.done).toHaveLength(2);
  });
});

describe('what a browser kept before', () => {
  const store = (value: string | null) => {
    let kept = value;
    return {
      getItem: () => kept,
      removeItem: () => {
        kept = null;
      },
    };
  };

  it('is taken over once, without the usual', () => {
    const old = store('{"scope":"all","join":"coupling","unions":true,"tool":"chopSaw","primer":false}');
    expect(takeKept(old)).toEqual({ scope: 'all', tool: 'chopSaw', primer: false });
    expect(takeKept(old)).toBeNull();
  });

  it('is nothing where it says nothing or cannot be read', () => {
    expect(takeKept(store('{"scope":"heater"}'))).toBeNull();
    expect(takeKept(store('{"tool":"axe"}'))).toBeNull();
    expect(takeKept(store('no json'))).toBeNull();
    expect(takeKept(store(null))).toBeNull();
  });
});

describe('what the plan is made from', () => {
  const { result } = build(plain);
  const line = result.shop.find((l) => l.part.startsWith('checkValve'))!;

  it('is the same while ticks, counts and payments change', () => {
    const bought = setBought(plain, line, { bought: 1, paid: 20 }, '2026-05-01');
    expect(sameBuild(plain, bought)).toBe(true);
    expect(sameBuild(plain, setDone(plain, 'measure', true))).toBe(true);
    expect(sameBuild(plain, { ...plain, testDays: [...plain.testDays] })).toBe(true);
  });

  it('is another with a price, a tool, a state or a panel', () => {
    expect(sameBuild(plain, setPrice(plain, line, { holds: 1 }, 20, '2026-05-01'))).toBe(false);
    expect(sameBuild(plain, setHow(plain, { tool: 'ratchet' }))).toBe(false);
    expect(sameBuild(plain, { ...plain, collector: { ...plain.collector } })).toBe(false);
  });

  it('shows ticks and payments at once', () => {
    const paid = setBought(plain, line, { bought: line.toBuy, paid: 5 }, '2026-05-01');
    const now = withBought(result, paid);
    expect(now.shopTotal).toEqual(build(paid).result.shopTotal);
  });
});

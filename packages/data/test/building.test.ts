import { describe, expect, test } from 'vitest';
import { inchesOf } from '../src/nominalSizes';
import { findPipe } from '../src/pipes';
import { demoPrices, demoPricesOf } from '../src/prices';
import { cementCures, cementJoints, findCementCure, findCementJoints } from '../src/solventCement';
import { findSupportSpacing, mostSpacing_m, supportSpacings } from '../src/supportSpacing';

describe('supports', () => {
  test('half-inch sch 40: 4.5 ft at 60 °F, 2.5 ft at 120 °F (verified); the hotter row counts between', () => {
    const row = findSupportSpacing('pvc-sch40', '1/2');
    if (!row) throw new Error('no row');
    expect(mostSpacing_m(row, 10)).toBe(1.3716);
    expect(mostSpacing_m(row, 48.9)).toBe(0.762);
    expect(mostSpacing_m(row, 40)).toBe(0.762);
    expect(mostSpacing_m(row, 70)).toBeUndefined();
    expect(findSupportSpacing('pvc-sdr21', '1')).toBeUndefined();
  });

  test('closer when hotter, wider for larger pipe and for thicker walls', () => {
    for (const row of supportSpacings) {
      expect(row.at_C.length).toBe(row.spacing_m.length);
      for (let i = 1; i < row.at_C.length; i++) {
        expect(row.at_C[i]).toBeGreaterThan(row.at_C[i - 1]);
        expect(row.spacing_m[i]).toBeLessThanOrEqual(row.spacing_m[i - 1]);
      }
      const before = supportSpacings[supportSpacings.indexOf(row) - 1];
      if (before?.family === row.family)
        for (const [i, span] of row.spacing_m.entries())
          expect(span).toBeGreaterThanOrEqual(before.spacing_m[i]);
      const thin = findSupportSpacing('pvc-sch40', row.nominal);
      if (row.family === 'pvc-sch80')
        for (const [i, span] of row.spacing_m.entries())
          expect(span).toBeGreaterThanOrEqual(thin?.spacing_m[i] ?? Infinity);
    }
  });
});

describe('cement', () => {
  test('larger joints take more; 1-1/4 in lies between its neighbours', () => {
    for (let i = 1; i < cementJoints.length; i++) {
      expect(inchesOf(cementJoints[i].nominal)).toBeGreaterThan(inchesOf(cementJoints[i - 1].nominal));
      expect(cementJoints[i].jointsPerQuart).toBeLessThan(cementJoints[i - 1].jointsPerQuart);
    }
    expect(findCementJoints('1/2')?.jointsPerQuart).toBe(300);
    expect(findCementJoints('50')?.jointsPerQuart).toBe(90);
    expect(findCementJoints('12')).toBeUndefined();
  });

  test('set before cure, longer for more pressure, size and cold', () => {
    for (const row of cementCures) {
      expect(row.set_s).toBeLessThan(row.cureLow_s);
      expect(row.cureLow_s).toBeLessThan(row.cureHigh_s);
    }
    const times = (nominal: string, at_C: number) => findCementCure(nominal, at_C)?.cureLow_s ?? Number.NaN;
    expect(times('1/2', 25)).toBe(3600);
    expect(times('2', 25)).toBe(7200);
    expect(times('2', 10)).toBe(14400);
    expect(times('63', 0)).toBe(57600);
    expect(findCementCure('1/2', 15.56)?.upTo_C, 'the colder band on the edge').toBe(15.56);
    expect(findCementCure('1/2', 60)).toBeUndefined();
  });
});

describe('demo prices', () => {
  test('all are marked invented, and pipes named are pipes', () => {
    for (const row of demoPrices) {
      expect(row.known).toBe('invented');
      if (row.per === 'stick' || row.per === 'coil') {
        expect(findPipe(row.id), row.id).toBeDefined();
        expect(row.stock_m).toBeGreaterThan(1);
      }
      if (row.per === 'bag') expect(row.packOf).toBeGreaterThan(1);
    }
  });

  test('a longer stick costs less per metre, a bag less per piece', () => {
    const sticks = demoPricesOf('pvc-sch40-1/2');
    expect(sticks.map((row) => row.stock_m)).toEqual([3.048, 6.096]);
    expect(sticks[1].price).toBeLessThan(2 * sticks[0].price);
    const [single, bag] = demoPricesOf('tee-1/2');
    expect(bag.price).toBeLessThan(single.price * (bag.packOf ?? 0));
  });
});

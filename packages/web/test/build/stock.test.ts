import type { Project } from '@sunlap/project/schema/project';
import { build } from '@sunlap/workbench/build/build';
import { describe, expect, it } from 'vitest';
import { setPrices } from '../../src/sheets/build/money-edits';
import {
  addBoard,
  notSold,
  partsOnHand,
  removeBoard,
  setPartsOnHand,
  setSold,
  setStockLength,
} from '../../src/sheets/build/stock';
import { isLegal, quinceDoc } from '../examples';

const DAY = '2026-04-12';
const doc = quinceDoc();
const plain: Project = { ...doc.project, prices: undefined, stock: undefined };
const legal = (project: Project): boolean => isLegal({ ...doc, project });
const [sheet] = build(plain).result.cutting;

describe('parts on hand', () => {
  it('are used first and taken away again', () => {
    const line = build(plain).result.shop.find((l) => l.part.startsWith('elbow90'))!;
    const held = setPartsOnHand(plain, line.part, 3);
    expect(partsOnHand(held, line.part)).toBe(3);
    expect(legal(held)).toBe(true);
    const after = build(held).result.shop.find((l) => l.part === line.part)!;
    expect(after.toBuy).toBe(Math.max(0, line.toBuy - 3));
    expect(setPartsOnHand(held, line.part, null).stock?.parts).toEqual([]);
    expect(setPartsOnHand(held, line.part, 0).stock?.parts).toEqual([]);
  });
});

describe('boards on hand', () => {
  const board = { length_m: 2.4, width_m: 0.1, thickness_m: 0.04, count: 6, name: 'old fence' };

  it('each have an id of their own, and members are cut from them', () => {
    const two = addBoard(addBoard(plain, board), board);
    expect(legal(two)).toBe(true);
    expect(two.stock?.boards.map((b) => b.id)).toEqual(['board-1', 'board-2']);
    const before = build(plain).result.supports;
    const { boards, boardsMissing_m } = build(two).result.supports;
    expect(boards?.bars.length).toBeGreaterThan(0);
    expect(boardsMissing_m).toBeLessThan(before.boardsMissing_m);
    const one = removeBoard(two, 'board-1');
    expect(addBoard(one, board).stock?.boards.map((b) => b.id)).toEqual(['board-2', 'board-3']);
  });
});

describe('lengths that the shop sells', () => {
  const lengths = (p: Project) =>
    build(p)
      .result.cutting.find((s) => s.pipe === sheet.pipe)!
      .stocks.map((s) => s.length_m);

  it('take a length of the person’s own beside the others', () => {
    const own = setStockLength(plain, sheet.pipe, 3.66, 5, DAY);
    expect(legal(own)).toBe(true);
    expect(lengths(own)).toContain(3.66);
    expect(lengths(own)).toContain(6.096);
    expect(setStockLength(own, sheet.pipe, 3.66, null, DAY).prices?.parts).toEqual([]);
  });

  it('lose one that is not to be had, and get it back', () => {
    const gone = setSold(plain, sheet.pipe, 6.096, false, DAY);
    expect(legal(gone)).toBe(true);
    expect(notSold(gone, sheet.pipe)).toEqual([6.096]);
    expect(lengths(gone)).not.toContain(6.096);
    const back = setSold(gone, sheet.pipe, 6.096, true, DAY);
    expect(back.prices?.parts).toEqual([]);
    expect(lengths(back)).toContain(6.096);
  });
});

describe('what heat and power cost', () => {
  it('is kept, with the fuel’s price while its kind changes', () => {
    let p = setPrices(plain, { kind: 'gas' }, DAY);
    p = setPrices(p, { price_perkWh: 0.06 }, DAY);
    p = setPrices(p, { kind: 'heatPump', electricity_perkWh: 0.2 }, DAY);
    expect(p.prices).toMatchObject({
      electricity_perkWh: 0.2,
      replacedHeat: { kind: 'heatPump', price_perkWh: 0.06 },
    });
    expect(legal(p)).toBe(true);
    p = setPrices(p, { kind: 'none', electricity_perkWh: null }, DAY);
    expect(p.prices).toEqual({ currency: 'USD', asOf: DAY, parts: [] });
  });
});

import type { Project } from '@sunlap/project/schema/project';
import { build } from '@sunlap/workbench/build/build';
import type { ShopLine } from '@sunlap/workbench/build/shop';
import { describe, expect, it } from 'vitest';
import { boughtOf, setBought, setPrice } from '../../src/sheets/build/shop-edits';
import { setMeasured, setOnHand, setStockLength } from '../../src/sheets/build/stock';
import { isLegal, quinceDoc } from '../examples';

const DAY = '2026-04-12';
const doc = quinceDoc();
const plain: Project = { ...doc.project, prices: undefined, stock: undefined };
const shop = build(plain).result.shop;
const line = (part: string): ShopLine => shop.find((l) => l.part.startsWith(part))!;
const rows = (p: Project) => p.prices?.parts ?? [];
const legal = (p: Project): boolean => isLegal({ ...doc, project: p });

describe('edits of the shop list', () => {
  const valve = line('checkValve');
  const stick = shop.find((l) => l.group === 'pipe' && l.length_m !== undefined)!;

  it('keeps a tick without making a price of it', () => {
    const after = setBought(plain, valve, { bought: valve.toBuy }, DAY);
    expect(rows(after)).toEqual([{ part: valve.part, bought: valve.toBuy }]);
    expect(boughtOf(after, valve)).toEqual({ bought: valve.toBuy, paid: null });
    expect(legal(after)).toBe(true);
    expect(rows(setBought(after, valve, { bought: null }, DAY))).toEqual([]);
  });

  it('keeps price, count and payment of one part in one row, and takes each back by itself', () => {
    let p = setBought(plain, valve, { bought: 1 }, DAY);
    p = setPrice(p, valve, { holds: 1 }, 41.5, DAY);
    p = setBought(p, valve, { paid: 35 }, DAY);
    expect(rows(p)).toEqual([{ part: valve.part, bought: 1, price: 41.5, paid: 35 }]);
    expect(legal(p)).toBe(true);
    p = setPrice(p, valve, { holds: 1 }, null, DAY);
    expect(rows(p)).toEqual([{ part: valve.part, bought: 1, paid: 35 }]);
    expect(build(p).result.shop.find((l) => l.id === valve.id)?.priceFrom).toBe('demo');
  });

  it('tells packs and stock lengths apart', () => {
    let p = setPrice(plain, valve, { holds: 1 }, 4, DAY);
    p = setPrice(p, valve, { holds: 10 }, 30, DAY);
    expect(rows(p).map((r) => r.packOf)).toEqual([undefined, 10]);
    p = setBought(plain, stick, { bought: 3 }, DAY);
    const other = { ...stick, length_m: stick.length_m! + 1 };
    expect(boughtOf(p, stick).bought).toBe(3);
    expect(boughtOf(p, other).bought).toBe(null);
  });

  it('ticks cement by its line and prices it by its can', () => {
    const cement = line('cement');
    let p = setBought(plain, cement, { bought: cement.toBuy }, DAY);
    p = setPrice(p, cement, cement.packs[0], 11, DAY);
    expect(legal(p)).toBe(true);
    const after = build(p).result.shop.find((l) => l.id === 'cement')!;
    expect(after.bought).toBe(cement.toBuy);
    expect(after.priceFrom).toBe('own');
    expect(boughtOf(p, cement).bought).toBe(cement.toBuy);
  });

  it('plans with the lengths and the pipe that the person has', () => {
    let p = setStockLength(plain, stick.part, 4, 12, DAY);
    p = setOnHand(p, stick.part, 1.5, 2);
    expect(legal(p)).toBe(true);
    const sheet = build(p).result.cutting.find((s) => s.pipe === stick.part)!;
    expect(sheet.stocks.map((s) => [s.length_m, s.from])).toEqual([
      [3.048, 'demo'],
      [4, 'own'],
      [6.096, 'demo'],
      [1.5, 'onHand'],
    ]);
    p = setOnHand(p, stick.part, 1.5, 0);
    expect(p.stock?.pipes).toEqual([]);
  });

  it('writes a measured fitting and takes the row away with its last figure', () => {
    let p = setMeasured(plain, 'reducingTee-1-1/2x1/2', 'takeOff_m', 0.014);
    p = setMeasured(p, 'reducingTee-1-1/2x1/2', 'socket_m', 0.03);
    expect(p.stock?.measured).toEqual([{ part: 'reducingTee-1-1/2x1/2', takeOff_m: 0.014, socket_m: 0.03 }]);
    expect(legal(p)).toBe(true);
    p = setMeasured(p, 'reducingTee-1-1/2x1/2', 'takeOff_m', null);
    p = setMeasured(p, 'reducingTee-1-1/2x1/2', 'socket_m', null);
    expect(p.stock?.measured).toEqual([]);
  });
});

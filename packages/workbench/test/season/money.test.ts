import { expect, it } from 'vitest';
import { EFFICIENCY } from '../../src/build/money-words';
import { HEATER_EFFICIENCY } from '../../src/season/assumed';
import { betterBuy, worthOfWarmth } from '../../src/season/money';

const cover = (netValue: number | null) => ({
  spent: 160,
  savedPerYear: netValue,
  netValue,
  swimDaysAdded: 40,
});

// Arithmetic: twice the panel's warmth is worth twice its heat.
it('values the warmth of a cover as the panel’s', () => {
  expect(worthOfWarmth(400, 4, 2)).toBe(200);
  expect(worthOfWarmth(400, 2, 4)).toBe(800);
  expect(worthOfWarmth(400, 2, -1)).toBe(0);
  expect(worthOfWarmth(null, 2, 4)).toBeNull();
  expect(worthOfWarmth(400, 0.01, 4)).toBeNull();
});

it('says on what the better buy rests', () => {
  expect(betterBuy(30, 900, 10, 4051, cover(1500), false)).toEqual({ better: 'collector', rests: 'money' });
  expect(betterBuy(30, 900, 10, 400, cover(1500), false)).toEqual({ better: 'cover', rests: 'money' });
  expect(betterBuy(30, 900, 10, null, cover(null), false)).toEqual({ better: 'cover', rests: 'dayPrice' });
  expect(betterBuy(30, null, 10, null, cover(null), false)).toEqual({ better: 'cover', rests: 'days' });
  expect(betterBuy(30, 900, 10, null, null, true)).toEqual({ better: 'collector', rests: null });
});

// One answer: the season's single figure lies in the middle of the interval that the costs take.
it('takes the efficiency of a heater from within the interval of the costs', () => {
  for (const [kind, [low, high]] of Object.entries(EFFICIENCY))
    expect(HEATER_EFFICIENCY[kind as keyof typeof HEATER_EFFICIENCY]).toBeCloseTo((low + high) / 2, 9);
});

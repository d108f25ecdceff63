import { expect, it } from 'vitest';
import { firstAnswer } from '../../src/season/first-answer';
import type { SeasonChange, SeasonValues } from '../../src/season/values';

const june = (n: number): number[] => Array.from({ length: 12 }, (_, m) => (m === 5 ? n : 0));
const months = new Array<boolean>(12).fill(true);
const values = (withIt: number, without: number): SeasonValues =>
  ({
    months: Array.from({ length: 12 }, (_, m) => ({
      month: m + 1,
      days: 30,
      swimDays: { with: m === 5 ? withIt : 0, without: m === 5 ? without : 0 },
    })),
  }) as unknown as SeasonValues;
const cover = (present: boolean): SeasonChange =>
  ({
    kind: 'cover',
    present,
    swimDays: { with: june(27), without: june(12) },
    swimDaysBefore: { with: june(19), without: june(4) },
  }) as unknown as SeasonChange;

// Invariant: the same four years, whichever of them is the project as it is.
it('tells the same of panel and cover whether or not the cover is in use', () => {
  const without = firstAnswer(values(19, 4), [cover(false)], months);
  const there = firstAnswer(values(27, 12), [cover(true)], months);
  expect(there.saying).toBe(without.saying.replace('a cover', 'the cover'));
  expect(there.saying).toContain(
    'on 4 days of the year, with the cover on 12, with the panel on 19, with both on 27',
  );
  expect({ ...there, saying: '' }).toEqual({ ...without, saying: '' });
});

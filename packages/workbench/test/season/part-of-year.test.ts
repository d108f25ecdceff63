import { drain } from '@sunlap/engine/season/year';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { partOfYear } from '../../src/season/part-of-year';
import { inOrder, temperatureTicks } from '../../src/season/season-chart';
import { createSeasonCache, studyYear } from '../../src/season/study';
import { seasonValues } from '../../src/season/values';

const project = startProject({ ...usualAnswers('us', 36), tubes: 20, passes: 2 });
const study = drain(studyYear(project, { cache: createSeasonCache(), keepSteps: true }));
const values = seasonValues(project, study);

describe('a part of the year', () => {
  it('of all days is the year, and its months are the year’s', () => {
    const all = partOfYear(project, study)!;
    // sums of the same steps; kept as single-precision numbers
    expect(all.heat_kWh / values.year.heat_kWh).toBeCloseTo(1, 4);
    expect(all.runHours / values.year.runHours).toBeCloseTo(1, 5);
    expect(all.extraPump_kWh / values.year.extraPump_kWh).toBeCloseTo(1, 5);
    expect(all.swimDays).toEqual(values.year.swimDays);
    expect(all.daily).toEqual(values.days);
    expect(all.months.map((m) => [m.month, m.whole])).toEqual(values.months.map((m) => [m.month, true]));
    all.months.forEach((m, i) => {
      expect(m.swimDays).toEqual(values.months[i].swimDays);
      expect(m.pool_C.with.mean).toBeCloseTo(values.months[i].pool_C.with!.mean, 1);
    });
  });
  it('and the rest of it make the year', () => {
    const [summer, rest] = [
      partOfYear(project, study, '05-10', '09-20')!,
      partOfYear(project, study, '09-21', '05-09')!,
    ];
    expect(summer.days + rest.days).toBe(values.days.date.length);
    expect((summer.heat_kWh + rest.heat_kWh) / values.year.heat_kWh).toBeCloseTo(1, 4);
    expect(summer.swimDays.with + rest.swimDays.with).toBe(values.year.swimDays.with);
    expect([rest.from.slice(5), rest.to.slice(5)]).toEqual(['09-21', '05-09']);
    expect(rest.months.map((m) => m.month)).toEqual([9, 10, 11, 12, 1, 2, 3, 4, 5]);
    expect(rest.months.map((m) => m.whole)).toEqual([false, ...new Array(7).fill(true), false]);
  });
  it('may begin and end in one month, a year round', () => {
    const part = partOfYear(project, study, '06-20', '06-10')!;
    expect(part.months.filter((m) => m.month === 6).map((m) => [m.days, m.whole])).toEqual([
      [11, false],
      [10, false],
    ]);
  });
  it('is none where the year has no such day or its hours were not kept', () => {
    expect(partOfYear(project, study, '02-29', '02-29')).toBeNull();
    const without = { ...study, year: { ...study.year, stepHeat_W: null } };
    expect(partOfYear(project, without)).toBeNull();
  });
});

describe('days in order', () => {
  it('begin with the first asked for', () => {
    const dates = ['2001-01-01', '2001-01-02', '2001-11-30', '2001-12-31'];
    expect(inOrder(dates, '11-01', '01-01')).toEqual([2, 3, 0]);
    expect(inOrder(dates, '2020-01-02', '2019-12-01')).toEqual([1, 2]);
    expect(inOrder(dates, '12-31')).toEqual([3]);
    expect(inOrder(dates, '02-01', '01-31')).toEqual([2, 3, 0, 1]);
  });
});

describe('a scale of temperature', () => {
  it('has whole tens of °F, or fives of °C, round what it holds', () => {
    expect(temperatureTicks(14, 27, 'metric')).toEqual([10, 15, 20, 25, 30]);
    const f = temperatureTicks(14, 27, 'us').map((t) => Math.round((t * 1.8 + 32) * 1e6) / 1e6);
    expect(f).toEqual([50, 60, 70, 80, 90]);
    expect(temperatureTicks(20, 20, 'metric')).toEqual([20, 25]);
    expect(temperatureTicks(-3, -1, 'metric')).toEqual([-5, 0]);
  });
});

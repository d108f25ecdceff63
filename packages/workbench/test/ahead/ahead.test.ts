import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ahead, firstWaterNotices } from '../../src/ahead/ahead';
import { readForecast } from '../../src/ahead/forecast';
import { clockWords } from '../../src/ahead/words';
import { createSeasonCache } from '../../src/season/study';

const project = startProject({ ...usualAnswers('us', 36), tubes: 20, passes: 2 });
const cache = createSeasonCache();

function days(text: string, system: 'us' | 'metric' = 'us') {
  const read = readForecast(text, system);
  if (!read.ok) throw new Error(read.problems[0].message);
  return read.days;
}

describe('a typed forecast', () => {
  it('is read in the person’s units, words in any order', () => {
    const [a, b] = days('84/66 sunny calm; breezy 80/64, cloudy');
    expect(a.high_C).toBeCloseTo(28.89, 2);
    expect(a.low_C).toBeCloseTo(18.89, 2);
    expect(a.sky.share).toBe(1);
    expect(b.wind_ms).toBe(5);
    expect(b.sky.words).toBe('cloudy');
    expect(days('29/18 sunny', 'metric')[0].high_C).toBe(29);
    expect(days('84/66F sunny', 'metric')[0].low_C).toBeCloseTo(18.89, 2);
    expect(days('84F/66F partly cloudy 8 mph humid')[0].wind_ms).toBeCloseTo(3.576, 2);
    expect(days('-3/-12 overcast windy', 'metric')[0].low_C).toBe(-12);
  });

  it.each([
    ['84/66 suny calm', 1, 7, 'sky'],
    ['60/84 sunny', 1, 1, 'high before'],
    ['84/66 sunny; cloudy', 2, 14, 'high/low'],
    ['84/66 sunny cloudy', 1, 13, 'one sky'],
    ['84/66 calm windy', 1, 12, 'one wind'],
    ['840/660 sunny', 1, 1, 'unit'],
    ['', 1, 1, 'a day as'],
    ['84/x sunny', 1, 1, 'high/low'],
    ['84/66 sunny 900 mph', 1, 13, 'wind speed'],
  ])('%j is refused where it is wrong', (text, day, column, expected) => {
    const read = readForecast(text, 'us');
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.problems[0].day).toBe(day);
    expect(read.problems[0].column).toBe(column);
    expect(read.problems[0].message).toContain(expected);
  });

  it('never throws at what is typed', () => {
    const word = fc.constantFrom(
      '84/66',
      'sunny',
      'calm',
      ';',
      '8',
      'mph',
      '/',
      '-',
      'constructor',
      '__proto__',
      '7e9/1',
      '°',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(word).map((w) => w.join(' ')),
        ),
        (text) => {
          const read = readForecast(text, 'us');
          if (read.ok) for (const d of read.days) expect(d.low_C).toBeLessThanOrEqual(d.high_C);
          else expect(read.problems.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 400, seed: 2 },
    );
  });
});

describe('days ahead', () => {
  const three = days('88/68 sunny calm; 86/66 sunny light; 84/66 mostly sunny light');
  const at = '2026-06-02T08:00';

  it('gives every hour with its band, by the wall clock', () => {
    const { result, solver, complete } = ahead(project, { at, water_C: 24, days: three, cache });
    expect(complete).toBe(true);
    expect(solver.converged).toBe(true);
    expect(result.hours).toHaveLength(72 - 8);
    expect(result.hours[0].at).toBe('2026-06-02T09:00');
    expect(result.hours[result.hours.length - 1].at).toBe('2026-06-05T00:00');
    for (const h of result.hours) {
      expect(h.low_C).toBeLessThanOrEqual(h.water_C);
      expect(h.high_C).toBeGreaterThanOrEqual(h.water_C);
      expect(h.water_C).toBeGreaterThanOrEqual(h.withoutCollector_C - 0.01);
    }
    const last = result.hours[result.hours.length - 1];
    expect(last.high_C - last.low_C).toBeGreaterThan(result.hours[2].high_C - result.hours[2].low_C);
    const today = result.valve[0];
    expect(today.open! >= '08:00' && today.open! < '11:00').toBe(true);
    expect(today.close! > '15:00' && today.close! <= '20:00').toBe(true);
    expect(result.saying).toContain(`open the valve at ${clockWords(today.open!, project.units)}`);
    expect(result.acts.find((a) => a.id === 'collector')!.gain_K).toBeGreaterThan(0.2);
    expect(result.best!.gain_K).toBe(Math.max(...result.acts.map((a) => a.gain_K)));
  });

  it('says when the wish is reached, or that it is not', () => {
    const near: Project = { ...project, pool: { ...project.pool, wish_C: 24.6 } };
    const { reached } = ahead(near, { at, water_C: 24, days: three, full: false }).result;
    expect(reached).not.toBeNull();
    expect(reached!.at > at).toBe(true);
    const never: Project = { ...project, pool: { ...project.pool, wish_C: 40 } };
    const far = ahead(never, { at, water_C: 24, days: three, full: false }).result;
    expect(far.reached).toBeNull();
    expect(far.saying).toContain('not reached');
    const there = ahead(near, { at, water_C: 26, days: three, full: false }).result;
    expect(there.reached!.at).toBe(at);
  });

  it('says that a drained panel stands still', () => {
    const drained = Array.from({ length: 12 }, (_, m) => m === 5);
    const winter: Project = { ...project, season: { ...project.season, drained } };
    const ask = (p: Project, when: string) => ahead(p, { at: when, water_C: 24, days: three, full: false });
    const still = ask(winter, at);
    expect(still.notices.map((n) => n.code)).toContain('ahead-panel-drained');
    for (const h of still.result.hours) expect(h.water_C).toBeCloseTo(h.withoutCollector_C, 9);
    const other = ask(winter, '2026-07-02T08:00');
    expect(other.notices.map((n) => n.code)).not.toContain('ahead-panel-drained');
    expect(other.result.hours.at(-1)!.water_C).toBeGreaterThan(other.result.hours.at(-1)!.withoutCollector_C);
  });

  it('warns of the first water in the person’s own degrees', () => {
    expect(firstWaterNotices(57, 'us')[0].message).toContain('up to 134.6 °F');
    expect(firstWaterNotices(57, 'metric')[0].message).toMatch(/up to 57(\.0)? °C/);
    expect(firstWaterNotices(40, 'us')).toEqual([]);
    expect(firstWaterNotices(-Infinity, 'us')).toEqual([]);
  });

  it('leaves the valve shut on cold grey days', () => {
    const grey = days('52/46 rain windy; 50/44 rain windy');
    const { result } = ahead(project, { at, water_C: 27, days: grey, full: false });
    expect(result.valve.every((v) => v.open === null)).toBe(true);
    expect(result.saying).toContain('not worth opening');
  });

  it('a cover at night keeps warmth, and its gain is what it says', () => {
    const bare = ahead(project, { at, water_C: 27, days: three, cover: false, cache });
    const gain = bare.result.acts.find((a) => a.id === 'coverAtNight')!.gain_K;
    expect(gain).toBeGreaterThan(0.3);
    const last = (r: typeof bare.result): number => {
      const list = r.hours.filter((h) => h.at > '2026-06-04T13:00' && h.at <= '2026-06-04T18:00');
      return list.reduce((s, h) => s + h.water_C, 0) / list.length;
    };
    const covered = ahead(project, { at, water_C: 27, days: three, cover: true, full: false });
    expect(last(covered.result) - last(bare.result)).toBeCloseTo(gain, 3);
  });

  it('works in the other half of the earth and in zones of half hours', () => {
    const south = {
      ...project,
      site: { ...project.site, latitude_deg: -34.9, longitude_deg: 138.6, timeZone: 'Australia/Adelaide' },
      collector: { ...project.collector, placement: { ...project.collector.placement, facing_deg: 0 } },
    };
    const { result } = ahead(south, {
      at: '2026-01-10T07:00',
      water_C: 23,
      days: days('31/19 sunny', 'metric'),
      full: false,
    });
    expect(result.hours).toHaveLength(17);
    expect(result.valve[0].heat_kWh).toBeGreaterThan(5);
  });
});

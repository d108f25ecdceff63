import { drain } from '@sunlap/engine/season/year';
import { localMoment, stepStart_ms, type WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { ahead } from '../../src/ahead/ahead';
import { readForecast } from '../../src/ahead/forecast';
import { forecastHours } from '../../src/ahead/hours';
import { clockStretches, utcOf } from '../../src/heat/local-time';
import { USUAL_COVER } from '../../src/season/assumed';
import { hoursShare, planShare, scheduleShares, seasonCalendar } from '../../src/season/calendar';
import { seasonWeather } from '../../src/season/site-weather';
import { createSeasonCache, studyYear } from '../../src/season/study';

const months = new Array<boolean>(12).fill(true);
const plan = {
  kind: 'hours' as const,
  months: months.map(() => ({ on: true, from_h: 10, to_h: 16 })),
};

/** A pool in another zone, with a year made from its climate. */
function poolIn(timeZone: string, latitude_deg: number, longitude_deg: number): Project {
  const own = startProject({ ...usualAnswers('metric', latitude_deg), tubes: 12, passes: 2 });
  return {
    ...own,
    site: { ...own.site, timeZone, latitude_deg, longitude_deg },
    season: { ...own.season, run: plan, climate: { kind: 'place', id: 'denver' } },
  };
}

/** Hours of a day, by standard time, in which a share is wholly on. */
function hoursOn(series: WeatherSeries, share: Float64Array, month: number, day: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < series.length; i++) {
    const at = localMoment(stepStart_ms(series, i), series.utcOffset_h);
    if (at.month === month && at.day === day && share[i] === 1) out.push(at.hour);
  }
  return out;
}

const denver = poolIn('America/Denver', 39.7, -105);
const { series } = seasonWeather(denver);
const clock = seasonCalendar(series, denver.site);
const standard = seasonCalendar(series);

describe('the clock of a year', () => {
  it('changes where and when the zone says: since 2007 the second Sunday of March and the first of November', () => {
    const year = clockStretches('America/Denver', Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1));
    expect(year.map((s) => new Date(s.from_ms).toISOString().slice(0, 16))).toEqual([
      '2026-01-01T00:00',
      '2026-03-08T09:00',
      '2026-11-01T08:00',
    ]);
    expect(year.map((s) => s.offset_ms / 3_600_000)).toEqual([-7, -6, -7]);
    expect(clockStretches('Asia/Kolkata', 0.5, 9e10)).toEqual([{ from_ms: 0.5, offset_ms: 19_800_000 }]);
  });

  it('hours from 10 to 16 are 9 to 15 of standard time in July, and 10 to 16 in January', () => {
    const share = planShare(clock, plan);
    expect(hoursOn(series, share, 6, 15)).toEqual([9, 10, 11, 12, 13, 14]);
    expect(hoursOn(series, share, 0, 15)).toEqual([10, 11, 12, 13, 14, 15]);
    // by the rules of 2029, whose weekdays are those of 2001: on 11 March the clock goes from 2 to 3
    expect(hoursOn(series, share, 2, 10)).toEqual([10, 11, 12, 13, 14, 15]);
    expect(hoursOn(series, share, 2, 11)).toEqual([9, 10, 11, 12, 13, 14]);
    expect(hoursOn(series, share, 10, 3)).toEqual([9, 10, 11, 12, 13, 14]);
    expect(hoursOn(series, share, 10, 4)).toEqual([10, 11, 12, 13, 14, 15]);
  });

  it('a day has 23, 24 or 25 hours and the year its 365 days', () => {
    const count = new Array<number>(clock.days).fill(0);
    for (const d of clock.day) count[d]++;
    expect(clock.days).toBe(365);
    expect(clock.dates[0]).toBe('2001-01-01');
    expect(clock.dates[364]).toBe('2001-12-31');
    const odd = count.flatMap((n, d) => (n === 24 ? [] : [`${clock.dates[d]} ${n}`]));
    expect(odd).toEqual(['2001-03-11 23', '2001-11-04 25']);
  });

  it('a year that ends in summer time ends where it began', () => {
    const adelaide = poolIn('Australia/Adelaide', -34.9, 138.6);
    const year = seasonWeather(adelaide).series;
    const own = seasonCalendar(year, adelaide.site);
    expect(own.days).toBe(365);
    expect(own.dates[0]).toBe('2001-01-01');
    // the last hour of standard time is the first of New Year's Day
    expect(own.day[year.length - 1]).toBe(0);
    expect(own.month[year.length - 1]).toBe(0);
    expect(own.hour[year.length - 1]).toBe(0.5);
    expect(hoursOn(year, hoursShare(own, { from_h: 10, to_h: 16 }), 0, 15)).toEqual([9, 10, 11, 12, 13, 14]);
    const study = drain(studyYear(adelaide, { weather: year }));
    expect(study.year.with.dayMean_C.every((t) => Number.isFinite(t))).toBe(true);
  });

  it('without summer time it is the standard time, to the bit', () => {
    for (const [zone, lat, lon] of [
      ['America/Phoenix', 33.4, -112],
      ['Australia/Brisbane', -27.5, 153],
      ['Asia/Kolkata', 28.6, 77.2],
    ] as const) {
      const place = poolIn(zone, lat, lon);
      const year = seasonWeather(place).series;
      expect(seasonCalendar(year, place.site), zone).toEqual(seasonCalendar(year));
    }
  });

  it('weather of another place keeps its sun at the same hour of the day; a zone nobody knows its own time', () => {
    const berlin = { timeZone: 'Europe/Berlin', longitude_deg: 13.4 };
    // 118° apart: eight hours; in winter both are on standard time
    const far = seasonCalendar(series, berlin);
    expect(far.hour[12]).toBe(standard.hour[12]);
    expect(seasonCalendar(series, { timeZone: 'No/Where', longitude_deg: 0 })).toEqual(standard);
  });

  it('half an hour of summer time shifts by half an hour, over midnight too', () => {
    const howe = poolIn('Australia/Lord_Howe', -31.5, 159.1);
    const year = seasonWeather(howe).series;
    const own = seasonCalendar(year, howe.site);
    const night = scheduleShares(own, [{ months, from_h: 0, to_h: 1 }])!;
    // 23:30 to 1:30 by standard time less half an hour
    const at = [23, 0].map((h) => 24 * 10 + h + (h === 23 ? -24 : 0));
    expect(at.map((i) => night[i])).toEqual([0.5, 0.5]);
  });
});

describe('year and days ahead', () => {
  const read = readForecast('30/16 sunny calm; 30/16 sunny calm', 'metric');
  if (!read.ok) throw new Error('no forecast');

  it('have one clock: the same hours of the same day', () => {
    const start = utcOf('2029-07-15T00:00', 'America/Denver');
    const two = forecastHours(denver, read.days, start);
    const near = seasonCalendar(two, denver.site);
    const from = series.length - (Date.UTC(2030, 0, 1, 7) - start) / 3_600_000;
    const covers = [{ months, from_h: 20, to_h: 8 }];
    const [a, b] = [scheduleShares(near, covers)!, scheduleShares(clock, covers)!];
    expect(two.length).toBe(48);
    for (let i = 0; i < two.length; i++) {
      expect(near.hour[i]).toBe(clock.hour[from + i]);
      expect(near.weekday[i]).toBe(clock.weekday[from + i]);
      expect(near.dates[near.day[i]].slice(5)).toBe(clock.dates[clock.day[from + i]].slice(5));
      expect(a[i]).toBe(b[from + i]);
    }
  });

  it('give the same water for the same day, plan and weather', () => {
    const covered: Project = {
      ...denver,
      pool: { ...denver.pool, wish_C: 40 },
      season: {
        ...denver.season,
        cover: { cover: USUAL_COVER, on: [{ months, from_h: 20, to_h: 8 }] },
      },
    };
    const at = '2026-07-15T06:00';
    const answer = ahead(covered, { at, water_C: 24, days: read.days, full: false }).result;
    const opened = answer.hours.filter((h) => h.run > 0).map((h) => h.at.slice(11));
    // noon by the sun is at 13 by the clock: hours worth running lie about it, not an hour before
    const middle = opened.filter((_, i) => i < opened.length / 2).map((t) => Number(t.slice(0, 2)) - 0.5);
    const mean = middle.reduce((s, h) => s + h, 0) / middle.length;
    expect(mean).toBeGreaterThan(12.5);
    const weather = forecastHours(covered, read.days, utcOf(at, 'America/Denver'));
    const study = drain(
      studyYear(
        { ...covered, season: { ...covered.season, run: plan } },
        { weather, start_C: 24, keepSteps: true, cache: createSeasonCache() },
      ),
    );
    // without the panel both are one pool under one cover
    answer.hours.forEach((h, i) => {
      expect(h.withoutCollector_C).toBe(study.year.stepWithout_C![i]);
    });
    const runs = Array.from(study.year.stepRun!).flatMap((r, i) =>
      r > 0 ? [Number(answer.hours[i].at.slice(11, 13))] : [],
    );
    expect(Math.min(...runs)).toBe(11);
    expect(Math.max(...runs)).toBe(16);
  });

  it('the day on which the clock is put back has 25 hours', () => {
    const answer = ahead(denver, {
      at: '2026-11-01T00:00',
      water_C: 20,
      days: read.days,
      full: false,
    }).result;
    expect(answer.hours).toHaveLength(49);
    expect(answer.hours.filter((h) => h.at === '2026-11-01T01:00')).toHaveLength(2);
    expect(answer.hours[24].at).toBe('2026-11-02T00:00');
    expect(answer.valve).toHaveLength(2);
  });
});

import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import fc from 'fast-check';
import { getPosition, getTimes } from 'suncalc';
import { describe, expect, test } from 'vitest';
import { intervalSun, rememberIntervalSun, solarNoon_ms, sunDay } from '../../src/sun/day';
import { cosIncidence } from '../../src/sun/incidence';
import { refraction_deg, sunPlace } from '../../src/sun/position';
import truth from '../truth/sun.json';

const DEG = 180 / Math.PI;
const HOUR = 3_600_000;
const at = (latitude_deg: number, longitude_deg: number) => ({ latitude_deg, longitude_deg, elevation_m: 0 });

test('verified: worked example of the NREL algorithm, within 0.005°', () => {
  const t = truth.rows[0] as unknown as Record<string, number> & { utc: string };
  const sun = sunPlace(Date.parse(t.utc), t as never, t as never);
  expect(Math.abs(sun.zenith_deg - t.zenith_deg)).toBeLessThan(0.005);
  expect(Math.abs(sun.trueZenith_deg - t.trueZenith_deg)).toBeLessThan(0.005);
  expect(Math.abs(sun.azimuth_deg - t.azimuth_deg)).toBeLessThan(0.005);
  const incidence = Math.acos(cosIncidence(sun.zenith_deg, sun.azimuth_deg, t.tilt_deg, t.facing_deg)) * DEG;
  expect(Math.abs(incidence - t.incidence_deg)).toBeLessThan(0.005);
});

test('verified: the short way stays within 0.0005° of the library’s full topocentric path', () => {
  const instant = fc.integer({ min: Date.UTC(1990, 0, 1), max: Date.UTC(2060, 0, 1) });
  fc.assert(
    fc.property(
      instant,
      fc.integer({ min: -90, max: 90 }),
      fc.integer({ min: -180, max: 180 }),
      (t, la, lo) => {
        const observer = new Observer(la, lo, 0);
        const eq = Equator(Body.Sun, new Date(t), observer, true, true);
        const full = Horizon(new Date(t), observer, eq.ra, eq.dec);
        const short = sunPlace(t, at(la, lo));
        expect(Math.abs(short.trueZenith_deg - (90 - full.altitude))).toBeLessThan(0.0005);
        const turn = ((short.azimuth_deg - full.azimuth + 540) % 360) - 180;
        expect(Math.abs(turn) * Math.cos(full.altitude / DEG)).toBeLessThan(0.0005);
      },
    ),
    { seed: 21, numRuns: 300 },
  );
});

test('verified: suncalc, a coarse independent peer, within 0.1° above the horizon', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: Date.UTC(2000, 0, 1), max: Date.UTC(2040, 0, 1) }),
      fc.integer({ min: -85, max: 85 }),
      fc.integer({ min: -180, max: 180 }),
      (t, la, lo) => {
        const ours = sunPlace(t, at(la, lo));
        const peer = getPosition(new Date(t), la, lo);
        if (peer.altitude < 2) return;
        expect(Math.abs(90 - ours.zenith_deg - peer.altitude)).toBeLessThan(0.1);
      },
    ),
    { seed: 22, numRuns: 300 },
  );
});

test('a remembered year answers as the function does, and asks it once per interval', () => {
  const place = at(33, -112);
  const remembered = rememberIntervalSun(place);
  const t = Date.UTC(2026, 3, 12, 18);
  const first = remembered(t, t + HOUR);
  expect(first).toMatchObject(intervalSun(t, t + HOUR, place));
  expect(remembered(t, t + HOUR)).toBe(first);
  expect(remembered(t, t + HOUR / 2)).not.toBe(first);
});

test('refraction: half a degree at the horizon, nothing overhead, none deep below', () => {
  expect(refraction_deg(0, 101_000, 10)).toBeGreaterThan(0.45);
  expect(refraction_deg(0, 101_000, 10)).toBeLessThan(0.55);
  expect(Math.abs(refraction_deg(90, 101_000, 10))).toBeLessThan(0.001);
  expect(refraction_deg(-5, 101_000, 10)).toBe(0);
  expect(() => refraction_deg(10, Number.NaN, 10)).toThrow(RangeError);
  expect(() => sunPlace(Number.NaN, at(0, 0))).toThrow(RangeError);
  expect(() => sunPlace(0, at(91, 0))).toThrow(RangeError);
});

describe('any place on the globe', () => {
  test('poles, tropics, equator and date line give a position', () => {
    for (const la of [-90, -66.6, -23.44, 0, 23.44, 66.6, 90])
      for (const lo of [-180, -0.1, 0, 179.999, 180])
        for (let h = 0; h < 24; h += 3) {
          const s = sunPlace(Date.UTC(2026, 5, 21, h), at(la, lo));
          expect(Number.isFinite(s.zenith_deg + s.azimuth_deg + s.hourAngle_deg)).toBe(true);
          expect(s.azimuth_deg).toBeGreaterThanOrEqual(0);
          expect(s.azimuth_deg).toBeLessThanOrEqual(360);
        }
  });
  test('the date line is no seam', () => {
    const t = Date.UTC(2026, 2, 20, 5);
    expect(sunPlace(t, at(10, 180)).zenith_deg).toBeCloseTo(sunPlace(t, at(10, -180)).zenith_deg, 9);
  });
  test('overhead in the tropics: the noon sun changes sides', () => {
    const noon = (m: number, d: number) =>
      sunPlace(solarNoon_ms(Date.UTC(2026, m, d, 12), at(10, 0)), at(10, 0));
    expect(Math.cos(noon(5, 21).azimuth_deg / DEG)).toBeGreaterThan(0.9998);
    expect(Math.abs(noon(11, 21).azimuth_deg - 180)).toBeLessThan(1);
  });
});

describe('the day', () => {
  test('verified: sunrise and sunset near suncalc’s, whose rim rises earlier by what 0.833° − 0.5° takes', () => {
    for (const [la, lo] of [
      [0, 0],
      [33, -112],
      [-34, 151],
      [51, 0],
      [-17, 179.9],
      [21, -158],
    ])
      for (const m of [0, 2, 5, 8, 11]) {
        const noon = Date.UTC(2026, m, 21, 12) - (lo / 15) * HOUR;
        const day = sunDay(noon, at(la, lo));
        const peer = getTimes(new Date(noon), la, lo);
        const later = (day.sunrise_ms! - peer.sunrise!.getTime()) / 60_000;
        // half a disc (0.267°) and 0.1° of refraction at up to 0.13° a minute: 1 to 5 min
        expect(later).toBeGreaterThan(0.5);
        expect(later).toBeLessThan(5);
        expect((peer.sunset!.getTime() - day.sunset_ms!) / 60_000).toBeGreaterThan(0.5);
        expect(Math.abs(day.noon_ms - peer.solarNoon.getTime())).toBeLessThan(2 * 60_000);
        expect(day.length_ms).toBe(day.sunset_ms! - day.sunrise_ms!);
      }
  });
  test('at sunrise the apparent elevation is zero', () => {
    const day = sunDay(Date.UTC(2026, 3, 12, 19), at(33, -112));
    expect(sunPlace(day.sunrise_ms!, at(33, -112)).zenith_deg).toBeCloseTo(90, 3);
  });
  test('midnight sun and polar night', () => {
    const summer = sunDay(Date.UTC(2026, 5, 21, 12), at(75, 0));
    expect(summer.alwaysUp).toBe(true);
    expect(summer.length_ms).toBe(24 * HOUR);
    expect(sunDay(Date.UTC(2026, 11, 21, 12), at(75, 0)).alwaysDown).toBe(true);
    expect(sunDay(Date.UTC(2026, 11, 21, 12), at(-90, 0)).alwaysUp).toBe(true);
  });
  test('at the pole the sun rises once a year', () => {
    let rises = 0;
    let sets = 0;
    for (let d = 0; d < 365; d += 1) {
      const day = sunDay(Date.UTC(2026, 0, 1 + d, 12), at(90, 0));
      if (day.sunrise_ms !== null) rises += 1;
      if (day.sunset_ms !== null) sets += 1;
    }
    expect(rises).toBe(1);
    expect(sets).toBe(1);
  });
});

describe('the sun of an interval', () => {
  const place = at(33, -112);
  const day = sunDay(Date.UTC(2026, 3, 12, 19), place);
  test('is at its middle in full day', () => {
    const t = day.noon_ms;
    const s = intervalSun(t, t + HOUR, place);
    expect(s.at_ms).toBe(t + HOUR / 2);
    expect(s.sunlitShare).toBe(1);
  });
  test('is at the middle of the sunlit part at sunrise and sunset', () => {
    const rise = intervalSun(day.sunrise_ms! - 0.75 * HOUR, day.sunrise_ms! + 0.25 * HOUR, place);
    expect(rise.sunlitShare).toBeCloseTo(0.25, 3);
    expect(rise.at_ms).toBeCloseTo(day.sunrise_ms! + HOUR / 8, -3);
    const set = intervalSun(day.sunset_ms! - 0.25 * HOUR, day.sunset_ms! + 0.75 * HOUR, place);
    expect(set.at_ms).toBeCloseTo(day.sunset_ms! - HOUR / 8, -3);
  });
  test('says dark when it is, and finds a day shorter than the interval', () => {
    expect(intervalSun(day.noon_ms + 11 * HOUR, day.noon_ms + 12 * HOUR, place).sunlitShare).toBe(0);
    let found = 0;
    for (let d = 0; d < 60; d += 1) {
      const arctic = at(67.3, 0);
      const short = sunDay(Date.UTC(2026, 10, 25 + d, 12), arctic);
      if (short.length_ms === 0 || short.length_ms > HOUR * 1.5) continue;
      found += 1;
      const s = intervalSun(short.noon_ms - HOUR, short.noon_ms + HOUR, arctic);
      expect(s.sunlitShare).toBeCloseTo(short.length_ms / (2 * HOUR), 3);
    }
    expect(found).toBeGreaterThan(0);
  });
  test('the sunlit shares of a day add up to its length', () => {
    let shares = 0;
    for (let h = 0; h < 24; h += 1) {
      const t = day.noon_ms - 12 * HOUR + h * HOUR;
      shares += intervalSun(t, t + HOUR, place).sunlitShare;
    }
    expect(shares * HOUR).toBeCloseTo(day.length_ms, -3);
  });
});

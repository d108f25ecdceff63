import { checkCover } from '@sunlap/engine/pool/cover';
import { clearnessFromSunshine } from '@sunlap/engine/weather/angstrom';
import { type ClimateMonth, checkClimateTable } from '@sunlap/engine/weather/climate-table';
import { monthlySummary } from '@sunlap/engine/weather/monthly';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import { describe, expect, test } from 'vitest';
import { climateTypes, findClimateType } from '../src/climate-types';
import { climateTableOf, findPlace, nearestPlaces, places, searchPlaces } from '../src/places';
import { findPoolCover, poolCovers } from '../src/poolCovers';
import { findReference } from '../src/references';

const mean = (months: readonly ClimateMonth[], f: (m: ClimateMonth) => number) =>
  months.reduce((sum, m) => sum + f(m), 0) / months.length;

describe('shelf of climates', () => {
  test('holds what was promised, each marked from memory', () => {
    expect(climateTypes.length).toBeGreaterThanOrEqual(14);
    expect(places.length).toBeGreaterThanOrEqual(60);
    expect(new Set(places.map((p) => p.continent))).toEqual(new Set(['AF', 'AS', 'EU', 'NA', 'OC', 'SA']));
    for (const row of [...climateTypes, ...places]) {
      expect(row.known).toBe('from memory');
      expect(findReference(row.source)).toBeDefined();
      expect(row.range).toContain('illustrative');
    }
    expect(new Set(places.map((p) => p.id)).size).toBe(places.length);
    expect(new Set(climateTypes.map((p) => p.id)).size).toBe(climateTypes.length);
    expect(climateTypes.some((type) => type.latitude_deg < 0)).toBe(true);
  });

  test.each(places.map((place) => [place.name, place] as const))(
    '%s: possible numbers, a zone that exists',
    (_, place) => {
      const table = climateTableOf(place);
      expect(() => checkClimateTable(table)).not.toThrow();
      // The runtime knows the zone, and its standard offset is the one written here (the smaller of the year's two).
      const offset = (month: number) => {
        const at = new Date(Date.UTC(2023, month, 15, 12));
        const parts = new Intl.DateTimeFormat('en-US', {
          timeZone: place.timeZone,
          timeZoneName: 'longOffset',
        }).formatToParts(at);
        const m = /GMT(?:([+-])(\d\d):(\d\d))?/.exec(
          parts.find((p) => p.type === 'timeZoneName')?.value ?? '',
        );
        return m?.[1] ? (m[1] === '-' ? -1 : 1) * (Number(m[2]) + Number(m[3]) / 60) : 0;
      };
      // Morocco's clock is an hour ahead all year; its light still goes by the table's offset.
      if (place.id !== 'casablanca') expect(Math.min(offset(0), offset(6))).toBe(place.offset_h);
      expect(Math.abs(place.longitude_deg / 15 - place.offset_h)).toBeLessThan(2.5);
      // Sunshine cannot be longer than the sun is up, even by rounding.
      const codes = synthesiseYear(table).notices.map((n) => n.code);
      expect(codes).toEqual([]);
    },
  );

  test('seasons stand where the hemisphere has them', () => {
    for (const place of places) {
      const swing =
        mean(
          [0, 1, 11].map((m) => place.months[m]),
          (m) => m.high_C,
        ) -
        mean(
          [5, 6, 7].map((m) => place.months[m]),
          (m) => m.high_C,
        );
      if (place.latitude_deg > 24) expect(swing).toBeLessThan(-4);
      if (place.latitude_deg < -22) expect(swing).toBeGreaterThan(2);
    }
  });

  // Common practice (from memory): yearly irradiation on the level [kWh/m² per day]: Phoenix 5.7, Miami 4.9, Madrid
  // 4.6, Paris 3.3, London 2.8, Stockholm 2.7, Singapore 4.5, Sydney 4.6. Ångström from rounded sunshine: 12 %.
  test.each([
    ['phoenix', 5.7],
    ['miami', 4.9],
    ['madrid', 4.6],
    ['paris', 3.3],
    ['london', 2.8],
    ['stockholm', 2.7],
    ['singapore', 4.5],
    ['sydney', 4.6],
  ])('%s gets about %f kWh/m² a day', (id, expected) => {
    const place = findPlace(id);
    if (!place) throw new Error(id);
    const months = monthlySummary(synthesiseYear(climateTableOf(place)).series);
    const year = months.reduce((sum, m) => sum + m.irradiation_kWhm2day, 0) / 12;
    expect(Math.abs(year / expected - 1)).toBeLessThan(0.12);
  });

  test('climate types make years', () => {
    for (const type of climateTypes) {
      const { latitude_deg, longitude_deg, elevation_m, name, months } = type;
      const made = synthesiseYear({
        name,
        place: { latitude_deg, longitude_deg, elevation_m },
        utcOffset_h: Math.round(longitude_deg / 15),
        months,
      });
      expect(made.notices).toEqual([]);
    }
    expect(findClimateType('mediterranean')?.months.length).toBe(12);
    expect(clearnessFromSunshine(0.5)).toBe(0.5);
  });
});

describe('finding a place', () => {
  test('by typing', () => {
    const ids = (text: string) => searchPlaces(text).map((p) => p.id);
    expect(ids('sao p')).toEqual(['sao-paulo']);
    expect(ids('phoe')).toEqual(['phoenix']);
    expect(ids('York, new')).toEqual(['new-york']);
    expect(ids('new')[0]).toBe('new-york');
    expect(ids('australia').length).toBeGreaterThan(4);
    expect(ids('zurich')).toEqual(ids('Zürich'));
    expect(ids('  ')).toEqual([]);
    expect(ids('xyzzy')).toEqual([]);
    expect(searchPlaces('a', 3).length).toBe(3);
  });

  test('by nearness, over the date line too', () => {
    const [first, second] = nearestPlaces(32.2, -110.9, 2);
    expect(first.place.id).toBe('phoenix');
    expect(first.distance_km).toBeGreaterThan(120);
    expect(first.distance_km).toBeLessThan(220);
    expect(second.distance_km).toBeGreaterThan(first.distance_km);
    expect(nearestPlaces(-37, -179.9, 1)[0].place.id).toBe('auckland');
    expect(nearestPlaces(51.5, -0.1, 1)[0].distance_km).toBeLessThan(5);
  });
});

describe('pool covers', () => {
  test('are covers, and the film has no resistance', () => {
    for (const cover of poolCovers) expect(() => checkCover(cover)).not.toThrow();
    expect(findPoolCover('liquid-film')?.conductance_Wm2K).toBe(Number.POSITIVE_INFINITY);
    expect(findPoolCover('none')).toBeUndefined();
  });
});

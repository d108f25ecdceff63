import { findPlace } from '@sunlap/data/places';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import {
  climateGuess,
  climateRows,
  isOwnRow,
  shelfOf,
  withClimateValue,
  withShelf,
  withShelfRow,
} from '../../src/season/own-climate';
import { seasonWeather } from '../../src/season/site-weather';

const base = startProject(usualAnswers('us'));
const phoenix: Project = { ...base, season: { ...base.season, climate: { kind: 'place', id: 'phoenix' } } };

describe('a climate of one’s own', () => {
  it('begins as the shelf’s and remembers it', () => {
    const own = withClimateValue(phoenix, 6, 'high_C', 43);
    const climate = own.season?.climate;
    expect(climate?.kind).toBe('table');
    expect(climate?.kind === 'table' && climate.from).toEqual({ kind: 'place', id: 'phoenix' });
    const shelf = findPlace('phoenix')!.months;
    climateRows(own).forEach((row, m) => {
      expect(isOwnRow(row, shelf[m])).toBe(m === 6);
    });
    expect(climateRows(own)[6].high_C).toBe(43);
  });

  it('gives a row back, and the whole table', () => {
    const own = withClimateValue(withClimateValue(phoenix, 6, 'high_C', 43), 0, 'wind_ms', 5);
    const mended = withShelfRow(own, 6);
    expect(climateRows(mended)[6]).toEqual(findPlace('phoenix')!.months[6]);
    expect(climateRows(mended)[0].wind_ms).toBe(5);
    expect(withShelf(own).season?.climate).toEqual({ kind: 'place', id: 'phoenix' });
  });

  it('lets sunshine and irradiation, humidity and dew point, take each other’s place', () => {
    const sun = climateRows(withClimateValue(phoenix, 3, 'irradiation_kWhm2', 7))[3];
    expect(sun).toMatchObject({ irradiation_kWhm2: 7 });
    expect(sun.sunshine_h).toBeUndefined();
    const dew = climateRows(withClimateValue(phoenix, 3, 'dewPoint_C', 4))[3];
    expect(dew.humidity).toBeUndefined();
    // no row is left without any sun
    const none = climateRows(withClimateValue(phoenix, 3, 'sunshine_h', null))[3];
    expect(none.sunshine_h).toBeGreaterThan(0);
    expect(climateRows(withClimateValue(phoenix, 3, 'wind_ms', null))[3].wind_ms).toBeUndefined();
  });

  it('guesses an empty cell from its other form, and says nothing of a full one', () => {
    const row = climateRows(phoenix)[5];
    expect(climateGuess(phoenix, 5, 'high_C', row)).toBeNull();
    const made = climateGuess(phoenix, 5, 'irradiation_kWhm2', row)!;
    // common practice: the level of a desert city gets 7.5 to 9 kWh/m² on a June day
    expect(made).toBeGreaterThan(7.5);
    expect(made).toBeLessThan(9);
    const back = climateGuess(phoenix, 5, 'sunshine_h', {
      high_C: 40,
      low_C: 25,
      irradiation_kWhm2: made,
    })!;
    expect(back).toBeCloseTo(row.sunshine_h!, 9);
    expect(climateGuess(phoenix, 5, 'wind_ms', { high_C: 40, low_C: 25, sunshine_h: 12 })).toBe(2);
  });

  it('makes another year, and no notice of an unusable table', () => {
    const own = withClimateValue(phoenix, 6, 'high_C', 45);
    const mean = (p: typeof phoenix): number => {
      const { series, notices } = seasonWeather(p);
      expect(notices.filter((n) => n.code === 'climate-unusable')).toEqual([]);
      return series.air_C.reduce((a, b) => a + b, 0) / series.length;
    };
    expect(mean(own)).toBeGreaterThan(mean(phoenix) + 0.05);
  });

  it('names the nearest place where none is chosen', () => {
    const { season: _, ...rest } = base;
    expect(shelfOf(rest).kind).toBe('place');
  });
});

import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { seasonWeather } from '../../src/season/site-weather';
import { distance_km, placeNotices } from '../../src/weather/place-notices';

const yard = { latitude_deg: 35, longitude_deg: -106.5, elevation_m: 1600 };
const codes = (at: Partial<typeof yard>, utcOffset_h = -7, site = yard) =>
  placeNotices({ name: 'A file', place: { ...yard, ...at }, utcOffset_h }, site, -7).map((n) => n.code);

describe('where a weather file is from', () => {
  it('is near enough up to 250 km, and farther it is said', () => {
    expect(codes({})).toEqual([]);
    // one degree of latitude is 6371 π / 180 = 111.19 km
    expect(codes({ latitude_deg: 37.2 })).toEqual([]);
    expect(codes({ latitude_deg: 37.3 })).toEqual(['weather-far']);
    const [far] = placeNotices(
      { name: 'A file', place: { ...yard, latitude_deg: 45 }, utcOffset_h: -7 },
      yard,
      -7,
    );
    expect(far.message).toContain('“A file” is of a place 1,112 km (691 mi) from the yard');
  });
  it('on the other half of the earth has its summer in winter', () => {
    expect(codes({ latitude_deg: -35 })).toEqual(['weather-other-hemisphere']);
    // across the equator there is no winter to mistake
    expect(codes({ latitude_deg: -1 }, -7, { ...yard, latitude_deg: 1 })).toEqual([]);
  });
  it('with another clock is told by the yard’s', () => {
    expect(codes({}, -6)).toEqual(['weather-other-zone']);
    expect(codes({ longitude_deg: 10 }, 1)).toEqual(['weather-far', 'weather-other-zone']);
  });
  it('is said of a year that is run with it', () => {
    const project = startProject(usualAnswers('us'));
    const { series, notices } = seasonWeather(project);
    expect(notices.map((n) => n.code)).not.toContain('weather-far');
    const elsewhere = { ...series, place: { ...series.place, latitude_deg: -38 } };
    expect(seasonWeather(project, elsewhere).notices[0].code).toBe('weather-other-hemisphere');
    expect(seasonWeather(project, series).notices).toEqual([]);
  });
});

describe('distance on the earth', () => {
  it('is an arc of a great circle', () => {
    const [a, b] = [
      { latitude_deg: 0, longitude_deg: 0 },
      { latitude_deg: 0, longitude_deg: 180 },
    ];
    expect(distance_km(a, b)).toBeCloseTo(Math.PI * 6371, 6);
    expect(distance_km(a, { latitude_deg: 90, longitude_deg: 33 })).toBeCloseTo((Math.PI / 2) * 6371, 6);
    expect(distance_km(a, a)).toBe(0);
  });
});

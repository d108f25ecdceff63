import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { bench, describe } from 'vitest';
import { sunPlace } from '../src/sun/position';

const place = { latitude_deg: 33, longitude_deg: -112, elevation_m: 340 };
const observer = new Observer(place.latitude_deg, place.longitude_deg, place.elevation_m);
const START = Date.UTC(2026, 0, 1);

describe('a day of sun positions, one a minute', () => {
  bench('sunPlace', () => {
    for (let i = 0; i < 1440; i += 1) sunPlace(START + i * 60_000, place);
  });
  bench('the library’s full topocentric path', () => {
    for (let i = 0; i < 1440; i += 1) {
      const date = new Date(START + i * 60_000);
      const eq = Equator(Body.Sun, date, observer, true, true);
      Horizon(date, observer, eq.ra, eq.dec, 'normal');
    }
  });
});

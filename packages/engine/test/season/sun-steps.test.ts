import { describe, expect, it } from 'vitest';
import { pressureAtElevation } from '../../src/fluids/moist-air';
import { type SunNow, sunAt, sunDays, sunSteps } from '../../src/season/sun-steps';
import { intervalSun } from '../../src/sun/day';
import type { Place } from '../../src/sun/place';
import { sunPlace } from '../../src/sun/position';
import { synthesiseYear } from '../../src/weather/synthesis';

const places: Place[] = [
  { latitude_deg: 39.74, longitude_deg: -105.18, elevation_m: 1830 },
  { latitude_deg: -34.9, longitude_deg: 138.6, elevation_m: 40 },
  { latitude_deg: 0, longitude_deg: 179.9, elevation_m: 0 },
  { latitude_deg: 69.6, longitude_deg: 18.9, elevation_m: 10 },
  { latitude_deg: -90, longitude_deg: 0, elevation_m: 2800 },
  { latitude_deg: 21, longitude_deg: -179.9, elevation_m: 5 },
];

describe('sun of the steps', () => {
  // Invariant: the full ephemeris. Straight lines between days bend by 0.001°.
  it('is the ephemeris within 0.003° everywhere', () => {
    const now: SunNow = { zenith_deg: 0, azimuth_deg: 0, hourAngle_deg: 0, distance_au: 0 };
    for (const place of places) {
      const start = Date.UTC(2026, 0, 1);
      const days = sunDays(place, start, start + 366 * 86_400_000);
      const air = { pressure_Pa: pressureAtElevation(place.elevation_m), temperature_C: 10 };
      for (let k = 0; k < 200; k++) {
        const t = start + k * 43.37 * 3_600_000;
        sunAt(days, t, now);
        const full = sunPlace(t, place, air);
        // below the horizon refraction is cut off at one disc and does not matter
        if (full.zenith_deg < 90) expect(Math.abs(now.zenith_deg - full.zenith_deg)).toBeLessThan(0.003);
        const off = Math.abs(now.azimuth_deg - full.azimuth_deg) % 360;
        const level = Math.sin((full.zenith_deg * Math.PI) / 180);
        expect(Math.min(off, 360 - off) * level).toBeLessThan(0.004);
      }
    }
  });

  it('stands for the sunlit part of an hour, as intervalSun has it', () => {
    const months = Array.from({ length: 12 }, () => ({ high_C: 20, low_C: 10, sunshine_h: 6 }));
    for (const place of places.slice(0, 4)) {
      const { series } = synthesiseYear({
        name: 'x',
        place,
        utcOffset_h: Math.round(place.longitude_deg / 15),
        months,
      });
      const steps = sunSteps(series);
      let compared = 0;
      for (let i = 0; i < series.length; i += 37) {
        const from = series.start_ms + i * 3_600_000;
        const full = intervalSun(from, from + 3_600_000, place);
        expect(Math.abs(steps.sunlit[i] - full.sunlitShare)).toBeLessThan(0.01);
        if (!(full.sunlitShare > 0.02)) continue;
        expect(Math.abs(steps.zenith_deg[i] - full.sun.zenith_deg)).toBeLessThan(0.06);
        compared++;
      }
      expect(compared).toBeGreaterThan(60);
    }
  });
});

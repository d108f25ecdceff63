import { bench, describe } from 'vitest';
import { poolBody, QUIET_CONDITIONS } from '../src/pool/conditions';
import { stepPool } from '../src/pool/step';

describe('pool alone', () => {
  const body = poolBody(32, 45, 60);
  bench('8760 hourly steps', () => {
    let state = { water_C: 20, ice_kg: 0 };
    for (let h = 0; h < 8760; h++) {
      const sun = Math.max(0, Math.sin((((h % 24) - 6) / 12) * Math.PI));
      state = stepPool(body, state, {
        ...QUIET_CONDITIONS,
        air_C: 12 - 10 * Math.cos((h / 8760) * 2 * Math.PI),
        airVapour_Pa: 900,
        wind_ms: 2,
        direct_Wm2: 500 * sun,
        diffuse_Wm2: 100 * sun,
        cosZenith: sun,
      }).state;
    }
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beaufortForce, beaufortWind_ms, localWind_ms } from '../../src/collector/exposure';
import { nusseltCoil, nusseltLaminar, nusseltTube, nusseltTurbulent } from '../../src/collector/inside-film';
import { clearSkyEmittance, cloudySkyEmittance, skyTemperature_C } from '../../src/collector/long-wave';
import { backedConductance, nusseltCrossFlow, plateFilm, tubeFilm } from '../../src/collector/outside-film';
import { filmResistance, marchPiece, marchTube, wallResistance } from '../../src/collector/tube';
import { dewPointFromHumidity, vapourPressureFromHumidity } from '../../src/fluids/moist-air';
import { waterConductivity, waterDensity, waterPrandtl, waterViscosity } from '../../src/fluids/water';
import { windAtHeight } from '../../src/pool/wind';
import { row } from './truth';

const BORE = 0.0158;
const OD = 0.02134;
const reynolds = (lmin: number) =>
  (4 * (lmin / 60_000) * waterDensity(30)) / (Math.PI * BORE * waterViscosity(30));

describe('films', () => {
  test('verified: Churchill–Bernstein and Gnielinski as printed', () => {
    const t = row('films');
    expect(
      Math.abs(nusseltCrossFlow(t.crossFlow.reynolds, t.crossFlow.prandtl) - t.crossFlow.nusselt),
    ).toBeLessThan(0.05);
    expect(
      Math.abs(nusseltTurbulent(t.gnielinski.reynolds, t.gnielinski.prandtl) - t.gnielinski.nusselt),
    ).toBeLessThan(0.005);
  });
  test('arithmetic of the method page: a half-inch tube in wind and in still air', () => {
    const t = row('tubeInAir');
    t.wind_ms.forEach((v: number, i: number) => {
      expect(Math.abs(tubeFilm(OD, v, 35, 22, 101_325).forced - t.forced_Wm2K[i])).toBeLessThan(0.06);
    });
    expect(Math.abs(tubeFilm(OD, 0, 35, 22, 101_325).still - t.still_Wm2K)).toBeLessThan(0.05);
  });
  test('arithmetic of the method page: inside, laminar developing and turbulent', () => {
    for (const r of row('tubeInside').rows) {
      const re = reynolds(r.flow_Lmin);
      expect(Math.abs(re - r.reynolds)).toBeLessThan(1);
      // last printed digit
      expect(Math.abs(nusseltTube(re, waterPrandtl(30), r.length_m / BORE) / r.nusselt - 1)).toBeLessThan(
        1e-3,
      );
    }
  });
});

test('arithmetic of the method page: one bare tube, every printed figure', () => {
  const t = row('bareTube');
  const nu = nusseltTube(reynolds(4), waterPrandtl(30), 30 / BORE);
  const film = filmResistance(nu, waterConductivity(30));
  const wall = wallResistance(OD, BORE, 0.16);
  expect(Math.abs(wall - t.wallResistance)).toBeLessThan(1e-6);
  expect(Math.abs(film / t.filmResistance - 1)).toBeLessThan(2e-4);
  const out = marchPiece(
    {
      length_m: 30,
      outer_WmK: 25 * Math.PI * OD,
      surroundings_C: 22,
      absorbed_Wm: 0.94 * 800 * OD,
      inner_mKW: film + wall,
    },
    28,
    277.44,
  );
  // the film's own properties differ in the fourth digit, the wall rules
  expect(Math.abs(out.factor - t.factor)).toBeLessThan(5e-6);
  expect(Math.abs(out.removal - t.removal)).toBeLessThan(5e-6);
  expect(Math.abs(out.heat_W - t.heat_W)).toBeLessThan(2e-3);
  expect(Math.abs(out.outlet_C - t.outlet_C)).toBeLessThan(1e-5);
  expect(Math.abs(out.standing_C - t.standing_C)).toBeLessThan(5e-4);
});

test('wall against water: about 29 times a turbulent film, about 3 times a laminar one (common practice)', () => {
  const wall = wallResistance(OD, BORE, 0.16);
  const turbulent = filmResistance(
    nusseltTube(reynolds(4), waterPrandtl(30), 30 / BORE),
    waterConductivity(30),
  );
  const laminar = filmResistance(nusseltLaminar(0.2), waterConductivity(30));
  expect(wall / turbulent).toBeGreaterThan(28);
  expect(wall / turbulent).toBeLessThan(30);
  expect(wall / laminar).toBeGreaterThan(2.5);
  expect(wall / laminar).toBeLessThan(3.5);
});

describe('a tube cut into pieces', () => {
  const piece = (length_m: number, absorbed_Wm: number) => ({
    length_m,
    outer_WmK: 1.5,
    surroundings_C: 20,
    absorbed_Wm,
    inner_mKW: 0.3,
  });
  test('one piece equals two halves', () => {
    const one = marchTube([piece(10, 15)], 28, 90);
    const two = marchTube([piece(4, 15), piece(6, 15)], 28, 90);
    expect(two.outlet_C).toBeCloseTo(one.outlet_C, 11);
    expect(two.heat_W).toBeCloseTo(one.heat_W, 8);
  });
  test('verified: the exponential is the integral of the loss along the tube (RK4, 2000 steps)', () => {
    const [u, te, absorbed, r, mc, length] = [1.7, 19, 18, 0.31, 35, 12];
    const slope = (t: number) => (absorbed - u * (t - te)) / (1 + u * r) / mc;
    let t = 28;
    const h = length / 2000;
    for (let i = 0; i < 2000; i += 1) {
      const a = slope(t);
      const b = slope(t + (h * a) / 2);
      const c = slope(t + (h * b) / 2);
      t += (h / 6) * (a + 2 * b + 2 * c + slope(t + h * c));
    }
    const whole = { length_m: length, outer_WmK: u, surroundings_C: te, absorbed_Wm: absorbed, inner_mKW: r };
    expect(marchPiece(whole, 28, mc).outlet_C).toBeCloseTo(t, 10);
  });
  test('heat is ṁcΔT, and the order of shade matters', () => {
    const a = marchTube([piece(5, 20), piece(5, 0)], 28, 20);
    const b = marchTube([piece(5, 0), piece(5, 20)], 28, 20);
    expect(a.heat_W).toBeCloseTo(20 * (a.outlet_C - 28), 9);
    expect(b.outlet_C).toBeGreaterThan(a.outlet_C + 0.01);
  });
  test('limits: no flow leaves at the standing temperature, large flow gives F′(S′ − U′o(Ti − Te))L', () => {
    const still = marchPiece(piece(10, 15), 28, 0);
    expect(still.heat_W).toBe(0);
    expect(still.outlet_C).toBeCloseTo(30, 12);
    const fast = marchPiece(piece(10, 15), 28, 1e9);
    expect(fast.heat_W).toBeCloseTo((10 * (15 - 1.5 * 8)) / (1 + 1.5 * 0.3), 5);
  });
  test('no piece leaves the interval between inlet and standing temperature', () => {
    const d = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        d(0, 60),
        d(0, 1e4),
        d(0.05, 60),
        d(0.01, 10),
        d(-20, 40),
        d(0, 60),
        d(0, 3),
        (ti, mc, l, u, te, s, r) => {
          const out = marchPiece(
            { length_m: l, outer_WmK: u, surroundings_C: te, absorbed_Wm: s, inner_mKW: r },
            ti,
            mc,
          );
          const low = Math.min(ti, out.standing_C) - 1e-9;
          const high = Math.max(ti, out.standing_C) + 1e-9;
          expect(out.outlet_C).toBeGreaterThanOrEqual(low);
          expect(out.outlet_C).toBeLessThanOrEqual(high);
          expect(Number.isFinite(out.heat_W + out.removal)).toBe(true);
        },
      ),
      { seed: 31 },
    );
  });
  test('misuse is refused', () => {
    expect(() => marchPiece({ ...piece(1, 1), outer_WmK: 0 }, 20, 1)).toThrow(RangeError);
    expect(() => marchPiece(piece(1, 1), 20, Number.NaN)).toThrow(RangeError);
    expect(() => wallResistance(0.02, 0.02, 0.16)).toThrow(RangeError);
  });
});

describe('inside film', () => {
  test('has no step at either end of the blend', () => {
    for (const re of [2300, 4000]) {
      const below = nusseltTube(re - 1e-6, 5.4, 200);
      expect(nusseltTube(re + 1e-6, 5.4, 200)).toBeCloseTo(below, 5);
    }
  });
  // Invariant: more flow never takes up less. As published the branches jump by 7 % at x* = 0.03; the checks of the
  // method (x* 0.0209 and 0.0264) and everything beyond the bridge are as published.
  test('grows with laminar flow without a step', () => {
    let last = nusseltLaminar(1);
    for (let x = 1; x > 0.001; x *= 0.999) {
      const nu = nusseltLaminar(x);
      expect(nu).toBeGreaterThanOrEqual(last);
      expect(nu / last).toBeLessThan(1.002);
      last = nu;
    }
    expect(nusseltLaminar(0.0209)).toBe(1.953 / Math.cbrt(0.0209));
    expect(nusseltLaminar(0.0264)).toBeCloseTo(6.56, 2);
    expect(nusseltLaminar(0.05)).toBe(4.364 + 0.0722 / 0.05);
    expect(Math.abs(nusseltLaminar(0.03) / (1.953 / Math.cbrt(0.03)) - 1)).toBeLessThan(0.03);
  });
  test('falls to 4.364 in still water; the gain of mixed convection is capped at laminar flow', () => {
    expect(nusseltTube(0, 5.4, 200)).toBeCloseTo(4.364, 9);
    expect(nusseltTube(100, 5.4, 200, 1.9) / nusseltTube(100, 5.4, 200)).toBeCloseTo(1.9, 9);
    expect(nusseltTube(5000, 5.4, 200, 1.9)).toBe(nusseltTube(5000, 5.4, 200));
  });
  test('a coil is better than a straight tube, grows with flow, and approaches it when wide', () => {
    let last = 0;
    for (const re of [10, 300, 1000, 3000, 6000, 12_000, 30_000]) {
      const nu = nusseltCoil(re, 5.4, 0.02);
      expect(nu).toBeGreaterThan(last);
      last = nu;
    }
    expect(nusseltCoil(1500, 5.4, 0.02)).toBeGreaterThan(nusseltTube(1500, 5.4, 5000));
    // Blasius-type friction against Petukhov's: within 6 % at Re 3·10⁴
    expect(Math.abs(nusseltCoil(3e4, 5.4, 1e-5) / nusseltTurbulent(3e4, 5.4) - 1)).toBeLessThan(0.08);
  });
});

describe('wind', () => {
  test('arithmetic: 2 m/s at 2 m is 1.096 m/s at 0.3 m', () => {
    // 1.09655 computed; printed with the last digit cut off
    expect(Math.abs(windAtHeight(2, 2, 0.3) - 1.096)).toBeLessThan(6e-4);
  });
  test('verified: Beaufort 3 is 3.4 to 5.4 m/s, 6 is 10.8 to 13.8 m/s (WMO code 1100)', () => {
    expect(beaufortWind_ms(3)).toBeGreaterThan(3.4);
    expect(beaufortWind_ms(3)).toBeLessThan(5.4);
    expect(beaufortWind_ms(6)).toBeGreaterThan(10.8);
    expect(beaufortWind_ms(6)).toBeLessThan(13.8);
    for (let b = 0; b <= 12; b += 1) expect(beaufortForce(beaufortWind_ms(b))).toBe(b);
  });
  test('exposure scales the wind at 10 m', () => {
    expect(localWind_ms(4, 0.35)).toBeCloseTo(1.4, 12);
    expect(() => localWind_ms(Number.NaN, 0.3)).toThrow(RangeError);
    expect(() => localWind_ms(3, -0.1)).toThrow(RangeError);
  });
  test('pitch turns a plate into lone tubes between 1.5 and 3 diameters', () => {
    const plate = plateFilm(2);
    const lone = 32.8;
    expect(backedConductance(OD, 1.2, plate, lone)).toBeCloseTo(plate * OD, 12);
    expect(backedConductance(OD, 3, plate, lone)).toBeCloseTo((lone * Math.PI * OD) / 2, 12);
    expect(backedConductance(OD, 2.25, plate, lone)).toBeCloseTo(
      (plate * OD + (lone * Math.PI * OD) / 2) / 2,
      12,
    );
    expect(plateFilm(2, 'mcadams')).toBeCloseTo(13.3, 12);
    expect(plateFilm(2, 'sharples')).toBeCloseTo(13.1, 12);
  });
});

describe('sky', () => {
  test('arithmetic of the printed formulas: three models at 22 °C, 50 %', () => {
    const t = row('sky');
    const dew = dewPointFromHumidity(22, 0.5);
    const e = vapourPressureFromHumidity(22, 0.5);
    const sky = (m: 'berdahl-martin' | 'brunt' | 'clark-allen') =>
      skyTemperature_C(22, clearSkyEmittance(dew, e, m));
    expect(Math.abs(sky('berdahl-martin') - t.berdahlMartin_C)).toBeLessThan(0.05);
    expect(Math.abs(sky('brunt') - t.brunt_C)).toBeLessThan(0.05);
    expect(Math.abs(sky('clark-allen') - t.clarkAllen_C)).toBeLessThan(0.05);
  });
  test('cloud closes the window, never beyond black', () => {
    expect(cloudySkyEmittance(0.78, 0)).toBe(0.78);
    expect(cloudySkyEmittance(0.78, 1)).toBeCloseTo(0.16 * 0.78 + 0.84, 12);
    expect(() => cloudySkyEmittance(0.78, Number.NaN)).toThrow(RangeError);
  });
});

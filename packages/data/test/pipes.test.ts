import { describe, expect, test } from 'vitest';
import { findMaterial } from '../src/materials';
import { findPipe, findPipeFamily, pipeFamilies, pipes } from '../src/pipes';
import truth from './truth/pipes.json';

const pipesOfFamily = (family: string) => pipes.filter((pipe) => pipe.family === family);
const area = (d: number): number => (Math.PI / 4) * d * d;

describe('pipes', () => {
  test('bore is outside less two walls; walls leave a bore', () => {
    for (const pipe of pipes) {
      expect(Math.abs(pipe.bore_m - (pipe.od_m - 2 * pipe.wall_m))).toBeLessThan(1e-8);
      expect(pipe.bore_m / pipe.od_m).toBeGreaterThan(0.6);
    }
  });

  test('sizes, weights, water and moment of inertia as tabulated (verified; last digit tabulated)', () => {
    for (const [id, od_mm, wall_mm, id_mm, rating_kPa, dry, water, inertia] of truth.rows as Array<
      [string, number, number, number, number, number, number, number]
    >) {
      const pipe = findPipe(id);
      expect(pipe, id).toBeDefined();
      if (pipe === undefined) continue;
      // ± half the last digit of hundredths of a millimetre, plus inch rounding
      expect(Math.abs(pipe.od_m * 1e3 - od_mm)).toBeLessThan(0.0061);
      expect(Math.abs(pipe.wall_m * 1e3 - wall_mm)).toBeLessThan(0.0061);
      expect(Math.abs(pipe.bore_m * 1e3 - id_mm)).toBeLessThan(0.0061);
      expect(Math.abs(pipe.rating_Pa / 1e3 - rating_kPa)).toBeLessThan(1); // tabulated kPa are rounded up
      const metal = area(pipe.od_m) - area(pipe.bore_m);
      expect(Math.abs(1400 * metal - dry)).toBeLessThan(0.0006);
      expect(Math.abs(1000 * area(pipe.bore_m) - water)).toBeLessThan(0.0006);
      const second = (Math.PI / 64) * (pipe.od_m ** 4 - pipe.bore_m ** 4);
      expect(Math.abs(second / inertia - 1)).toBeLessThan(0.0005);
    }
  });

  test('schedule 40 and 80 ratings follow 2S/(OD/t − 1) with S 2000 psi (verified: ISO 161 form; 3 %, ratings are rounded to 10 psi)', () => {
    for (const family of ['pvc-sch40', 'pvc-sch80'])
      for (const pipe of pipesOfFamily(family)) {
        const rating = (2 * 2000 * 6894.757) / (pipe.od_m / pipe.wall_m - 1);
        expect(Math.abs(pipe.rating_Pa / rating - 1)).toBeLessThan(0.03);
      }
  });

  test('metric ratings follow 2σ/(d/e − 1), σ 10 MPa to 90 mm and 12.5 MPa above (6 %: walls are rounded up to 0.1 mm)', () => {
    for (const pipe of pipes) {
      if (!pipe.family.startsWith('pvcu') || pipe.id === 'pvcu-pn20-16') continue;
      const stress = pipe.od_m <= 0.09 ? 10e6 : 12.5e6;
      const rating = (2 * stress) / (pipe.od_m / pipe.wall_m - 1);
      expect(rating / pipe.rating_Pa, pipe.id).toBeGreaterThan(0.99);
      expect(rating / pipe.rating_Pa, pipe.id).toBeLessThan(1.06);
    }
  });

  test('within a family larger pipe never bears more, beyond the wall steps of the standard', () => {
    for (const { id } of pipeFamilies) {
      const sizes = pipesOfFamily(id);
      for (let i = 1; i < sizes.length; i++) {
        expect(sizes[i].od_m, sizes[i].id).toBeGreaterThan(sizes[i - 1].od_m);
        const isWallStep = sizes[i].nominal === '2-1/2';
        if (!isWallStep) expect(sizes[i].rating_Pa, sizes[i].id).toBeLessThanOrEqual(sizes[i - 1].rating_Pa);
      }
    }
  });

  test('inch pipe of one nominal size has one outside, whatever its wall', () => {
    const families = ['pvc-sch40', 'pvc-sch80', 'pvc-sdr13.5', 'pvc-sdr21', 'pvc-sdr26', 'pvc-flex'];
    const outside = new Map<string, number>();
    for (const pipe of pipes)
      if (families.includes(pipe.family)) {
        expect(pipe.od_m).toBe(outside.get(pipe.nominal) ?? pipe.od_m);
        outside.set(pipe.nominal, pipe.od_m);
      }
    expect(outside.size).toBe(8);
  });

  test('each pipe has a material and a family', () => {
    for (const pipe of pipes) {
      expect(findPipeFamily(pipe.family)).toBeDefined();
      expect(findMaterial(pipe.material)).toBeDefined();
    }
  });
});

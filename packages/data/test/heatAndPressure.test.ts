import { describe, expect, test } from 'vitest';
import { deratingFactor, deratings, deratingsOf } from '../src/derating';
import { materialByTemperature, materials } from '../src/materials';
import { findScald, scalds } from '../src/scald';

const known = [...new Set(deratings.map((row) => row.material))];

describe('derating', () => {
  test.each(known)('%s starts at 1 and falls as it warms', (material) => {
    const rows = deratingsOf(material);
    expect(rows[0].factor).toBe(1);
    for (let i = 1; i < rows.length; i++) {
      expect(rows[i].at_C).toBeGreaterThan(rows[i - 1].at_C);
      expect(rows[i].factor).toBeLessThanOrEqual(rows[i - 1].factor);
    }
  });

  test('where published tables differ the lower is taken', () => {
    const differing = deratings.filter((row) => row.published !== undefined);
    expect(differing.length).toBe(6);
    for (const row of differing) expect(row.factor).toBe(Math.min(...(row.published ?? [])));
  });

  test.each(['PVC', 'CPVC'])(
    '%s: allowable stress over that at 23 °C is the factor (verified against each other; 0.01)',
    (material) => {
      const rows = materialByTemperature(material);
      const cold = rows[0].stress_Pa ?? Number.NaN;
      let compared = 0;
      for (const { at_C, stress_Pa } of rows) {
        if (stress_Pa === undefined) continue;
        expect(Math.abs(stress_Pa / cold - (deratingFactor(material, at_C) ?? Number.NaN))).toBeLessThan(
          0.01,
        );
        compared++;
      }
      expect(compared).toBeGreaterThanOrEqual(6);
    },
  );

  test('PVC bears 0.22 at 60 °C, nothing beyond, and no more than its rating when cold', () => {
    expect(deratingFactor('PVC', 60)).toBeCloseTo(0.22, 12);
    expect(deratingFactor('PVC', 61)).toBe(0);
    expect(deratingFactor('PVC', 5)).toBe(1);
    expect(deratingFactor('PVC', Number.NaN)).toBe(0);
    expect(deratingFactor('cheese', 20)).toBeUndefined();
  });
});

describe('materials', () => {
  test('moduli fall with time and heat', () => {
    for (const material of materials) {
      expect(material.long_Pa[1]).toBeLessThan(material.short_Pa);
      expect(material.long_Pa[0]).toBeLessThanOrEqual(material.long_Pa[1]);
      expect(material.hotLong_Pa).toBeLessThan(material.long_Pa[0]);
      expect(material.expansion_perK).toBeGreaterThanOrEqual(material.expansionRange_perK[0]);
      expect(material.expansion_perK).toBeLessThanOrEqual(material.expansionRange_perK[1]);
    }
    for (const name of ['PVC', 'CPVC']) {
      const rows = materialByTemperature(name);
      for (let i = 1; i < rows.length; i++) expect(rows[i].modulus_Pa).toBeLessThan(rows[i - 1].modulus_Pa);
    }
  });

  test('PVC modulus and stress at 100 °F: 352 000 and 1240 psi (verified)', () => {
    const row = materialByTemperature('PVC').find((at) => Math.abs(at.at_C - 37.78) < 0.01);
    expect(row && row.modulus_Pa / 6894.757).toBeCloseTo(352000, -1);
    expect(row?.stress_Pa && row.stress_Pa / 6894.757).toBeCloseTo(1240, 1);
  });
});

describe('scald', () => {
  test('hotter is faster, and second degree comes before third', () => {
    scalds.forEach((row, i) => {
      expect(row.secondDegree_s).toBeLessThan(row.thirdDegree_s);
      if (i > 0) expect(row.secondDegree_s).toBeLessThan(scalds[i - 1].secondDegree_s);
    });
  });

  test.each([
    [60, 3],
    [55, 17],
    [49, 480],
    [52, 17],
    [90, 3],
  ])('%d °C: second degree in %d s (verified; between rows the hotter one)', (water, seconds) => {
    expect(findScald(water)?.secondDegree_s).toBe(seconds);
  });

  test('a bath is no scald', () => {
    expect(findScald(38)).toBeUndefined();
  });
});

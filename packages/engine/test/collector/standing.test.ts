import { describe, expect, it } from 'vitest';
import { heatAtMean } from '../../src/collector/iso-curve';
import { DEFAULT_HEAT_OPTIONS } from '../../src/collector/options';
import type { OuterCurve, OuterState } from '../../src/collector/outer-curve';
import type { PlateFilm } from '../../src/collector/outside-film';
import { rowConditions } from '../../src/collector/row-conditions';
import { rowFrame } from '../../src/collector/row-frame';
import { metreHeat } from '../../src/collector/row-heat';
import { evenRow, rowSight } from '../../src/collector/row-sight';
import { standingTemperature_C } from '../../src/collector/standing';
import { DomainError } from '../../src/numeric/errors';

const OUTER_m = 0.0213;
const AIR_C = 30;
/** 1000 W/m² straight on a level row, calm air of 30 °C under a clear sky. */
const sky = {
  directNormal_Wm2: 900,
  diffuseHorizontal_Wm2: 100,
  sunZenith_deg: 0.01,
  sunAzimuth_deg: 180,
  extraterrestrial_Wm2: 1361,
};

/** How far a dry tube in the middle of a flat black row stands over the air [K]. */
function over_K(
  pitch: number,
  board: { behind_Wm2K: number; reflectance: number } | null,
  plateFilm: PlateFilm = 'watmuff',
): number {
  const sight = rowSight(evenRow(41, pitch * OUTER_m, OUTER_m));
  const backing = board && { ...board, contact: 'lying' as const, emittance: 0.9, behind_C: AIR_C };
  const row = rowConditions(
    rowFrame(0, 180, 0),
    sight,
    { absorptance: 0.95, emittance: 0.92, backing },
    { sky, albedo: 0.2 },
    { air_C: AIR_C, wind_ms: 0, pressure_Pa: 101_325, sky_C: 12 },
    { ...DEFAULT_HEAT_OPTIONS, plateFilm },
  );
  const middle = 20;
  const standing = standingTemperature_C(
    row.outside[row.outsideOf[middle]],
    row.beam_Wm[middle] + row.diffuse_Wm[middle],
    row.backingBeam_Wm[middle] + row.backingDiffuse_Wm[middle],
  );
  return standing - AIR_C;
}

const BLACK_BOARD = { behind_Wm2K: 4, reflectance: 0.06 };
const INSULATED = { behind_Wm2K: 0.8, reflectance: 0.06 };

describe('a balance that has no end', () => {
  const still = {
    exact: (_: number, out: OuterState) =>
      Object.assign(out, { conductance_WmK: 0.1, surroundings_C: 20, backingShare: 0 }),
  };
  it('is refused, not given as the end of the search', () => {
    expect(standingTemperature_C(still as unknown as OuterCurve, 10)).toBeCloseTo(120, 6);
    expect(() => standingTemperature_C(still as unknown as OuterCurve, 30)).toThrow(DomainError);
  });
  it('is said of a metre whose surface swings', () => {
    const swings = {
      exact: (t: number, out: OuterState) =>
        Object.assign(out, { conductance_WmK: t > 30 ? 40 : 0.1, surroundings_C: 20, backingShare: 0 }),
    };
    expect(metreHeat(swings as unknown as OuterCurve, 60, 0, 0.3, 25).converged).toBe(false);
    expect(metreHeat(still as unknown as OuterCurve, 60, 0, 0.3, 25).converged).toBe(true);
  });
  it('is said of a panel whose mean is never met', () => {
    let sign = 1;
    const jumps = (inlet_C: number) => {
      sign = -sign;
      return { heat_W: 1, outlet_C: inlet_C + 5 + sign };
    };
    expect(heatAtMean(jumps, 30).converged).toBe(false);
    expect(heatAtMean((inlet_C) => ({ heat_W: 7, outlet_C: inlet_C + 5 }), 30)).toEqual({
      converged: true,
      heat_W: 7,
    });
  });
});

describe('dry tubes in calm air and full sun', () => {
  // common practice: an open tube about +31 K. A level row without hot ground round it lies at the low end
  it('stand some 31 K over it in the open', () => {
    for (const pitch of [3, 4, 40]) {
      expect(over_K(pitch, null)).toBeGreaterThan(24);
      expect(over_K(pitch, null)).toBeLessThan(33);
    }
  });

  // common practice: on a board about +60 K. Insulated it is more, and most by the film that leaves out the plate's
  // own rising air; with the film that holds it the insulated row comes to +60 K too
  it('stand some 60 K over it in a close row on a dark board', () => {
    expect(Math.abs(over_K(1.02, BLACK_BOARD) - 60)).toBeLessThan(5);
    expect(Math.abs(over_K(1.02, INSULATED, 'mcadams') - 60)).toBeLessThan(5);
    expect(over_K(1.02, INSULATED)).toBeGreaterThan(65);
    expect(over_K(1.02, INSULATED)).toBeLessThan(78);
  });

  it('stand less hot the further apart they lie, and always hotter than in the open', () => {
    const apart = [1.02, 2, 3, 4].map((pitch) => over_K(pitch, BLACK_BOARD));
    expect(apart[0]).toBeGreaterThan(apart[1]);
    expect(apart[1]).toBeGreaterThan(apart[2]);
    for (const k of apart) expect(k).toBeGreaterThan(over_K(4, null) + 15);
  });

  it('lose by the board’s back only what its conductance carries: none where it has none', () => {
    const tight = over_K(1.02, { ...INSULATED, behind_Wm2K: 0 });
    expect(tight).toBeGreaterThan(over_K(1.02, INSULATED));
    // 950 W/m² taken in: long wave from 0.92 of it to a sky of 12 °C and 2.8 W/m²K to the air, by hand
    const [t, s] = [tight + AIR_C + 273.15, 12 + 273.15];
    const away = 0.92 * 5.670374e-8 * (t ** 4 - s ** 4) + 2.8 * tight;
    expect(Math.abs(away / 950 - 1)).toBeLessThan(0.08);
    // a board that hung in the open would lose by the air below as well
    expect(over_K(1.02, { ...INSULATED, behind_Wm2K: 10 })).toBeLessThan(over_K(1.02, BLACK_BOARD) - 5);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { efficiency, rowArea } from '../../src/collector/efficiency';
import { DEFAULT_HEAT_OPTIONS, RIVAL_HEAT_OPTIONS } from '../../src/collector/options';
import { solvePanel } from '../../src/collector/panel';
import { preparePanel } from '../../src/collector/panel-prepare';
import type { PanelElement } from '../../src/collector/panel-types';
import { lonePipe, rowConditions, rowNeighbours } from '../../src/collector/row-conditions';
import { rowFrame } from '../../src/collector/row-frame';
import { evenRow, rowSight, type TubeRow } from '../../src/collector/row-sight';
import { AIR, BORE, OD, WALL } from './panel-fixture';

const SKY = {
  sunZenith_deg: 30,
  sunAzimuth_deg: 150,
  directNormal_Wm2: 850,
  diffuseHorizontal_Wm2: 95,
  extraterrestrial_Wm2: 1367,
};
const open = { absorptance: 0.94, backing: null };
const board = {
  absorptance: 0.94,
  backing: { reflectance: 0.3, contact: 'lying' as const, emittance: 0.9, behind_Wm2K: 3, behind_C: 22 },
};

/** Heat of a row whose banks follow each other, every tube with the same flow, no headers. */
function heat(
  row: TubeRow,
  banks: number,
  surface: typeof open | typeof board,
  options = DEFAULT_HEAT_OPTIONS,
) {
  const sight = rowSight(row);
  const at = rowConditions(rowFrame(25, 180, 0), sight, surface, { sky: SKY, albedo: 0.2 }, AIR, options);
  const each = sight.count / banks;
  const all = Int32Array.from({ length: sight.count }, (_, i) => i);
  const elements: PanelElement[] = [];
  for (let i = 0; i < sight.count; i += 1) {
    const bank = Math.floor(i / each);
    elements.push({
      kind: 'pipe',
      from: bank,
      to: bank + 1,
      bore_m: BORE,
      outerDiameter_m: OD,
      wallConductivity_WmK: WALL,
      pieces: [{ length_m: 5, outside: at.outsideOf[i] }],
      neighbours: rowNeighbours(sight, i, all),
    });
  }
  const absorbed = at.beam_Wm.map((b, i) => b + at.diffuse_Wm[i]);
  const backing = at.backingBeam_Wm.map((b, i) => b + at.backingDiffuse_Wm[i]);
  const panel = preparePanel({ nodeCount: banks + 1, elements });
  const flow = new Float64Array(sight.count).fill(0.6 / each);
  return {
    at,
    out: solvePanel(
      panel,
      flow,
      27,
      { outside: at.outside, absorbed_Wm: absorbed, backingAbsorbed_Wm: backing },
      { laminarGain: options.laminarGain },
    ),
  };
}

describe('a row made ready for the panel', () => {
  test('tubes that see the same share their surroundings', () => {
    const { at, out } = heat(evenRow(120, 0.024, OD), 3, open);
    expect(at.outside.length).toBeLessThan(15);
    expect(at.outsideOf[50]).toBe(at.outsideOf[60]);
    expect(out.converged).toBe(true);
    expect(out.closure).toBeLessThan(1e-9);
  });
  test('nested banks: an interleaved panel of the same tubes takes less width and gives less per tube', () => {
    const pitch = 2.715 * 0.0254;
    const nested: TubeRow = {
      across_m: Array.from({ length: 60 }, (_, i) => (i % 20) * pitch + (Math.floor(i / 20) * pitch) / 3),
      depth_m: new Array<number>(60).fill(0),
      diameter_m: new Array<number>(60).fill(OD),
    };
    const apart = heat(evenRow(60, pitch, OD), 3, open).out;
    const close = heat(nested, 3, open).out;
    expect(close.converged).toBe(true);
    expect(close.heat_W).toBeLessThan(apart.heat_W);
    const width = (row: TubeRow) => rowArea(row.across_m, row.diameter_m, 5).gross_m2;
    expect(close.heat_W / width(nested)).toBeGreaterThan(apart.heat_W / width(evenRow(60, pitch, OD)));
  });
  test('the band: every rival gives another, finite heat within a fifth of the default', () => {
    const middle = heat(evenRow(40, 1.2 * OD, OD), 1, board).out.heat_W;
    const seen = new Set<number>();
    for (const rival of RIVAL_HEAT_OPTIONS) {
      const value = heat(evenRow(40, 1.2 * OD, OD), 1, board, rival).out.heat_W;
      seen.add(value);
      expect(Math.abs(value / middle - 1)).toBeLessThan(0.2);
    }
    // sky emittance is the caller's sky temperature: the two rows that change only it agree with the default
    expect(seen.size).toBeGreaterThanOrEqual(RIVAL_HEAT_OPTIONS.length - 2);
  });
  test('random rows and suns: converges, closes, never NaN', () => {
    const d = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(d(0, 1.5), d(0, 0.15)), { minLength: 1, maxLength: 12 }),
        d(0, 110),
        d(0, 360),
        d(0, 80),
        d(-90, 90),
        d(0, 12),
        fc.boolean(),
        (tubes, z, az, tilt, axis, wind, backed) => {
          const row = {
            across_m: tubes.map((t) => t[0]),
            depth_m: tubes.map((t) => t[1]),
            diameter_m: tubes.map(() => OD),
          };
          const sight = rowSight(row);
          const at = rowConditions(
            rowFrame(tilt, 180, axis),
            sight,
            backed ? board : open,
            { sky: { ...SKY, sunZenith_deg: z, sunAzimuth_deg: az }, albedo: 0.2 },
            { ...AIR, wind_ms: wind },
          );
          const all = tubes.map((_, i) => i);
          const elements: PanelElement[] = tubes.map((_, i) => ({
            kind: 'pipe',
            from: 0,
            to: 1,
            bore_m: BORE,
            outerDiameter_m: OD,
            wallConductivity_WmK: WALL,
            pieces: [{ length_m: 5, outside: at.outsideOf[i] }],
            neighbours: rowNeighbours(sight, i, all),
          }));
          const out = solvePanel(
            preparePanel({ nodeCount: 2, elements }),
            tubes.map((_, i) => 0.02 * (i % 4)),
            27,
            {
              outside: at.outside,
              absorbed_Wm: at.beam_Wm.map((b, i) => b + at.diffuse_Wm[i]),
              backingAbsorbed_Wm: at.backingBeam_Wm,
            },
          );
          expect(out.converged).toBe(true);
          expect(out.closure).toBeLessThan(1e-9);
          expect(out.elementMean_C.every((t) => t > -60 && t < 250)).toBe(true);
        },
      ),
      { seed: 61, numRuns: 60 },
    );
  });
});

test('a lone header takes sun from all sides; in the shade only the sky’s', () => {
  const level = lonePipe(rowFrame(0, 180, 0), 0.0483, open, { sky: SKY, albedo: 0.2 }, AIR);
  expect(level.beam_Wm).toBeGreaterThan(0.0483 * 850 * 0.75);
  expect(level.beam_Wm).toBeLessThan(0.0483 * 1000);
  expect(level.diffuse_Wm).toBeGreaterThan(2);
  expect(level.diffuse_Wm).toBeLessThan(level.beam_Wm);
  // the plane that holds the axis does not matter to direct light
  const tilted = lonePipe(rowFrame(50, 180, 0), 0.0483, open, { sky: SKY, albedo: 0.2 }, AIR);
  expect(tilted.beam_Wm / level.beam_Wm).toBeCloseTo(1, 1);
});

test('areas and efficiency name what they are of', () => {
  const area = rowArea([0, 0.05], [0.02, 0.02], 10);
  expect(area.gross_m2).toBeCloseTo(0.7, 12);
  expect(area.absorber_m2).toBeCloseTo(0.4, 12);
  expect(efficiency(3000, 900, 5)).toBeCloseTo(0.6667, 4);
  expect(efficiency(-20, 0, 5)).toBeNull();
  expect(() => efficiency(1, 1, 0)).toThrow(RangeError);
  expect(() => rowArea([], [], 1)).toThrow(RangeError);
});

// Invariant: what is left out is what is not defined.
test('a sky model that is left undefined is that of the options', () => {
  const sight = rowSight(evenRow(5, 0.05, OD));
  const frame = rowFrame(25, 180, 0);
  const options = { ...DEFAULT_HEAT_OPTIONS, skyModel: 'isotropic' as const };
  const left = rowConditions(frame, sight, open, { sky: SKY, albedo: 0.2, model: undefined }, AIR, options);
  const out = rowConditions(frame, sight, open, { sky: SKY, albedo: 0.2 }, AIR, options);
  expect(Array.from(left.diffuse_Wm)).toEqual(Array.from(out.diffuse_Wm));
  expect(left.diffuse_Wm[2]).not.toBe(
    rowConditions(frame, sight, open, { sky: SKY, albedo: 0.2 }, AIR).diffuse_Wm[2],
  );
});

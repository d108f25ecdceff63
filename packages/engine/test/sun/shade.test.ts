import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import {
  heightFromShadow,
  stripSkyShare,
  treeHeightFromShadow,
  wallShadowLength,
} from '../../src/sun/shade-closed';
import { shadeGrid } from '../../src/sun/shade-grid';
import {
  type Obstacle,
  type TreeObstacle,
  wallFootprint,
  type YardPoint,
} from '../../src/sun/shade-obstacle';
import { hemisphericalOpenness, type ScreenMesh, screenTransmittance } from '../../src/sun/shade-screen';
import { shadeTable, skyShare, sunlitGainWithout, sunlitShare } from '../../src/sun/shade-table';

const RAD = Math.PI / 180;
const INCH = 0.0254;
const pool = rectangle(8, 4);

function rectangle(length: number, width: number, z = 0): { corners: YardPoint[] } {
  const a = length / 2;
  const b = width / 2;
  return {
    corners: [
      [-a, -b, z],
      [a, -b, z],
      [a, b, z],
      [-a, b, z],
    ],
  };
}

/** Endless wall along the south edge of the pool, its north face at y = −2 − distance. */
function southWall(height: number, distance = 0): Obstacle {
  return {
    kind: 'prism',
    footprint: [
      [-5000, -3 - distance],
      [5000, -3 - distance],
      [5000, -2 - distance],
      [-5000, -2 - distance],
    ],
    base_m: 0,
    top_m: height,
  };
}

function tree(over: Partial<TreeObstacle> = {}): TreeObstacle {
  return {
    kind: 'tree',
    at: [0, -8],
    ground_m: 0,
    trunkRadius_m: 0.2,
    crownRadius_m: 3,
    crownBase_m: 2,
    height_m: 10,
    leafTransmittance: 0.2,
    bareTransmittance: 0.6,
    leafMonths: [false, false, false, true, true, true, true, true, true, true, false, false],
    ...over,
  };
}

describe('grid of rays', () => {
  // Closed form: exact area of the polygon cut by a line (shoelace). Tolerance is the stated error, 1 % of area.
  const outlines: [string, [number, number][]][] = [
    [
      'rectangle',
      [
        [0, 0],
        [8, 0],
        [8, 4],
        [0, 4],
      ],
    ],
    [
      'long strip',
      [
        [0, 0],
        [20, 0],
        [20, 1],
        [0, 1],
      ],
    ],
    [
      'L',
      [
        [0, 0],
        [8, 0],
        [8, 2],
        [4, 2],
        [4, 5],
        [0, 5],
      ],
    ],
    [
      'triangle',
      [
        [0, 0],
        [5, 1],
        [2, 6],
      ],
    ],
    [
      'oval',
      Array.from({ length: 48 }, (_, i) => [
        6 * Math.cos((i * Math.PI) / 24),
        3 * Math.sin((i * Math.PI) / 24),
      ]),
    ],
  ];
  it.each(outlines)('%s: a straight shadow edge is placed within 1 %% of the area', (_, outline) => {
    const grid = shadeGrid({ corners: outline.map(([x, y]) => [x, y, 0]) });
    const whole = Math.abs(shoelace(outline));
    expect(grid.area_m2).toBeCloseTo(whole, 9);
    let squares = 0;
    let worst = 0;
    const edges = 1500;
    for (let k = 0; k < edges; k++) {
      const angle = k * 2.399963; // golden angle: all directions, the sides' own every fifth time
      const turn = k % 5 === 0 ? Math.round(angle / (Math.PI / 2)) * (Math.PI / 2) : angle;
      const a = Math.cos(turn);
      const b = Math.sin(turn);
      const i = (k * 37) % grid.count;
      const c = a * grid.x_m[i] + b * grid.y_m[i] + 1e-4;
      let lit = 0;
      for (let j = 0; j < grid.count; j++) if (a * grid.x_m[j] + b * grid.y_m[j] <= c) lit++;
      const error = Math.abs(lit / grid.count - Math.abs(shoelace(cut(outline, a, b, c))) / whole);
      squares += error * error;
      worst = Math.max(worst, error);
    }
    expect(worst).toBeLessThan(0.01);
    expect(Math.sqrt(squares / edges)).toBeLessThan(0.002);
  });

  it('lies in the plane of a tilted receiver and knows its normal', () => {
    const rise = Math.sin(30 * RAD) * 3;
    const run = Math.cos(30 * RAD) * 3;
    const grid = shadeGrid({
      corners: [
        [0, 0, 1],
        [6, 0, 1],
        [6, run, 1 + rise],
        [0, run, 1 + rise],
      ],
    });
    expect(grid.area_m2).toBeCloseTo(18, 9);
    expect(grid.normal[1]).toBeCloseTo(-0.5, 9); // faces south
    expect(grid.normal[2]).toBeCloseTo(Math.cos(30 * RAD), 9);
    for (let i = 0; i < grid.count; i++)
      expect(grid.z_m[i] - 1).toBeCloseTo(grid.y_m[i] * Math.tan(30 * RAD), 9);
  });

  it('refuses a receiver that is a line, or bent', () => {
    expect(() =>
      shadeGrid({
        corners: [
          [0, 0, 0],
          [1, 0, 0],
          [2, 0, 0],
        ],
      }),
    ).toThrow(DomainError);
    expect(() =>
      shadeGrid({
        corners: [
          [0, 0, 0],
          [4, 0, 0],
          [4, 4, 1],
          [0, 4, 0],
        ],
      }),
    ).toThrow(DomainError);
  });
});

describe('walls against closed forms', () => {
  // Closed form: shadow of a wall, h·cosΔ/tan(elevation). At table nodes (4° × 3°) only the rays are in error.
  it.each([
    [2, 30, 180],
    [2, 45, 180],
    [3, 60, 180],
    [3, 45, 140],
    [1.5, 27, 212],
    [4, 12, 100],
  ])('wall of %f m, sun at elevation %f°, azimuth %f°', (height, elevation, azimuth) => {
    const table = shadeTable(pool, [southWall(height)]);
    const shadow = wallShadowLength(height, elevation, azimuth - 180);
    const expected = Math.max(0, 1 - shadow / 4);
    expect(Math.abs(sunlitShare(table, 5, azimuth, elevation) - expected)).toBeLessThan(table.rayError);
  });

  it('leaves the pool in sun when the sun is on the other side', () => {
    const table = shadeTable(pool, [southWall(5)]);
    for (const azimuth of [0, 45, 300]) expect(sunlitShare(table, 0, azimuth, 20)).toBe(1);
  });

  // Closed form: crossed strings (Hottel). 0.004 is the band rule of 3° on the sky, not the rays.
  it.each([
    [3, 0],
    [3, 2],
    [6, 1],
    [1, 0.5],
  ])('sky seen beside an endless wall of %f m at %f m', (height, distance) => {
    const table = shadeTable(pool, [southWall(height, distance)]);
    expect(Math.abs(skyShare(table, 0) - stripSkyShare(height, distance, 4))).toBeLessThan(0.004);
  });

  it('sees the whole sky in an empty yard', () => {
    const table = shadeTable(pool, []);
    expect(skyShare(table, 3)).toBeCloseTo(1, 6);
    expect(sunlitShare(table, 3, 123, 4)).toBe(1);
  });

  it('gives the strip’s closed form its limits', () => {
    expect(stripSkyShare(0, 1, 4)).toBe(1);
    expect(stripSkyShare(3, 0, 4)).toBe(0.75);
    expect(stripSkyShare(1e9, 0, 4)).toBeCloseTo(0.5, 6);
    expect(() => stripSkyShare(Number.NaN, 0, 4)).toThrow(DomainError);
    expect(() => wallShadowLength(2, 0)).toThrow(DomainError);
  });

  it('between nodes the table smooths an edge but keeps its mean over a sweep of the sun', () => {
    const table = shadeTable(pool, [southWall(3)]);
    let read = 0;
    let exact = 0;
    for (let e = 20; e < 80; e += 0.25) {
      read += sunlitShare(table, 0, 171.3, e);
      exact += Math.max(0, 1 - wallShadowLength(3, e, 8.7) / 4);
    }
    expect(Math.abs(read - exact) / 240).toBeLessThan(0.003);
  });
});

describe('solids', () => {
  it('a bridge shades only while the rays pass between its underside and its top', () => {
    const bridge: Obstacle = {
      kind: 'prism',
      footprint: wallFootprint([-50, -6], [50, -6], 0.2),
      base_m: 3,
      top_m: 4,
    };
    const table = shadeTable(rectangle(1, 1), [bridge]);
    expect(sunlitShare(table, 0, 180, 30)).toBeCloseTo(0, 1); // 6 m·tan 30° = 3.46 m
    expect(sunlitShare(table, 0, 180, 15)).toBe(1); // passes under
    expect(sunlitShare(table, 0, 180, 48)).toBe(1); // passes over
  });

  it('a collector lying on a roof is not shaded by the house it lies on', () => {
    const house: Obstacle = {
      kind: 'prism',
      footprint: [
        [-5, -5],
        [5, -5],
        [5, 5],
        [-5, 5],
      ],
      base_m: 0,
      top_m: 3,
    };
    const table = shadeTable(rectangle(4, 3, 3), [house]);
    expect(sunlitShare(table, 0, 200, 6)).toBe(1);
    expect(skyShare(table, 0)).toBeCloseTo(1, 6);
  });

  it('an outline with a bay shades like its two halves', () => {
    const bay: Obstacle = {
      kind: 'prism',
      footprint: [
        [-6, -9],
        [6, -9],
        [6, -4],
        [2, -4],
        [2, -8],
        [-2, -8],
        [-2, -4],
        [-6, -4],
      ],
      base_m: 0,
      top_m: 3,
    };
    const parts: Obstacle[] = [
      [
        [-6, -9],
        [6, -9],
        [6, -8],
        [-6, -8],
      ],
      [
        [-6, -8],
        [-2, -8],
        [-2, -4],
        [-6, -4],
      ],
      [
        [2, -8],
        [6, -8],
        [6, -4],
        [2, -4],
      ],
    ].map((footprint) => ({
      kind: 'prism',
      footprint: footprint as [number, number][],
      base_m: 0,
      top_m: 3,
    }));
    const one = shadeTable(pool, [bay]);
    const three = shadeTable(pool, parts);
    for (const azimuth of [120, 140, 180, 212, 240])
      for (const elevation of [9, 18, 30, 45])
        expect(sunlitShare(one, 0, azimuth, elevation)).toBeCloseTo(
          sunlitShare(three, 0, azimuth, elevation),
          6,
        );
    expect(sunlitShare(one, 0, 180, 18)).toBeLessThan(0.9);
  });

  it('turning yard and sun together changes nothing, within the rays', () => {
    const east: Obstacle = {
      kind: 'prism',
      footprint: wallFootprint([4.5, -30], [4.5, 30], 0.2),
      base_m: 0,
      top_m: 3,
    };
    const north: Obstacle = {
      kind: 'prism',
      footprint: wallFootprint([-30, 4.5], [30, 4.5], 0.2),
      base_m: 0,
      top_m: 3,
    };
    const a = shadeTable(rectangle(8, 8), [east]);
    const b = shadeTable(rectangle(8, 8), [north]);
    for (let turn = -80; turn <= 80; turn += 20)
      for (const elevation of [12, 24, 48])
        expect(
          Math.abs(sunlitShare(a, 0, 90 + turn, elevation) - sunlitShare(b, 0, turn, elevation)),
        ).toBeLessThan(0.015);
  });

  it('the size of the yard does not matter, only its shape', () => {
    const scaled = (k: number) =>
      shadeTable(rectangle(8 * k, 4 * k), [
        {
          kind: 'prism',
          footprint: [
            [-3 * k, -6 * k],
            [2 * k, -6 * k],
            [2 * k, -4 * k],
            [-3 * k, -4 * k],
          ],
          base_m: 0,
          top_m: 3 * k,
        },
      ]);
    const small = scaled(1);
    const large = scaled(100);
    expect(Array.from(large.share[0])).toEqual(Array.from(small.share[0]));
  });

  it('more or taller obstacles never bring more sun', () => {
    const heights = fc.double({ min: 0.5, max: 12, noNaN: true });
    fc.assert(
      fc.property(
        heights,
        heights,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0, max: 90, noNaN: true }),
        (a, b, azimuth, elevation) => {
          const low = shadeTable(pool, [southWall(Math.min(a, b), 1)]);
          const high = shadeTable(pool, [southWall(Math.max(a, b), 1)]);
          const both = shadeTable(pool, [southWall(Math.max(a, b), 1), tree()]);
          const [l, h, t] = [low, high, both].map((table) => sunlitShare(table, 6, azimuth, elevation));
          expect(l).toBeGreaterThanOrEqual(h - 1e-6);
          expect(h).toBeGreaterThanOrEqual(t - 1e-6);
          expect(t).toBeGreaterThanOrEqual(0);
          expect(l).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 4, numRuns: 12 },
    );
  });
});

describe('trees', () => {
  it('thin the sun by the crown’s transmittance, more so in leaf', () => {
    const patch = rectangle(0.2, 0.2);
    const table = shadeTable(patch, [tree({ trunkRadius_m: 0 })]);
    // 36.87° points at the crown's centre, 6 m up at 8 m.
    expect(sunlitShare(table, 6, 180, 37)).toBeCloseTo(0.2, 5);
    expect(sunlitShare(table, 0, 180, 37)).toBeCloseTo(0.6, 5);
    expect(table.monthState).toEqual([0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 0, 0]);
    expect(skyShare(table, 0)).toBeGreaterThan(skyShare(table, 6));
  });

  it('the trunk is opaque', () => {
    const table = shadeTable(rectangle(0.02, 0.02), [tree({ trunkRadius_m: 0.6, crownBase_m: 6 })]);
    expect(sunlitShare(table, 6, 180, 12)).toBe(0);
    expect(sunlitShare(table, 6, 172, 12)).toBe(1);
  });

  it('cast the ellipse they should: area of a crown’s shadow on a wide lawn', () => {
    // Closed form: an ellipsoid's shadow on level ground has area π·a·√(a²·sin²e + c²·cos²e)/sin e.
    const lawn = rectangle(60, 60);
    const table = shadeTable(lawn, [tree({ at: [0, 0], trunkRadius_m: 0, leafTransmittance: 0 })]);
    for (const elevation of [24, 45, 69, 90]) {
      const sin = Math.sin(elevation * RAD);
      const cos = Math.cos(elevation * RAD);
      const shadow = (Math.PI * 3 * Math.sqrt(9 * sin * sin + 16 * cos * cos)) / sin;
      expect(Math.abs(1 - sunlitShare(table, 6, 44, elevation) - shadow / 3600)).toBeLessThan(0.003);
    }
  });

  it('each shows what it costs: gains without it add up where shadows do not overlap', () => {
    const left = tree({ at: [-7, -7] });
    const right = tree({ at: [7, -7] });
    const table = shadeTable(pool, [left, right]);
    for (const azimuth of [160, 180, 200, 220]) {
      const all = sunlitShare(table, 6, azimuth, 30);
      const gains = [0, 1].map((k) => sunlitGainWithout(table, 6, k, azimuth, 30));
      const alone = [left, right].map((one) => 1 - sunlitShare(shadeTable(pool, [one]), 6, azimuth, 30));
      expect(gains[0]).toBeCloseTo(alone[0], 5);
      expect(all + gains[0] + gains[1]).toBeCloseTo(1, 5);
    }
    // Two trees in a line: felling one leaves the other's shade.
    const row = shadeTable(pool, [tree(), tree({ at: [0, -8.01] })]);
    const gain = sunlitGainWithout(row, 6, 0, 180, 30);
    expect(gain).toBeLessThan(0.3 * (1 - sunlitShare(row, 6, 180, 30)));
    expect(() => sunlitGainWithout(row, 6, 2, 180, 30)).toThrow(DomainError);
  });

  it('height from the shadow', () => {
    expect(heightFromShadow(10, 45)).toBeCloseTo(10, 12);
    expect(treeHeightFromShadow(12, 45, 3, 2)).toBeCloseTo(11.1, 12);
    expect(treeHeightFromShadow(12, 45, 0, 2)).toBeCloseTo(12, 12);
    expect(() => treeHeightFromShadow(3, 30, 3, 1)).toThrow(DomainError);
    // a sun straight above throws no shadow to measure
    for (const elevation of [90, 0, Number.NaN]) {
      expect(() => heightFromShadow(10, elevation)).toThrow(DomainError);
      expect(() => treeHeightFromShadow(12, elevation, 3, 2)).toThrow(DomainError);
    }
  });

  it('height from the shadow that the rays themselves cast', () => {
    const crown = tree({ at: [0, 0], trunkRadius_m: 0, leafTransmittance: 0 });
    for (const elevation of [30, 45, 60]) {
      // Far tip of the shadow: a fine row of points to the north of the trunk, sun due south.
      const strip = {
        corners: [
          [-0.01, 0, 0],
          [0.01, 0, 0],
          [0.01, 30, 0],
          [-0.01, 30, 0],
        ] as YardPoint[],
      };
      const shaded = 1 - sunlitShare(shadeTable(strip, [crown]), 6, 180, elevation);
      const t = Math.tan(elevation * RAD);
      const tip = 6 / t + Math.sqrt(9 + 16 / (t * t));
      const tail = Math.max(0, 6 / t - Math.sqrt(9 + 16 / (t * t)));
      expect(Math.abs(shaded * 30 - (tip - tail))).toBeLessThan(0.15); // 0.5 % of the strip
      expect(treeHeightFromShadow(tip, elevation, 3, 2)).toBeCloseTo(10, 9);
    }
  });
});

describe('screens', () => {
  const woven = (n1: number, n2: number, wire_in: number): ScreenMesh => ({
    kind: 'woven',
    wires1_perM: n1 / INCH,
    wires2_perM: n2 / INCH,
    wireDiameter_m: wire_in * INCH,
  });
  const window18x14 = woven(18, 14, 0.011);
  const insect20x20 = woven(20, 20, 0.013);

  // Arithmetic: projected openness of a square weave, (1 − n₁d)(1 − n₂d), to the digits of the method page.
  it('lets through its projected openness head on', () => {
    expect(screenTransmittance(window18x14, 1, 0, 0)).toBeCloseTo(0.6785, 4);
    expect(screenTransmittance(insect20x20, 1, 0, 0)).toBeCloseTo(0.5476, 4);
  });

  // Arithmetic of the method page: 0.56 and 0.40, hemispherical openness of these two weaves.
  it('lets through less of evenly spread light', () => {
    expect(hemisphericalOpenness(window18x14)).toBeCloseTo(0.56, 2);
    expect(hemisphericalOpenness(insect20x20)).toBeCloseTo(0.4, 2);
    expect(hemisphericalOpenness({ kind: 'typed', openness: 0.7 })).toBeCloseTo(0.7, 9);
  });

  // Common practice, no source: "a screen takes about 30 % of the sun".
  it('takes about 30 % of high sun', () => {
    const high = screenTransmittance(window18x14, Math.sin(60 * RAD), 0, Math.cos(60 * RAD));
    expect(1 - high).toBeGreaterThan(0.28);
    expect(1 - high).toBeLessThan(0.38);
  });

  it('over a pool: roof overhead, walls at low sun, sky share near its openness', () => {
    const cage: Obstacle = {
      kind: 'screen',
      footprint: [
        [-6, -4],
        [6, -4],
        [6, 4],
        [-6, 4],
      ],
      base_m: 0,
      top_m: 3,
      mesh: window18x14,
    };
    const table = shadeTable(pool, [cage]);
    expect(sunlitShare(table, 0, 180, 90)).toBeCloseTo(screenTransmittance(window18x14, 1, 0, 0), 5);
    const low = sunlitShare(table, 0, 180, 3);
    expect(low).toBeCloseTo(screenTransmittance(window18x14, Math.cos(3 * RAD), 0, Math.sin(3 * RAD)), 2);
    // Inside a box the sky is seen through the roof and the walls, each at kinder angles than a flat sheet.
    expect(skyShare(table, 0)).toBeGreaterThan(0.56);
    expect(skyShare(table, 0)).toBeLessThan(0.66);
  });

  it('refuses a mesh without gaps', () => {
    expect(() => screenTransmittance(woven(30, 30, 0.04), 1, 0, 0)).toThrow(DomainError);
    expect(() => screenTransmittance({ kind: 'typed', openness: 1.2 }, 1, 0, 0)).toThrow(DomainError);
    expect(screenTransmittance(window18x14, 0, 1, 0)).toBe(0);
  });
});

describe('doors of the table', () => {
  it('refuses solids without volume, shares over one, months that are none', () => {
    const bad: Obstacle[] = [
      {
        kind: 'prism',
        footprint: [
          [0, 0],
          [1, 0],
        ],
        base_m: 0,
        top_m: 1,
      },
      {
        kind: 'prism',
        footprint: [
          [0, 0],
          [1, 0],
          [1, 1],
        ],
        base_m: 1,
        top_m: 1,
      },
      {
        kind: 'prism',
        footprint: [
          [0, 0],
          [Number.NaN, 0],
          [1, 1],
        ],
        base_m: 0,
        top_m: 1,
      },
      tree({ leafTransmittance: 1.1 }),
      tree({ height_m: 2 }),
      tree({ leafMonths: [true] }),
      tree({ crownRadius_m: Number.NaN }),
    ];
    for (const one of bad) expect(() => shadeTable(pool, [one])).toThrow(DomainError);
    const table = shadeTable(pool, []);
    expect(() => sunlitShare(table, 12, 0, 0)).toThrow(DomainError);
    expect(() => sunlitShare(table, 0, Number.NaN, 0)).toThrow(DomainError);
    expect(() => sunlitShare(table, 0, 0, 91)).toThrow(DomainError);
    expect(() => wallFootprint([0, 0], [0, 0], 0.1)).toThrow(DomainError);
    expect(sunlitShare(table, 0, -1e5, -20)).toBe(1);
  });
});

function shoelace(polygon: readonly (readonly [number, number])[]): number {
  let sum = 0;
  polygon.forEach(([x, y], i) => {
    const [u, v] = polygon[(i + 1) % polygon.length];
    sum += x * v - u * y;
  });
  return sum / 2;
}

/** Part of a polygon with a·x + b·y ≤ c. */
function cut(
  polygon: readonly (readonly [number, number])[],
  a: number,
  b: number,
  c: number,
): [number, number][] {
  const kept: [number, number][] = [];
  polygon.forEach(([x, y], i) => {
    const [u, v] = polygon[(i + 1) % polygon.length];
    const p = a * x + b * y - c;
    const q = a * u + b * v - c;
    if (p <= 0) kept.push([x, y]);
    if (p < 0 !== q < 0) kept.push([x + (p / (p - q)) * (u - x), y + (p / (p - q)) * (v - y)]);
  });
  return kept;
}

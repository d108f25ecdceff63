import { sunSteps } from '@sunlap/engine/season/sun-steps';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import type { Outline } from '@sunlap/project/schema/pool';
import type { Project } from '@sunlap/project/schema/project';
import type { YardObstacle } from '@sunlap/project/schema/season';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { outlineArea_m2 } from '../../src/assembly/pool-size';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { seasonCalendar } from '../../src/season/calendar';
import { seenBeside, sun, yearCarpet } from '../../src/sun/sun';
import { obstacleLosses } from '../../src/yard/obstacle-loss';
import { outlinePoints } from '../../src/yard/outline';
import { shadeTables, yardScene } from '../../src/yard/scene';
import { shadowOf, WATER_PLANE } from '../../src/yard/shadows';

const base = startProject({ ...usualAnswers('metric', 40), tubes: 12, passes: 2 });
const all = new Array<boolean>(12).fill(true);

function withYard(obstacles: YardObstacle[], over: Partial<Project> = {}): Project {
  return { ...base, ...over, yard: { obstacles } };
}

const tree: YardObstacle = {
  kind: 'tree',
  id: 'pear',
  name: 'the pear tree',
  x_m: 1,
  y_m: -6,
  ground_m: 0,
  height_m: 8,
  crownRadius_m: 2.5,
  crownBase_m: 2,
  trunkRadius_m: 0.2,
  leafTransmittance: 0.1,
  bareTransmittance: 0.6,
  leafMonths: all.map((_, m) => m > 2 && m < 10),
};
const wall: Extract<YardObstacle, { kind: 'prism' }> = {
  kind: 'prism',
  id: 'wall',
  what: 'wall',
  footprint: [
    [-60, -4],
    [60, -4],
    [60, -3.8],
    [-60, -3.8],
  ],
  base_m: 0,
  top_m: 3,
};

function area(points: readonly (readonly [number, number, ...number[]])[]): number {
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [u, v] = points[(i + 1) % points.length];
    twice += x * v - u * y;
  });
  return Math.abs(twice) / 2;
}

describe('outline of the water', () => {
  it.each<Outline>([
    { kind: 'rectangle', x_m: 3, y_m: -2, length_m: 9, width_m: 4, turn_deg: 33 },
    { kind: 'round', x_m: 0, y_m: 0, diameter_m: 6 },
    { kind: 'oval', x_m: 1, y_m: 1, length_m: 8, width_m: 4, turn_deg: 120 },
    { kind: 'L', x_m: 0, y_m: 0, length_m: 10, width_m: 6, cutLength_m: 4, cutWidth_m: 2.5 },
    { kind: 'L', x_m: 0, y_m: 0, length_m: 10, width_m: 6, cutLength_m: 4, cutWidth_m: 2.5, mirrored: true },
    {
      kind: 'polygon',
      points: [
        [0, 0],
        [7, 0],
        [5, 4],
        [1, 5],
      ],
    },
  ])('keeps its area: $kind', (outline) => {
    expect(area(outlinePoints(outline)) / outlineArea_m2(outline)).toBeCloseTo(1, 9);
  });

  it('mirrors an L: the north-west corner is out in place of the north-east one', () => {
    const plain: Outline = {
      kind: 'L',
      x_m: 0,
      y_m: 0,
      length_m: 10,
      width_m: 6,
      cutLength_m: 4,
      cutWidth_m: 2.5,
    };
    const key = (points: readonly (readonly [number, number])[]) =>
      points.map(([x, y]) => `${x} ${y}`).sort();
    const mirror = outlinePoints({ ...plain, mirrored: true });
    expect(key(mirror)).toEqual(key(outlinePoints(plain).map(([x, y]) => [-x, y] as const)));
    expect(mirror).toContainEqual([-1, 0.5]);
    expect(outlinePoints({ ...plain, mirrored: false })).toEqual(outlinePoints(plain));
  });

  it('turns clockwise', () => {
    const [corner] = outlinePoints({
      kind: 'rectangle',
      x_m: 0,
      y_m: 0,
      length_m: 8,
      width_m: 4,
      turn_deg: 90,
    });
    // the south-west corner comes to the north-west
    expect(corner[0]).toBeCloseTo(-2, 9);
    expect(corner[1]).toBeCloseTo(4, 9);
  });
});

describe('shadows', () => {
  // Closed form: a wall of height h throws a shadow of h/tan(elevation) away from the sun.
  it('of a wall is h/tan(elevation) long', () => {
    const solid = {
      kind: 'prism' as const,
      footprint: wall.kind === 'prism' ? wall.footprint : [],
      base_m: 0,
      top_m: 3,
    };
    for (const zenith of [30, 55, 75]) {
      const [patch] = shadowOf(solid, WATER_PLANE, zenith, 180, 6);
      const reach = Math.max(...patch.corners.map((p) => p[1]));
      expect(reach).toBeCloseTo(-3.8 + 3 * Math.tan((zenith * Math.PI) / 180), 9);
      for (const p of patch.corners) expect(p[2]).toBeCloseTo(0, 9);
    }
    expect(shadowOf(solid, WATER_PLANE, 95, 180, 6)).toEqual([]);
  });

  // Closed form: an ellipsoid's shadow on the level is an ellipse π·a·√(a² + (b·tan z)²).
  it('of a crown is the ellipse of its outline, thinner when bare', () => {
    const scene = yardScene(withYard([tree]), STANDARD_TABLES);
    const solid = scene.obstacles[0].solid;
    for (const zenith of [20, 50]) {
      const patches = shadowOf(solid, WATER_PLANE, zenith, 140, 6);
      const crown = patches[patches.length - 1];
      const [a, b] = [2.5, 3];
      const expected = Math.PI * a * Math.hypot(a, b * Math.tan((zenith * Math.PI) / 180));
      // 36 corners inside an ellipse keep sin(t)/t of its area, t = 2π/36
      const kept = Math.sin(Math.PI / 18) / (Math.PI / 18);
      expect(area(crown.corners) / expected).toBeCloseTo(kept, 9);
      expect(crown.passes).toBe(0.1);
      expect(shadowOf(solid, WATER_PLANE, zenith, 140, 0).at(-1)?.passes).toBe(0.6);
    }
  });

  it('on a tilted panel lies in its plane, and what is behind it throws none', () => {
    const behind: YardObstacle = { ...tree, id: 'behind', x_m: 0, y_m: 60 };
    const { result } = sun(withYard([tree, behind]), '2026-06-21T10:00');
    const scene = yardScene(withYard([tree]), STANDARD_TABLES);
    const [o, u, , v] = scene.parts[0].corners;
    const normal = [
      (u[1] - o[1]) * (v[2] - o[2]) - (u[2] - o[2]) * (v[1] - o[1]),
      (u[2] - o[2]) * (v[0] - o[0]) - (u[0] - o[0]) * (v[2] - o[2]),
      (u[0] - o[0]) * (v[1] - o[1]) - (u[1] - o[1]) * (v[0] - o[0]),
    ];
    for (const patch of result.shadows[0].onParts[0])
      for (const p of patch.corners)
        expect(normal[0] * (p[0] - o[0]) + normal[1] * (p[1] - o[1]) + normal[2] * (p[2] - o[2])).toBeCloseTo(
          0,
          6,
        );
    // the far tree stands behind the plane, which rises to the north: only its top may reach over it
    expect(result.shadows[1].onParts[0].length).toBeLessThanOrEqual(2);
  });
});

describe('sun and shares', () => {
  it('a long wall south of the pool shades the strip of the closed form', () => {
    const project = withYard([wall]);
    const { result } = sun(project, '2026-12-21T12:30');
    const pool = outlinePoints(project.pool.outline);
    const [south, north] = [Math.min(...pool.map((p) => p[1])), Math.max(...pool.map((p) => p[1]))];
    // along the sun's azimuth the shadow runs h/tan(el); across the wall its part cos(az − 180)
    const reach =
      -3.8 +
      (3 / Math.tan((result.elevation_deg * Math.PI) / 180)) *
        Math.cos(((result.azimuth_deg - 180) * Math.PI) / 180);
    const share = Math.min(1, Math.max(0, (north - reach) / (north - south)));
    // ray grid and the table's straight lines over 4° × 3°
    expect(Math.abs(result.pool.sunlit - share)).toBeLessThan(0.06);
  });

  it('without anything in the yard all is sunlit while the sun is up', () => {
    const noon = sun(base, '2026-04-12T13:00').result;
    expect([noon.pool.sunlit, noon.collector.sunlit, noon.pool.sky]).toEqual([1, 1, 1]);
    const night = sun(base, '2026-04-12T23:30').result;
    expect([night.pool.sunlit, night.up, night.poleShadow_m, night.shadows.length]).toEqual([
      0,
      false,
      null,
      0,
    ]);
    expect(noon.sunrise! < noon.noon && noon.noon < noon.sunset!).toBe(true);
  });

  it('the carpet has a row a day, night apart from shade, and agrees with the sun of a moment', () => {
    const project = withYard([tree, wall]);
    const carpet = yearCarpet(project, 2026, 1);
    expect(carpet.pool).toHaveLength(365 * 24);
    const up = carpet.pool.reduce((n, v) => n + (v >= 0 ? 1 : 0), 0) / 24;
    // half of the year is day, and refraction adds a little
    expect(up / 365).toBeGreaterThan(0.49);
    expect(up / 365).toBeLessThan(0.52);
    // 10:30 standard time is 11:30 by the clock in July
    const d = Math.round((Date.UTC(2026, 6, 10) - Date.UTC(2026, 0, 1)) / 86_400_000);
    const now = sun(project, '2026-07-10T11:30').result;
    expect(carpet.pool[d * 24 + 10]).toBeCloseTo(now.pool.sunlit, 2);
    const seen = seenBeside(
      { ...project, yard: { ...project.yard!, seenSunlit: [{ of: 'pool', month: 12, share: 0.5 }] } },
      carpet,
    );
    expect(seen[0].seen).toBe(0.5);
    expect(seen[0].computed).toBeGreaterThan(0);
    expect(seen[0].computed).toBeLessThan(0.6);
  });

  // Invariant: one collector, one share. Parts of different size count by their area in both answers.
  it('the carpet weighs the parts of the collector as the sun of a moment does', () => {
    const [first] = base.collector.sections;
    const small = {
      ...first,
      id: 'small',
      banks: first.banks.slice(0, 1).map((b) => ({ ...b, id: 'small-1' })),
    };
    const low: YardObstacle = {
      ...wall,
      footprint: [
        [-8, 5],
        [8, 5],
        [8, 5.1],
        [-8, 5.1],
      ],
      top_m: 1.6,
    };
    const project = withYard([low], {
      collector: { ...base.collector, sections: [first, small] },
    });
    const shade = new Map();
    const carpet = yearCarpet(project, 2026, 1, 24, { shade });
    const d = Math.round((Date.UTC(2026, 1, 10) - Date.UTC(2026, 0, 1)) / 86_400_000);
    let apart = 0;
    for (let h = 9; h < 17; h++) {
      const now = sun(project, `2026-02-10T${String(h).padStart(2, '0')}:30`, { shade }).result;
      const [a, b] = now.parts;
      apart = Math.max(apart, Math.abs(a.sunlit - b.sunlit));
      // sun of days carried along straight lines against the ephemeris
      expect(Math.abs(carpet.collector[d * 24 + h] - now.collector.sunlit)).toBeLessThan(0.01);
    }
    expect(apart).toBeGreaterThan(0.1);
  });

  // Almanac-free: the same sunrise, whenever on the day of the change it is asked for.
  it('tells sunrise by the clock that hangs there then, on the day the clock is changed', () => {
    const denver: Project = {
      ...base,
      site: { ...base.site, latitude_deg: 39.7, longitude_deg: -105, timeZone: 'America/Denver' },
    };
    const at = (time: string) => sun(denver, `2026-11-01T${time}`).result;
    expect(at('01:30').sunrise).toBe('06:30');
    expect(at('12:00').sunrise).toBe('06:30');
    expect(at('00:10').sunset).toBe(at('20:00').sunset);
    expect(sun(denver, '2026-03-08T00:30').result.noon).toBe(sun(denver, '2026-03-08T12:00').result.noon);
  });

  it('what each thing costs in sun is never negative, and a tree costs less when bare', () => {
    const project = withYard([tree, { ...tree, id: 'far', name: 'far', x_m: 60, y_m: 60 }]);
    const months = Array.from({ length: 12 }, () => ({ high_C: 22, low_C: 12, sunshine_h: 7 }));
    const { series } = synthesiseYear({ name: 'x', place: project.site, utcOffset_h: 1, months });
    const scene = yardScene(project, STANDARD_TABLES);
    const tables = shadeTables(scene, new Map());
    const areas = { pool: 32, collector: 20 };
    const losses = obstacleLosses(
      project,
      series,
      sunSteps(series),
      seasonCalendar(series),
      scene,
      tables,
      areas,
    );
    expect(losses[0].year_kWh.pool).toBeGreaterThan(10 * Math.max(1e-9, losses[1].year_kWh.pool));
    for (const loss of losses)
      for (const kWh of [...loss.pool_kWh, ...loss.collector_kWh]) expect(kWh).toBeGreaterThan(-1e-9);
    // the same sun in March (bare) and in October's neighbour September (leaves): more is lost with leaves
    expect(losses[0].pool_kWh[8]).toBeGreaterThan(losses[0].pool_kWh[2]);
  });

  it('names what has no body and leaves it out', () => {
    const flat: YardObstacle = {
      ...(wall as Extract<YardObstacle, { kind: 'prism' }>),
      id: 'flat',
      top_m: 0,
    };
    const { notices, result } = sun(withYard([flat]), '2026-06-01T12:00');
    expect(notices[0].code).toBe('yard-no-body');
    expect(result.shadows).toEqual([]);
  });
});

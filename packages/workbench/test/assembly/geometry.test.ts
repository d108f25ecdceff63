import { describe, expect, it } from 'vitest';
import { sectionAxes } from '../../src/assembly/frame';
import { panelGeometry } from '../../src/assembly/geometry';
import { collector, section, TEST_TABLES, tubes } from '../fixtures';

const sizes = TEST_TABLES.sizes;

describe('panel geometry', () => {
  it('lays tubes on the contour level, and successive tubes up the slope', () => {
    // facing south at 30°: u = east, v = north and up
    const g = panelGeometry(
      collector([section('a')], undefined, {
        placement: { x_m: 1, y_m: 2, facing_deg: 180, tilt_deg: 30, lowestHeight_m: 0.5, mounting: 'rack' },
      }),
      sizes,
    );
    const [first, second] = g.banks[0].units;
    expect(first.far.height_m - first.near.height_m).toBe(0);
    expect(first.far.x_m - first.near.x_m).toBeCloseTo(6, 12);
    expect(first.far.y_m).toBeCloseTo(first.near.y_m, 12);
    expect(second.near.height_m - first.near.height_m).toBeCloseTo(0.07 * 0.5, 12);
    expect(second.near.y_m - first.near.y_m).toBeCloseTo(0.07 * Math.cos(Math.PI / 6), 12);
    // depth over the backing is at right angles to the plane
    expect(first.near.height_m - 0.5).toBeCloseTo(0.03 * Math.cos(Math.PI / 6), 12);
  });

  it('turns round with the facing: north-facing, right seen from below is west', () => {
    const g = panelGeometry(
      collector([section('a', { direction: 'slope' })], undefined, {
        placement: { x_m: 0, y_m: 0, facing_deg: 0, tilt_deg: 90, lowestHeight_m: 0, mounting: 'rack' },
      }),
      sizes,
    );
    const [first, second] = g.banks[0].units;
    expect(second.near.x_m - first.near.x_m).toBeCloseTo(-0.07, 12);
    expect(first.far.height_m - first.near.height_m).toBeCloseTo(6, 12);
  });

  it('counts across to the right or up, whatever the angle', () => {
    expect(sectionAxes('contour')).toMatchObject({ alongU: 1, alongV: 0, acrossU: 0, acrossV: 1 });
    expect(sectionAxes('slope')).toMatchObject({ alongU: 0, alongV: 1, acrossU: 1, acrossV: 0 });
    for (let angle = -179; angle <= 180; angle += 7) {
      const a = sectionAxes('angle', angle);
      expect(a.acrossU + a.acrossV).toBeGreaterThanOrEqual(-1e-12);
      expect(a.alongU * a.acrossU + a.alongV * a.acrossV).toBeCloseTo(0, 12);
    }
  });

  it('alternates the header sides from bank to bank and follows the joined ends', () => {
    const s = section('a', {
      inletEnds: ['last'],
      outletEnds: ['last'],
      banks: [tubes('a1'), tubes('a2', { across_m: 0.8 }), tubes('a3', { across_m: 1.6 })],
      handovers: [{ joins: [{ from: 'first', to: 'first' }] }, { joins: [{ from: 'first', to: 'last' }] }],
    });
    const { banks, sections } = panelGeometry(collector([s]), sizes);
    expect(banks.map((b) => b.supply!.side)).toEqual(['near', 'far', 'near']);
    expect(banks.map((b) => b.gather!.side)).toEqual(['far', 'near', 'far']);
    expect(banks.map((b) => b.ends.countedFromLast)).toEqual([true, false, true]);
    expect(banks[0].units[9].number).toBe(1);
    expect(sections[0].handovers[0][0].distance_m).toBeCloseTo(0.8, 12);
  });

  it('gives header centre lines half a header and 1/16 in beyond the tube ends', () => {
    const bank = panelGeometry(collector([section('a')]), sizes).banks[0];
    expect(bank.headerDistance_m).toBeCloseTo(6 + 0.04826 + 2 * 0.0015875, 9);
    expect(bank.supply!.length_m).toBeCloseTo(10 * 0.07, 12);
    const litres = bank.volume_m3 * 1000;
    // 60 m of 15.8 mm and 1.4 m of 40.9 mm bore
    expect(litres).toBeCloseTo((Math.PI / 4) * (60 * 0.0158 ** 2 + 1.4 * 0.0409 ** 2) * 1000, 9);
  });

  it('adds falls by lowering, signed in the direction of flow', () => {
    const s = section('a', { banks: [tubes('a1', { fall_mPerM: 0.01, headerFall_mPerM: 0.02 })] });
    const bank = panelGeometry(collector([s], undefined, { placement: flat }), sizes).banks[0];
    expect(bank.units[0].fall_m).toBeCloseTo(0.06, 12);
    expect(bank.units[0].near.height_m - bank.units[9].near.height_m).toBeCloseTo(9 * 0.07 * 0.02, 12);
    const turned = panelGeometry(
      collector([{ ...s, inletSide: 'far' }], undefined, { placement: flat }),
      sizes,
    );
    expect(turned.banks[0].units[0].fall_m).toBeCloseTo(-0.06, 12);
  });
});

const flat = { x_m: 0, y_m: 0, facing_deg: 180, tilt_deg: 0, lowestHeight_m: 1, mounting: 'rack' } as const;
const inch = 0.0254;

/** 1 × 1/2 tees at their least pitch, banks shifted by an equal share of it. */
function nested(count: number, depths: number[] = []) {
  const pitch = 2.715 * inch;
  const banks = Array.from({ length: count }, (_, k) =>
    tubes(`n${k}`, {
      across_m: (k * pitch) / count,
      depth_m: depths[k] ?? 0.03,
      pitch_m: pitch,
      supply: { pipe: 'one' },
      gather: { pipe: 'one' },
    }),
  );
  return panelGeometry(collector([section('a', { banks, handovers: [] })]), sizes);
}

describe('real neighbours of nested banks', () => {
  it('finds 0.905 in between axes for three banks: tubes of 0.84 in fit; four do not', () => {
    const three = nested(3).banks[1].units[4].neighbours!;
    expect(three.left!.distance_m / inch).toBeCloseTo(0.905, 3);
    expect(three.right!.distance_m / inch).toBeCloseTo(0.905, 3);
    expect(three.right!.distance_m).toBeGreaterThan(0.84 * inch);
    expect(nested(4).banks[1].units[4].neighbours!.left!.distance_m).toBeLessThan(0.84 * inch);
  });

  it('orders by place, not by bank', () => {
    const g = nested(3);
    const order = (bank: number, tube: number) => g.banks[bank].units[tube].neighbours!.order;
    expect([order(0, 0), order(1, 0), order(2, 0), order(0, 1)]).toEqual([0, 1, 2, 3]);
    expect(g.banks[0].units[0].neighbours!.left).toBeNull();
    expect(g.banks[2].units[9].neighbours!.right).toBeNull();
  });

  it('measures straight between axes at different depths', () => {
    const left = nested(3, [0.03, 0.05, 0.03]).banks[1].units[4].neighbours!.left!;
    expect(left.depth_m).toBeCloseTo(-0.02, 12);
    expect(left.distance_m).toBeCloseTo(Math.hypot((2.715 / 3) * inch, 0.02), 9);
  });

  it('looks beyond the section: rows of two sections side by side are neighbours, end to end they are not', () => {
    const beside = panelGeometry(collector([section('a'), section('b', { v_m: 0.75 })]), sizes);
    expect(beside.banks[0].units[9].neighbours!.right!.sideways_m).toBeCloseTo(0.12, 9);
    const behind = panelGeometry(collector([section('a'), section('b', { u_m: 7 })]), sizes);
    expect(behind.banks[0].units[9].neighbours!.right).toBeNull();
  });
});

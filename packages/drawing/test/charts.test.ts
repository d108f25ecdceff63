import { describe, expect, it } from 'vitest';
import { compassRose } from '../src/compassRose';
import { arrowHead, dimension } from '../src/dimension';
import { DARK, LIGHT, PRINT } from '../src/palette';
import { pumpPlot } from '../src/pumpPlot';
import { sideView } from '../src/sideView';
import { toSvg } from '../src/svg';

const curve = (h0: number, k: number) =>
  Array.from({ length: 9 }, (_, i) => ({ flow_m3s: i * 0.0006, head_m: h0 + k * (i * 0.0006) ** 2 }));

const plot = {
  pump: curve(16, -5e5),
  through: curve(0, 2e6),
  now: curve(0, 1.5e6),
  past: curve(0, 6e5),
  operating: { flow_m3s: 0.00283, head_m: 12 },
};
const plotFrame = {
  width: 320,
  height: 240,
  flowText: (v: number) => (v * 60000).toFixed(0),
  headText: (v: number) => v.toFixed(0),
  flowUnit_m3s: 1 / 60000,
  headUnit_m: 1,
  words: { pump: 'pump', through: 'through', now: 'now', past: 'past', flow: 'L/min', head: 'm' },
};

describe('pumpPlot', () => {
  it('draws four curves and where they meet', () => {
    const { items, anchors } = pumpPlot(plot, plotFrame);
    expect(items.filter((i) => i.kind === 'polyline' && i.layer === 'built')).toHaveLength(4);
    expect(anchors[0].id).toBe('operating');
  });

  it('puts more flow further right and more head further up', () => {
    const at = (flow_m3s: number, head_m: number) =>
      pumpPlot({ ...plot, operating: { flow_m3s, head_m } }, plotFrame).anchors[0];
    expect(at(0.003, 12).x).toBeGreaterThan(at(0.002, 12).x);
    expect(at(0.003, 14).y).toBeLessThan(at(0.003, 12).y);
  });

  it('survives a pump that stands still', () => {
    const { items } = pumpPlot(
      { pump: [], through: [], now: [], past: [], operating: { flow_m3s: 0, head_m: 0 } },
      plotFrame,
    );
    expect(JSON.stringify(items)).not.toContain('null');
  });

  it('looks as it did', () => {
    const { items } = pumpPlot(plot, plotFrame);
    expect(
      toSvg(items, { width: 320, height: 240, palette: DARK, title: 'Pump', description: 'Curves' }),
    ).toMatchSnapshot();
  });
});

describe('dimension', () => {
  it('leaves the line open where the value stands', () => {
    const { items, anchors } = dimension({
      from: [0, 100],
      to: [200, 100],
      offset: 30,
      gap: 60,
      id: 'length',
    });
    const along = items.filter((i) => i.kind === 'line' && i.from[1] === 70 && i.to[1] === 70);
    expect(along).toHaveLength(2);
    expect(anchors).toEqual([{ id: 'length', x: 100, y: 70 }]);
  });

  it('stands left of the way it is measured', () => {
    const up = dimension({ from: [50, 100], to: [50, 0], offset: 20, id: 'count' });
    expect(up.anchors[0].x).toBe(30);
  });

  it('draws nothing for no length', () => {
    expect(dimension({ from: [5, 5], to: [5, 5], offset: 10 })).toEqual({ items: [], anchors: [] });
  });

  it('points an arrow along its direction', () => {
    const head = arrowHead([10, 0], [3, 0], 6);
    if (head.kind !== 'polyline') throw new Error('an arrow head is a polygon');
    expect(head.points[0]).toEqual([10, 0]);
    expect(head.points[1][0]).toBeCloseTo(4, 12);
  });
});

describe('side view and compass', () => {
  const side = (change = {}) =>
    sideView(
      { tilt_deg: 30, reach_m: 3, lowestHeight_m: 0.5, mounting: 'rack', sun_deg: 60, ...change },
      { width: 240, height: 140, words: { water: 'pool' } },
    );

  it('draws the panel at its tilt', () => {
    const panel = side().items.find((i) => i.kind === 'line' && i.width === 4.5);
    if (panel?.kind !== 'line') throw new Error('no panel');
    const rise = panel.from[1] - panel.to[1];
    const run = panel.to[0] - panel.from[0];
    expect((Math.atan2(rise, run) * 180) / Math.PI).toBeCloseTo(30, 9);
  });

  it('leaves the sun out at night', () => {
    expect(side({ sun_deg: null }).items.length).toBeLessThan(side().items.length);
  });

  it('looks as it did', () => {
    const rose = compassRose({ facing_deg: 135, sunAzimuth_deg: 200 }, 130);
    expect(
      toSvg(rose.items, { width: 130, height: 130, palette: PRINT, title: 'Compass', description: 'SE' }),
    ).toMatchSnapshot();
    expect(
      toSvg(side().items, { width: 240, height: 140, palette: LIGHT, title: 'Side', description: '30°' }),
    ).toMatchSnapshot();
  });
});

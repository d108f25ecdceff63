import { hermite, monotoneSlopes } from '@sunlap/engine/numeric/interpolation';
import { max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { arrowHead } from './dimension';
import type { Item, Point, Sheet } from './display';
import type { Ink } from './palette';

export interface PlotPoint {
  flow_m3s: number;
  head_m: number;
}

export interface PumpPlotInput {
  pump: readonly PlotPoint[];
  through: readonly PlotPoint[];
  now: readonly PlotPoint[];
  past: readonly PlotPoint[];
  operating: PlotPoint;
  ghost?: { pump: readonly PlotPoint[]; operating: PlotPoint };
}

export interface PumpPlotFrame {
  width: number;
  height: number;
  flowText(flow_m3s: number): string;
  headText(head_m: number): string;
  flowUnit_m3s: number;
  headUnit_m: number;
  words: { pump: string; through: string; now: string; past: string; flow: string; head: string };
}

/** The same points with more between them, so that a curve looks like one; never over or under its neighbours. */
function smooth(points: readonly PlotPoint[]): PlotPoint[] {
  const rising = points.every((p, i) => i === 0 || p.flow_m3s > points[i - 1].flow_m3s);
  if (points.length < 3 || !rising) return [...points];
  const xs = points.map((p) => p.flow_m3s);
  const ys = points.map((p) => p.head_m);
  const slopes = monotoneSlopes(xs, ys);
  const out: PlotPoint[] = [];
  const each = Math.max(1, Math.ceil(60 / points.length));
  const at = { value: 0, slope: 0 };
  for (let i = 0; i + 1 < xs.length; i++)
    for (let k = 0; k < each; k++) {
      const flow_m3s = xs[i] + ((xs[i + 1] - xs[i]) * k) / each;
      hermite(flow_m3s, xs[i], xs[i + 1], ys[i], ys[i + 1], slopes[i], slopes[i + 1], at);
      out.push({ flow_m3s, head_m: at.value });
    }
  out.push(points[points.length - 1]);
  return out;
}

/** The pump's curve against the loop with the collector in, as the valve stands, and out. */
export function pumpPlot(input: PumpPlotInput, frame: PumpPlotFrame): Sheet {
  const m = { left: 50, right: 14, top: 24, bottom: 36 };
  const items: Item[] = [];
  const mostFlow = (max(input.pump, (p) => p.flow_m3s) ?? 0) || 0.001;
  const mostHead = (max(input.pump, (p) => p.head_m) ?? 0) || 1;
  const x = scaleLinear([0, mostFlow * 1.02], [m.left, frame.width - m.right]);
  const y = scaleLinear([0, mostHead * 1.12], [frame.height - m.bottom, m.top]);
  const [x0, x1] = [m.left, frame.width - m.right];
  const [y0, y1] = [frame.height - m.bottom, m.top];
  for (const t of scaleLinear()
    .domain([0, (mostHead * 1.12) / frame.headUnit_m])
    .ticks(Math.max(3, (y0 - y1) / 40)))
    items.push(
      {
        kind: 'line',
        layer: 'grid',
        from: [x0, y(t * frame.headUnit_m)],
        to: [x1, y(t * frame.headUnit_m)],
        ink: 'hair',
        width: 0.7,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [x0 - 7, y(t * frame.headUnit_m) + 4],
        text: frame.headText(t * frame.headUnit_m),
        size: 11,
        ink: 'soft',
        anchor: 'end',
      },
    );
  for (const t of scaleLinear()
    .domain([0, mostFlow / frame.flowUnit_m3s])
    .ticks(Math.max(3, (x1 - x0) / 60)))
    items.push(
      {
        kind: 'line',
        layer: 'grid',
        from: [x(t * frame.flowUnit_m3s), y0],
        to: [x(t * frame.flowUnit_m3s), y0 + 5],
        ink: 'soft',
        width: 0.9,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [x(t * frame.flowUnit_m3s), y0 + 18],
        text: frame.flowText(t * frame.flowUnit_m3s),
        size: 11,
        ink: 'soft',
        anchor: 'middle',
      },
    );
  items.push(
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x1, y0], ink: 'ink', width: 1.1 },
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x0, y1 - 4], ink: 'ink', width: 1.1 },
    {
      kind: 'text',
      layer: 'text',
      at: [x1, y0 + 32],
      text: frame.words.flow,
      size: 11,
      ink: 'soft',
      anchor: 'end',
    },
    { kind: 'text', layer: 'text', at: [x0 - 42, y1 - 10], text: frame.words.head, size: 11, ink: 'soft' },
  );
  const within = (points: readonly PlotPoint[]): Point[] =>
    points
      .filter((p) => p.flow_m3s <= mostFlow * 1.02 && p.head_m <= mostHead * 1.12)
      .map((p): Point => [x(p.flow_m3s), y(p.head_m)]);
  const inside = (points: readonly PlotPoint[]): Point[] => within(smooth(points));
  const curve = (points: Point[], width: number, dash?: readonly number[], ink: Ink = 'ink'): Item[] =>
    points.length < 2
      ? []
      : [{ kind: 'polyline', layer: 'built', points, ink, width, ...(dash === undefined ? {} : { dash }) }];
  const [through, past, now, pump] = [input.through, input.past, input.now, input.pump].map(inside);
  if (input.ghost !== undefined) {
    items.push(...curve(inside(input.ghost.pump), 1.2, [5, 4], 'soft'));
    items.push({
      kind: 'circle',
      layer: 'ghost',
      centre: [x(input.ghost.operating.flow_m3s), y(input.ghost.operating.head_m)],
      radius: 6,
      ink: 'soft',
      width: 1.2,
      dash: [3, 3],
    });
  }
  items.push(
    ...curve(past, 1.1, [1.5, 4]),
    ...curve(through, 1.1, [7, 4]),
    ...curve(now, 1.6),
    ...curve(pump, 2.6),
  );
  const label = (
    points: Point[],
    text: string,
    place: number,
    dy: number,
    anchor: 'start' | 'end' = 'end',
  ): Item[] => {
    const p = points[Math.min(points.length - 1, Math.floor(points.length * place))];
    return p === undefined
      ? []
      : [
          {
            kind: 'text',
            layer: 'text',
            at: [p[0] + (anchor === 'end' ? -7 : 7), p[1] + dy],
            text,
            size: 11.5,
            ink: 'ink',
            anchor,
            halo: 'sheet',
          },
        ];
  };
  items.push(
    ...label(pump, frame.words.pump, 0.93, 17),
    ...label(through, frame.words.through, 0.97, 12),
    ...label(past, frame.words.past, 0.97, 4, 'start'),
  );
  const at: Point = [x(input.operating.flow_m3s), y(input.operating.head_m)];
  items.push(
    { kind: 'line', layer: 'dimension', from: at, to: [at[0], y0], ink: 'soft', width: 0.9 },
    { kind: 'line', layer: 'dimension', from: at, to: [x0, at[1]], ink: 'soft', width: 0.9 },
    arrowHead([at[0], y0], [0, 1], 7),
    arrowHead([x0, at[1]], [-1, 0], 7),
    { kind: 'circle', layer: 'flag', centre: at, radius: 5.5, ink: 'ink', width: 2, fill: 'sheet' },
  );
  return {
    width: frame.width,
    height: frame.height,
    items,
    anchors: [{ id: 'operating', x: at[0], y: at[1] }],
  };
}

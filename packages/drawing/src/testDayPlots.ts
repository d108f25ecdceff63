import { scaleLinear } from 'd3-scale';
import type { Item, Sheet } from './display';

/** A value with its interval [W]. */
export interface Span {
  low: number;
  value: number;
  high: number;
}

export interface Words {
  measured: string;
  expected: string;
}

export interface AgreementFrame {
  width: number;
  words: Words;
  /** One unit of the axis [W], and its name. */
  unit_W: number;
  unit: string;
}

const HEIGHT = 128;

/** A tick's number with a printed minus. */
const printed = (v: number): string => String(v).replace('-', '−');

/** The interval of what was measured over the band of what was expected, on one scale. */
export function agreementChart(measured: Span | null, expected: Span | null, frame: AgreementFrame): Sheet {
  const spans = [measured, expected].filter((s) => s !== null);
  const [low, high] = [Math.min(0, ...spans.map((s) => s.low)), Math.max(1, ...spans.map((s) => s.high))];
  const margin = { left: 14, right: 16 };
  const x = scaleLinear(
    [low / frame.unit_W, high / frame.unit_W],
    [margin.left, frame.width - margin.right],
  ).nice(5);
  const at = (w: number) => x(w / frame.unit_W);
  const items: Item[] = [];
  const axis = HEIGHT - 30;
  items.push({
    kind: 'line',
    layer: 'dimension',
    from: [margin.left, axis],
    to: [frame.width - margin.right, axis],
    ink: 'soft',
    width: 1,
  });
  const ticks = x.ticks(Math.max(2, Math.floor(frame.width / 110)));
  ticks.forEach((v, i) => {
    items.push(
      {
        kind: 'line',
        layer: 'dimension',
        from: [x(v), axis - 4],
        to: [x(v), axis + 4],
        ink: 'soft',
        width: 1,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [x(v), axis + 19],
        text: i === ticks.length - 1 ? `${printed(v)} ${frame.unit}` : printed(v),
        size: 12,
        ink: 'soft',
        anchor: i === ticks.length - 1 ? 'end' : i === 0 ? 'start' : 'middle',
      },
    );
  });
  if (expected !== null) {
    const [a, b] = [at(expected.low), at(expected.high)];
    items.push(
      {
        kind: 'polyline',
        layer: 'built',
        points: [
          [a, axis - 30],
          [b, axis - 30],
          [b, axis - 6],
          [a, axis - 6],
        ],
        closed: true,
        ink: 'ink',
        width: 1,
        fill: 'hair',
      },
      {
        kind: 'line',
        layer: 'flag',
        from: [at(expected.value), axis - 36],
        to: [at(expected.value), axis],
        ink: 'ink',
        width: 2.4,
      },
      inBand(a, b, at(expected.value), axis - 13.5, frame.words.expected),
    );
  }
  if (measured !== null) {
    const [a, b, m] = [at(measured.low), at(measured.high), at(measured.value)];
    const y = axis - 54;
    items.push(
      { kind: 'line', layer: 'flag', from: [a, y], to: [b, y], ink: 'ink', width: 2.4 },
      ...[a, b].map(
        (p): Item => ({
          kind: 'line',
          layer: 'flag',
          from: [p, y - 7],
          to: [p, y + 7],
          ink: 'ink',
          width: 2.4,
        }),
      ),
      { kind: 'circle', layer: 'flag', centre: [m, y], radius: 6, ink: 'ink', width: 2, fill: 'ink' },
      label(m, y - 15, frame.words.measured, frame.width, 'sheet'),
    );
  }
  return { width: frame.width, height: HEIGHT, items, anchors: [] };
}

/** Words in the roomier part of a band, beside its mark; over the band where neither part has room. */
function inBand(a: number, b: number, mark: number, y: number, text: string): Item {
  const room = 62;
  const common = {
    kind: 'text' as const,
    layer: 'text' as const,
    text,
    size: 12.5,
    weight: 550 as const,
    ink: 'ink' as const,
  };
  if (Math.max(mark - a, b - mark) < room)
    return { ...common, at: [b + 6, y], anchor: 'start', halo: 'sheet' };
  return mark - a > b - mark
    ? { ...common, at: [a + 7, y], anchor: 'start' }
    : { ...common, at: [b - 7, y], anchor: 'end' };
}

function label(x: number, y: number, text: string, width: number, halo: 'sheet' | 'hair'): Item {
  const anchor = x < 60 ? 'start' : x > width - 60 ? 'end' : 'middle';
  return { kind: 'text', layer: 'text', at: [x, y], text, size: 12.5, weight: 550, ink: 'ink', anchor, halo };
}

export interface LogPoint {
  id: string;
  /** As in the list beside the chart. */
  number: number;
  measured: Span;
  expected: Span;
}

export interface LogFrame extends AgreementFrame {
  height: number;
  /** The day that is looked at. */
  here: string | null;
  line: string;
}

/** Each day's measured heat over its expected one; on the line they are the same. */
export function logChart(points: readonly LogPoint[], frame: LogFrame): Sheet {
  const m = { left: 46, right: 18, top: 20, bottom: 44 };
  const top = Math.max(1, ...points.flatMap((p) => [p.measured.high, p.expected.high])) / frame.unit_W;
  const bottom = Math.min(0, ...points.flatMap((p) => [p.measured.low, p.expected.low])) / frame.unit_W;
  const x = scaleLinear([bottom, top], [m.left, frame.width - m.right]).nice(5);
  const y = scaleLinear(x.domain(), [frame.height - m.bottom, m.top]);
  const [x0, x1] = [m.left, frame.width - m.right];
  const [y0, y1] = [frame.height - m.bottom, m.top];
  const items: Item[] = [
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x1, y0], ink: 'ink', width: 1.1 },
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x0, y1], ink: 'ink', width: 1.1 },
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x1, y1], ink: 'soft', width: 1.2, dash: [6, 4] },
    {
      kind: 'text',
      layer: 'text',
      at: [x1 - 12, y1 + 30],
      text: frame.line,
      size: 12,
      ink: 'soft',
      anchor: 'end',
      halo: 'sheet',
    },
    {
      kind: 'text',
      layer: 'text',
      at: [x1, y0 + 36],
      text: `${frame.words.expected}, ${frame.unit}`,
      size: 12,
      ink: 'soft',
      anchor: 'end',
    },
    {
      kind: 'text',
      layer: 'text',
      at: [4, y1 - 6],
      text: `${frame.words.measured}, ${frame.unit}`,
      size: 12,
      ink: 'soft',
    },
  ];
  for (const v of x.ticks(5)) {
    items.push(
      { kind: 'line', layer: 'grid', from: [x0, y(v)], to: [x1, y(v)], ink: 'hair', width: 0.7 },
      {
        kind: 'text',
        layer: 'text',
        at: [x0 - 7, y(v) + 4],
        text: printed(v),
        size: 12,
        ink: 'soft',
        anchor: 'end',
      },
      {
        kind: 'text',
        layer: 'text',
        at: [x(v), y0 + 18],
        text: printed(v),
        size: 12,
        ink: 'soft',
        anchor: 'middle',
      },
    );
  }
  for (const p of points) {
    const at = (s: Span, scale: typeof x) => [s.low, s.value, s.high].map((w) => scale(w / frame.unit_W));
    const [xl, xm, xh] = at(p.expected, x);
    const [yl, ym, yh] = at(p.measured, y);
    const here = p.id === frame.here;
    items.push(
      { kind: 'line', layer: 'built', from: [xl, ym], to: [xh, ym], ink: here ? 'ink' : 'soft', width: 1.2 },
      { kind: 'line', layer: 'built', from: [xm, yl], to: [xm, yh], ink: here ? 'ink' : 'soft', width: 1.2 },
      {
        kind: 'circle',
        layer: 'flag',
        centre: [xm, ym],
        radius: here ? 7 : 5,
        ink: 'ink',
        width: 2,
        fill: here ? 'ink' : 'sheet',
      },
      {
        kind: 'text',
        layer: 'text',
        at: [xm + 10, ym - 9],
        text: String(p.number),
        size: 12,
        weight: 680,
        ink: 'ink',
        halo: 'sheet',
      },
    );
  }
  return { width: frame.width, height: frame.height, items, anchors: [] };
}

/** Runs of the pail as dots on a line, so that their spread is seen as they come. */
export function spreadChart(times_s: readonly number[], width: number): Sheet {
  const good = times_s.filter((v) => v > 0 && Number.isFinite(v));
  const mean = good.reduce((a, b) => a + b, 0) / (good.length || 1);
  const reach = Math.max(mean * 0.05, ...good.map((v) => Math.abs(v - mean))) * 1.25 || 1;
  const x = scaleLinear([mean - reach, mean + reach], [12, width - 12]);
  const items: Item[] = [
    { kind: 'line', layer: 'dimension', from: [12, 15], to: [width - 12, 15], ink: 'hair', width: 1.2 },
    { kind: 'line', layer: 'dimension', from: [x(mean), 4], to: [x(mean), 26], ink: 'ink', width: 1.4 },
    ...good.map(
      (v): Item => ({
        kind: 'circle',
        layer: 'flag',
        centre: [x(v), 15],
        radius: 5.5,
        ink: 'ink',
        width: 1.8,
        fill: 'sheet',
      }),
    ),
  ];
  return { width, height: 30, items, anchors: [] };
}

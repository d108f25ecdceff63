import { dimension } from './dimension';
import type { Item, Point, Sheet } from './display';
import type { Ink } from './palette';

/** Layers of a builder's drawing, in both SVG and DXF. */
export const BUILD_LAYERS = ['pipe', 'fitting', 'support', 'centre', 'dimension', 'text', 'waste'] as const;
export type BuildLayer = (typeof BUILD_LAYERS)[number];

interface OnLayer {
  layer: BuildLayer;
}

/** Plain geometry in metres, y up. Text sizes and distances of dimension lines are in paper units (1/760 of the width). */
export type BuildShape = OnLayer &
  (
    | { kind: 'line'; from: Point; to: Point; weight?: 'hair' | 'normal' | 'heavy'; dashed?: boolean }
    | {
        kind: 'polyline';
        points: readonly Point[];
        closed?: boolean;
        filled?: 'soft' | 'hatch';
        weight?: 'hair' | 'normal';
      }
    | { kind: 'circle'; centre: Point; radius_m: number; filled?: boolean }
    | {
        kind: 'text';
        at: Point;
        text: string;
        size?: number;
        anchor?: 'start' | 'middle' | 'end';
        turn_deg?: number;
        bold?: boolean;
      }
    | { kind: 'dimension'; from: Point; to: Point; offset: number; text: string }
  );

/** One drawing: its shapes and what they cover [m]. */
export interface BuildDrawing {
  readonly id: string;
  readonly title: string;
  /** Read aloud: says what the drawing says. */
  readonly description: string;
  readonly shapes: readonly BuildShape[];
  readonly box: { x0: number; y0: number; x1: number; y1: number };
  /** Width over height scale: 1 is true to scale; larger stretches across so that thin things can be seen. */
  readonly stretch: number;
}

/** Paper units across the sheet: printed across A4 one is about 0.7 pt, so that the smallest letters stay readable. */
export const PAPER_WIDTH = 760;

/** Metres of one paper unit along x. */
export function paperUnit_m(drawing: BuildDrawing, margin: number): number {
  return (drawing.box.x1 - drawing.box.x0) / (PAPER_WIDTH - 2 * margin);
}

/** Room for dimensions and texts beside the geometry, and above and under it, in paper units. */
export const MARGIN = 58;
const ABOVE = 58;
const BELOW = 30;

const WEIGHT = { hair: 0.8, normal: 1.4, heavy: 2.6 } as const;
const INK: Record<BuildLayer, Ink> = {
  pipe: 'ink',
  fitting: 'ink',
  support: 'soft',
  centre: 'soft',
  dimension: 'soft',
  text: 'ink',
  waste: 'soft',
};

/** The drawing on a sheet of 760 units' width, y down, ready for `svgNodes` and `toSvg`. */
export function buildSheet(drawing: BuildDrawing): Sheet {
  const { box, stretch } = drawing;
  const unit = paperUnit_m(drawing, MARGIN);
  const yScale = stretch / unit;
  const height = Math.max(40, (box.y1 - box.y0) * yScale) + ABOVE + BELOW;
  const at = ([x, y]: Point): Point => [MARGIN + (x - box.x0) / unit, ABOVE + (box.y1 - y) * yScale];
  const items: Item[] = [];
  for (const s of drawing.shapes) items.push(...shapeItems(s, at, unit));
  return { width: PAPER_WIDTH, height, items, anchors: [] };
}

function shapeItems(s: BuildShape, at: (p: Point) => Point, unit: number): Item[] {
  const ink = INK[s.layer];
  const layer = s.layer === 'dimension' ? 'dimension' : s.layer === 'text' ? 'text' : 'built';
  switch (s.kind) {
    case 'line':
      return [
        {
          kind: 'line',
          layer,
          from: at(s.from),
          to: at(s.to),
          ink,
          width: WEIGHT[s.weight ?? 'normal'],
          ...(s.dashed ? { dash: [7, 4] } : {}),
        },
      ];
    case 'polyline': {
      const points = s.points.map(at);
      const outline: Item = {
        kind: 'polyline',
        layer,
        points,
        closed: s.closed ?? false,
        ink,
        width: WEIGHT[s.weight ?? 'normal'],
        ...(s.filled === 'soft' ? { fill: 'grid' as const } : s.closed ? { fill: 'sheet' as const } : {}),
      };
      return s.filled === 'hatch' ? [outline, ...hatched(points)] : [outline];
    }
    case 'circle':
      return [
        {
          kind: 'circle',
          layer,
          centre: at(s.centre),
          radius: s.radius_m / unit,
          ink,
          width: WEIGHT.normal,
          fill: s.filled ? ink : 'sheet',
        },
      ];
    case 'text':
      return [
        {
          kind: 'text',
          layer: 'text',
          at: at(s.at),
          text: s.text,
          size: s.size ?? 12,
          ink,
          anchor: s.anchor ?? 'middle',
          weight: s.bold ? 680 : 400,
          halo: 'sheet',
          ...(s.turn_deg === undefined ? {} : { turn_deg: -s.turn_deg }),
        },
      ];
    case 'dimension': {
      const [from, to] = [at(s.from), at(s.to)];
      const gap = s.text.length * 6.6 + 8;
      const upright = Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]);
      if (!upright) return dimension({ from, to, offset: s.offset, gap, text: s.text }).items;
      // beside an upright line the letters run with it
      const x = (from[0] + to[0]) / 2 - s.offset * Math.sign(from[1] - to[1]);
      return [
        ...dimension({ from, to, offset: s.offset, gap }).items,
        {
          kind: 'text',
          layer: 'text',
          at: [x + 4, (from[1] + to[1]) / 2],
          text: s.text,
          size: 12.5,
          weight: 550,
          ink: 'ink',
          anchor: 'middle',
          halo: 'sheet',
          turn_deg: -90,
        },
      ];
    }
  }
}

/** 45° lines inside a rectangle. */
function hatched(points: readonly Point[]): Item[] {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const out: Item[] = [];
  const h = y1 - y0;
  for (let x = x0 + 5; x < x1 + h; x += 7) {
    const a = Math.min(x, x1);
    const b = Math.max(x - h, x0);
    if (a - b < 0.5) continue;
    out.push({
      kind: 'line',
      layer: 'built',
      from: [a, y0 + (x - a)],
      to: [b, y0 + (x - b)],
      ink: 'soft',
      width: 0.7,
    });
  }
  return out;
}

/** Axis-parallel rectangle. */
export function rectangle(x0: number, y0: number, x1: number, y1: number): Point[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

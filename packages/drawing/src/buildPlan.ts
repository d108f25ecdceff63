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
        /** On a plate of paper, where lines run behind it. */
        plate?: boolean;
      }
    | {
        kind: 'dimension';
        from: Point;
        to: Point;
        offset: number;
        text: string;
        /** Text behind the end of the line, where there is no room in it. */
        beside?: boolean;
      }
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

/** Room for dimensions and texts beside the geometry, in paper units. */
export const MARGIN = 58;
/** Paper left above and under whatever is drawn highest and lowest. */
const EDGE = 10;

/** A drawing that is taller than this is made smaller, so that it stays on one page. */
const MOST_HEIGHT = 880;

/** Metres of one paper unit across and up, for a drawing of a place: what letters need is told in units. */
export function paperScale(
  box: { x0: number; x1: number; y0?: number; y1?: number },
  stretch = 1,
): { x: number; y: number } {
  const tall = (((box.y1 ?? 0) - (box.y0 ?? 0)) * stretch) / MOST_HEIGHT;
  const x = Math.max((box.x1 - box.x0) / (PAPER_WIDTH - 2 * MARGIN), tall);
  return { x, y: x / stretch };
}

/** Width that letters need, in paper units; a little more than they do. */
export const textWidth = (text: string, size: number, bold = false): number =>
  Array.from(text).length * size * (bold ? 0.6 : 0.55);

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

/** The drawing on a sheet of 760 units' width and as high as it needs, y down, ready for `svgNodes` and `toSvg`. */
export function buildSheet(drawing: BuildDrawing): Sheet {
  const { box, stretch } = drawing;
  const { x: unit, y: unitUp } = paperScale(box, stretch);
  const left = (PAPER_WIDTH - (box.x1 - box.x0) / unit) / 2;
  const flat = ([x, y]: Point): Point => [left + (x - box.x0) / unit, -y / unitUp];
  const drawn = drawing.shapes.flatMap((s) => shapeItems(s, flat, unit));
  const [top, bottom] = drawn.reduce(
    ([a, b], item) => {
      const [low, high] = heightsOf(item);
      return [Math.min(a, low), Math.max(b, high)];
    },
    [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
  );
  if (!(bottom >= top)) return { width: PAPER_WIDTH, height: 40, items: [], anchors: [] };
  const down = EDGE - top;
  const at = ([x, y]: Point): Point => [flat([x, y])[0], flat([x, y])[1] + down];
  const items = drawing.shapes.flatMap((s) => shapeItems(s, at, unit));
  return { width: PAPER_WIDTH, height: Math.max(40, bottom - top + 2 * EDGE), items, anchors: [] };
}

/** From where to where an item reaches down the sheet. */
function heightsOf(item: Item): readonly [number, number] {
  switch (item.kind) {
    case 'text': {
      const { left, right, top, bottom } = textBox(item);
      return left < right ? [top, bottom] : [item.at[1], item.at[1]];
    }
    case 'circle':
      return [item.centre[1] - item.radius, item.centre[1] + item.radius];
    case 'line':
    case 'water':
      return [Math.min(item.from[1], item.to[1]), Math.max(item.from[1], item.to[1])];
    case 'polyline':
    case 'waterPath': {
      const ys = item.points.map((p) => p[1]);
      return [Math.min(...ys), Math.max(...ys)];
    }
  }
}

/** Where the letters of a text stand on the sheet, as far as that can be told without a font. */
export function textBox(item: Extract<Item, { kind: 'text' }>): {
  left: number;
  right: number;
  top: number;
  bottom: number;
} {
  const wide = textWidth(item.text, item.size, (item.weight ?? 400) > 500);
  const before = item.anchor === 'start' ? 0 : item.anchor === 'end' ? wide : wide / 2;
  const [x, y] = item.at;
  const [up, down] = [item.size * 0.75, item.size * 0.2];
  switch (Math.round(item.turn_deg ?? 0)) {
    case 0:
      return { left: x - before, right: x - before + wide, top: y - up, bottom: y + down };
    // letters that run upwards
    case -90:
      return { left: x - up, right: x + down, top: y + before - wide, bottom: y + before };
    default:
      return { left: x - down, right: x + up, top: y - before, bottom: y - before + wide };
  }
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
    case 'text': {
      const text: Extract<Item, { kind: 'text' }> = {
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
      };
      return s.plate ? [plateOf(text), text] : [text];
    }
    case 'dimension': {
      const [from, to] = [at(s.from), at(s.to)];
      const gap = textWidth(s.text, 12.5, true) + 8;
      if (s.beside) {
        const across = s.offset * Math.sign(to[0] - from[0]);
        return [
          ...dimension({ from, to, offset: s.offset }).items,
          {
            kind: 'text',
            layer: 'text',
            at: [Math.max(from[0], to[0]) + 10, to[1] - across + 4],
            text: s.text,
            size: 12.5,
            weight: 550,
            ink: 'ink',
            anchor: 'start',
            halo: 'sheet',
          },
        ];
      }
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

/** Paper under a text. */
function plateOf(text: Extract<Item, { kind: 'text' }>): Item {
  const { left, right, top, bottom } = textBox(text);
  return {
    kind: 'polyline',
    layer: 'text',
    closed: true,
    points: rectangle(left - 4, top - 2, right + 4, bottom + 2),
    ink: 'sheet',
    width: 0,
    fill: 'sheet',
  };
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

import type { Obstacle, PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import { arrowHead, dimension } from './dimension';
import type { Anchor, Item, Point, Sheet } from './display';
import { clipConvex, LEVEL, planeOf, planShadows, type ShadowPlane } from './yardShadow';

export interface YardThing {
  readonly id: string;
  readonly name: string;
  readonly solid: Obstacle;
}

/** Yard seen from above; x east, y north [m]. */
export interface YardPlanInput {
  readonly water: readonly PlanPoint[];
  /** Corners of each part of the collector, with heights. */
  readonly parts: readonly (readonly (readonly [number, number, number])[])[];
  readonly things: readonly YardThing[];
  readonly sun: { readonly azimuth_deg: number; readonly elevation_deg: number } | null;
  /** 0 = January. */
  readonly month: number;
  readonly picked: string | null;
  /** Sides of what is picked that carry a dimension. */
  readonly sides: readonly {
    readonly id: string;
    readonly from: PlanPoint;
    readonly to: PlanPoint;
    readonly text: string;
  }[];
}

export interface YardPlanFrame {
  readonly width: number;
  readonly height: number;
  readonly view: YardView;
  readonly grid_m: number;
  readonly gridText: string;
  readonly dark: boolean;
  readonly words: { readonly pool: string; readonly collector: string; readonly sun: string };
}

/** Which part of the yard is shown: yard point in the middle and pixels per metre. */
export interface YardView {
  readonly x_m: number;
  readonly y_m: number;
  readonly scale: number;
}

/** A view that holds all points with a margin [px]. */
export function viewOf(
  points: readonly PlanPoint[],
  width: number,
  height: number,
  margin: number,
): YardView {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const room = (size: number) => Math.max(40, size - 2 * margin);
  const scale = Math.min(room(width) / Math.max(2, x1 - x0), room(height) / Math.max(2, y1 - y0), 80);
  return { x_m: (x0 + x1) / 2, y_m: (y0 + y1) / 2, scale };
}

export const toSheet =
  (view: YardView, width: number, height: number) =>
  ([x, y]: readonly [number, number]): Point => [
    width / 2 + (x - view.x_m) * view.scale,
    height / 2 - (y - view.y_m) * view.scale,
  ];

/** Plan to scale: grid, shadows where the sun throws them, pool, collector, everything that stands there. */
export function yardPlan(input: YardPlanInput, frame: YardPlanFrame): Sheet {
  const { width, height, view } = frame;
  const at = toSheet(view, width, height);
  const items: Item[] = [...grid(frame, at)];
  const anchors: Anchor[] = [];
  const shade = frame.dark ? ('paper' as const) : ('hair' as const);
  const cast = (plane: ShadowPlane, clip: readonly PlanPoint[] | null): Item[] => {
    const { sun } = input;
    if (sun === null) return [];
    return input.things.flatMap((thing) =>
      planShadows(thing.solid, sun.azimuth_deg, sun.elevation_deg, input.month, plane).flatMap(
        (s): Item[] => {
          const points = clip === null ? s.points : clipConvex(s.points, clip);
          return points.length < 3
            ? []
            : [
                {
                  kind: 'polyline',
                  layer: clip === null ? 'grid' : 'water',
                  closed: true,
                  points: points.map(at),
                  ink: shade,
                  width: 0.6,
                  fill: shade,
                  ...(s.dark < 1 ? { fillOpacity: Math.round(s.dark * 100) / 100 } : {}),
                },
              ];
        },
      ),
    );
  };
  items.push({
    kind: 'polyline',
    layer: 'grid',
    closed: true,
    points: input.water.map(at),
    ink: 'hair',
    width: 0,
    fill: frame.dark ? 'hair' : 'grid',
  });
  items.push(...cast(LEVEL, null));
  items.push({
    kind: 'polyline',
    layer: 'built',
    id: 'pool',
    closed: true,
    points: input.water.map(at),
    ink: 'ink',
    width: input.picked === 'pool' ? 3 : 1.8,
  });
  items.push(...waves(input.water.map(at)));
  for (const part of input.parts) {
    const outline = part.map(([x, y]): PlanPoint => [x, y]);
    const points = outline.map(at);
    items.push({
      kind: 'polyline',
      layer: 'water',
      closed: true,
      points,
      ink: 'hair',
      width: 0,
      fill: frame.dark ? 'hair' : 'sheet',
    });
    const plane = planeOf(part);
    if (plane !== null) items.push(...cast(plane, outline));
    items.push({
      kind: 'polyline',
      layer: 'built',
      id: 'collector',
      closed: true,
      points,
      ink: 'ink',
      width: input.picked === 'collector' ? 3 : 1.6,
    });
    items.push(...rows(points));
  }
  for (const thing of input.things) items.push(...solidItems(thing, input, at, view.scale));
  items.push(...labels(input, frame, at));
  for (const side of input.sides) {
    const made = dimension({ from: at(side.from), to: at(side.to), offset: 26, gap: 74, id: side.id });
    items.push(...made.items);
    anchors.push(...made.anchors);
  }
  items.push(
    ...north(width),
    ...(input.sun === null ? [] : sunMark(input.sun.azimuth_deg, input.sun.elevation_deg, width)),
  );
  return { width, height, items, anchors };
}

function grid(frame: YardPlanFrame, at: (p: PlanPoint) => Point): Item[] {
  const { view, width, height, grid_m } = frame;
  const items: Item[] = [];
  const [w, h] = [width / 2 / view.scale, height / 2 / view.scale];
  for (let x = Math.ceil((view.x_m - w) / grid_m) * grid_m; x <= view.x_m + w; x += grid_m) {
    const [px] = at([x, 0]);
    items.push({ kind: 'line', layer: 'grid', from: [px, 0], to: [px, height], ink: 'grid', width: 1 });
  }
  for (let y = Math.ceil((view.y_m - h) / grid_m) * grid_m; y <= view.y_m + h; y += grid_m) {
    const [, py] = at([0, y]);
    items.push({ kind: 'line', layer: 'grid', from: [0, py], to: [width, py], ink: 'grid', width: 1 });
  }
  const [x0, y0, long] = [16, height - 14, grid_m * view.scale];
  items.push(
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x0 + long, y0], ink: 'ink', width: 1.2 },
    { kind: 'line', layer: 'dimension', from: [x0, y0 - 4], to: [x0, y0 + 4], ink: 'ink', width: 1.2 },
    {
      kind: 'line',
      layer: 'dimension',
      from: [x0 + long, y0 - 4],
      to: [x0 + long, y0 + 4],
      ink: 'ink',
      width: 1.2,
    },
    {
      kind: 'text',
      layer: 'text',
      at: [x0 + long + 8, y0 + 4],
      text: frame.gridText,
      size: 11.5,
      ink: 'soft',
    },
  );
  return items;
}

/** Two short strokes that say: water. */
function waves(points: readonly Point[]): Item[] {
  const [cx, cy, w] = middleOf(points);
  const half = Math.min(26, w * 0.16);
  return [10, 16].map(
    (dy): Item => ({
      kind: 'line',
      layer: 'dimension',
      from: [cx - half, cy + dy],
      to: [cx + half, cy + dy],
      ink: 'soft',
      width: 0.9,
    }),
  );
}

/** Lines along the longer side, as tubes lie. */
function rows(p: readonly Point[]): Item[] {
  if (p.length !== 4) return [];
  const long =
    Math.hypot(p[1][0] - p[0][0], p[1][1] - p[0][1]) >= Math.hypot(p[3][0] - p[0][0], p[3][1] - p[0][1]);
  const [a, b, c, d] = long ? [p[0], p[1], p[3], p[2]] : [p[0], p[3], p[1], p[2]];
  return [0.2, 0.4, 0.6, 0.8].map(
    (k): Item => ({
      kind: 'line',
      layer: 'dimension',
      from: [a[0] + (c[0] - a[0]) * k, a[1] + (c[1] - a[1]) * k],
      to: [b[0] + (d[0] - b[0]) * k, b[1] + (d[1] - b[1]) * k],
      ink: 'soft',
      width: 0.7,
    }),
  );
}

function solidItems(
  thing: YardThing,
  input: YardPlanInput,
  at: (p: PlanPoint) => Point,
  scale: number,
): Item[] {
  const picked = input.picked === thing.id;
  const { solid } = thing;
  if (solid.kind === 'tree') {
    const centre = at(solid.at);
    const leaf = solid.leafMonths[input.month] ?? true;
    return [
      {
        kind: 'circle',
        layer: 'built',
        id: thing.id,
        centre,
        radius: solid.crownRadius_m * scale,
        ink: 'ink',
        width: picked ? 3 : 1.3,
        ...(leaf ? {} : { dash: [3, 4] }),
      },
      {
        kind: 'circle',
        layer: 'built',
        centre,
        radius: Math.max(2, solid.trunkRadius_m * scale),
        ink: 'ink',
        width: 1,
        fill: 'ink',
      },
    ];
  }
  const points = solid.footprint.map(at);
  if (solid.kind === 'screen')
    return [
      {
        kind: 'polyline',
        layer: 'built',
        id: thing.id,
        closed: true,
        points,
        ink: 'ink',
        width: 1,
        dash: [2, 3],
      },
    ];
  return [
    {
      kind: 'polyline',
      layer: 'built',
      id: thing.id,
      closed: true,
      points,
      ink: 'ink',
      width: picked ? 3 : 1.8,
      fill: 'sheet',
    },
    ...diagonals(points),
  ];
}

/** A cross through a footprint of four corners: it is built up. */
function diagonals(p: readonly Point[]): Item[] {
  if (
    p.length !== 4 ||
    Math.min(
      Math.hypot(p[1][0] - p[0][0], p[1][1] - p[0][1]),
      Math.hypot(p[2][0] - p[1][0], p[2][1] - p[1][1]),
    ) < 14
  )
    return [];
  return [
    [p[0], p[2]],
    [p[1], p[3]],
  ].map(([from, to]): Item => ({ kind: 'line', layer: 'built', from, to, ink: 'hair', width: 0.9 }));
}

function middleOf(points: readonly Point[]): readonly [number, number, number] {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  return [(x0 + x1) / 2, (Math.min(...ys) + Math.max(...ys)) / 2, x1 - x0];
}

function labels(input: YardPlanInput, frame: YardPlanFrame, at: (p: PlanPoint) => Point): Item[] {
  const label = ([x, y]: readonly [number, number], text: string): Item => ({
    kind: 'text',
    layer: 'text',
    at: [x, y],
    text,
    size: 12.5,
    weight: 550,
    ink: 'ink',
    anchor: 'middle',
    halo: 'sheet',
  });
  const out: Item[] = [];
  const [px, py] = middleOf(input.water.map(at));
  // the grip in the middle of what is picked would stand in its name
  const lift = (id: string) => (input.picked === id ? -16 : 0);
  out.push(label([px, py + lift('pool')], frame.words.pool));
  const corners = input.parts.flat().map(([x, y]) => at([x, y]));
  if (corners.length > 0) {
    const [cx, cy] = middleOf(corners);
    out.push(label([cx, cy + 4 + lift('collector')], frame.words.collector));
  }
  for (const thing of input.things) {
    if (thing.solid.kind === 'screen') continue;
    const points = thing.solid.kind === 'tree' ? [at(thing.solid.at)] : thing.solid.footprint.map(at);
    const [x, y] = middleOf(points);
    out.push(label([x, y + (thing.solid.kind === 'tree' ? 18 : 4 + lift(thing.id))], thing.name));
  }
  return out;
}

function north(width: number): Item[] {
  const [x, y] = [width - 28, 44];
  return [
    { kind: 'circle', layer: 'dimension', centre: [x, y], radius: 15, ink: 'soft', width: 0.9 },
    { kind: 'line', layer: 'dimension', from: [x, y + 15], to: [x, y - 14], ink: 'ink', width: 1.2 },
    arrowHead([x, y - 22], [0, -1], 10),
    { kind: 'text', layer: 'text', at: [x + 9, y - 15], text: 'N', size: 12, weight: 680, ink: 'ink' },
  ];
}

/** The sun round the north mark: nearer to the middle the higher it stands. */
function sunMark(azimuth_deg: number, elevation_deg: number, width: number): Item[] {
  if (!(elevation_deg > 0)) return [];
  const [x, y] = [width - 28, 44];
  const a = (azimuth_deg * Math.PI) / 180;
  const r = 15 * (1 - Math.min(90, elevation_deg) / 90);
  return [
    {
      kind: 'circle',
      layer: 'flag',
      centre: [x + r * Math.sin(a), y - r * Math.cos(a)],
      radius: 4.5,
      ink: 'ink',
      width: 1.4,
      fill: 'sheet',
    },
  ];
}

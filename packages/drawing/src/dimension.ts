import type { Anchor, Item, Point } from './display';

/** Ends of a dimension line carry a stroke at 45°, as on a builder's sheet. */
function tick([x, y]: Point, size: number): Item {
  return {
    kind: 'line',
    layer: 'dimension',
    from: [x - size, y + size],
    to: [x + size, y - size],
    ink: 'ink',
    width: 1.6,
  };
}

export interface DimensionOptions {
  from: Point;
  to: Point;
  /** Distance of the dimension line from the thing, to the left of from → to. */
  offset: number;
  /** Gap left in the line for the control that stands there. */
  gap?: number;
  id?: string;
  /** Plain text in place of a control. */
  text?: string;
  /** 0…1 along the line where the control stands. */
  place?: number;
}

/**
 * A linear dimension: two extension lines, the dimension line with a gap where its value stands, a stroke at 45°
 * at each end. Nothing is ever written across the line.
 */
export function dimension(o: DimensionOptions): { items: Item[]; anchors: Anchor[] } {
  const [dx, dy] = [o.to[0] - o.from[0], o.to[1] - o.from[1]];
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) return { items: [], anchors: [] };
  const [ux, uy] = [dx / length, dy / length];
  const [nx, ny] = [uy * Math.sign(o.offset || 1), -ux * Math.sign(o.offset || 1)];
  const d = Math.abs(o.offset);
  const at = (p: Point, k: number): Point => [p[0] + nx * k, p[1] + ny * k];
  const [a, b] = [at(o.from, d), at(o.to, d)];
  const place = o.place ?? 0.5;
  const gap = Math.min(o.gap ?? 0, length);
  const mid: Point = [a[0] + dx * place, a[1] + dy * place];
  const hair = { kind: 'line', layer: 'dimension', ink: 'soft', width: 0.9 } as const;
  const items: Item[] = [
    { ...hair, from: at(o.from, 5), to: at(o.from, d + 6) },
    { ...hair, from: at(o.to, 5), to: at(o.to, d + 6) },
  ];
  const outside = gap > length - 14;
  if (!outside) {
    items.push(
      { ...hair, from: a, to: [mid[0] - (ux * gap) / 2, mid[1] - (uy * gap) / 2] },
      { ...hair, from: [mid[0] + (ux * gap) / 2, mid[1] + (uy * gap) / 2], to: b },
    );
  } else items.push({ ...hair, from: a, to: b });
  items.push(tick(a, 4.5), tick(b, 4.5));
  if (o.text !== undefined)
    items.push({
      kind: 'text',
      layer: 'text',
      at: [mid[0] + nx * (outside ? 14 : 0), mid[1] + ny * (outside ? 14 : 0) + 4],
      text: o.text,
      size: 12.5,
      weight: 550,
      ink: 'ink',
      anchor: 'middle',
      halo: 'sheet',
    });
  const anchor = outside ? at(mid, 20) : mid;
  return { items, anchors: o.id === undefined ? [] : [{ id: o.id, x: anchor[0], y: anchor[1] }] };
}

/** A leader: a dot on the thing, a hair line to where its control stands. */
export function leader(on: Point, to: Point, id?: string): { items: Item[]; anchors: Anchor[] } {
  return {
    items: [
      { kind: 'circle', layer: 'dimension', centre: on, radius: 2.6, ink: 'ink', width: 0, fill: 'ink' },
      { kind: 'line', layer: 'dimension', from: on, to, ink: 'soft', width: 0.9 },
    ],
    anchors: id === undefined ? [] : [{ id, x: to[0], y: to[1] }],
  };
}

/** Filled arrow head at `tip`, pointing along `direction`. */
export function arrowHead(tip: Point, direction: Point, size: number, heat?: number): Item {
  const length = Math.hypot(direction[0], direction[1]) || 1;
  const [ux, uy] = [direction[0] / length, direction[1] / length];
  const base: Point = [tip[0] - ux * size, tip[1] - uy * size];
  return {
    kind: 'polyline',
    layer: heat === undefined ? 'dimension' : 'water',
    closed: true,
    points: [
      tip,
      [base[0] - uy * size * 0.5, base[1] + ux * size * 0.5],
      [base[0] + uy * size * 0.5, base[1] - ux * size * 0.5],
    ],
    ink: 'ink',
    width: 0,
    ...(heat === undefined ? { fill: 'ink' as const } : { fillHeat: heat }),
  };
}

/** Hatch at 45° inside a polygon's bounding box, clipped by `inside`. */
export function hatch(
  box: { x: number; y: number; width: number; height: number },
  step: number,
  inside: (p: Point) => boolean,
): Item[] {
  const items: Item[] = [];
  const fine = 3;
  for (let s = step; s < box.width + box.height; s += step) {
    let start: Point | null = null;
    let last: Point | null = null;
    const flush = () => {
      if (start !== null && last !== null && (start[0] !== last[0] || start[1] !== last[1]))
        items.push({ kind: 'line', layer: 'water', from: start, to: last, ink: 'soft', width: 1 });
      start = null;
    };
    for (let x = 0; x <= box.width; x += fine) {
      const y = s - x;
      const p: Point = [box.x + x, box.y + y];
      if (y >= 0 && y <= box.height && inside(p)) {
        start ??= p;
        last = p;
      } else flush();
    }
    flush();
  }
  return items;
}

import { max, min } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { hatch } from './dimension';
import type { Anchor, Item, Point, Sheet } from './display';

export type LoopPieceKind =
  | 'suction'
  | 'pipe'
  | 'pump'
  | 'filter'
  | 'device'
  | 'valve'
  | 'bypass'
  | 'collector'
  | 'outlet'
  | 'checkValve';

export interface ProfilePiece {
  id: string;
  kind: LoopPieceKind;
  start_m: number;
  end_m: number;
  startHeight_m: number;
  endHeight_m: number;
  startHead_m: number;
  endHead_m: number;
  /** Warmth of the water at both ends, 0…1. */
  startHeat: number;
  endHeat: number;
  /** Highest point inside, when it is higher than both ends. */
  top_m?: number;
}

export interface ProfileFrame {
  width: number;
  height: number;
  margin: { left: number; right: number; top: number; bottom: number };
  /** Least room for a piece, so that short ones can be touched. */
  leastPiece: number;
  /** Heights as the person reads them. */
  heightText(value_m: number): string;
  /** Length of one step of the person's unit, for round marks [m]. */
  heightUnit_m: number;
  words: { head: string; pipe: string; pool: string; vacuum: string };
  letters: boolean;
  ghost?: readonly ProfilePiece[];
}

export interface ProfileSheet extends Sheet {
  pieces: { id: string; x0: number; x1: number; y: number; letter: string }[];
  /** Sheet height of the water surface of the pool. */
  pool: number;
}

/** A, B … Z, AA, AB … @example letterOf(27) // 'AB' */
export function letterOf(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : letterOf(Math.floor(index / 26) - 1) + letter;
}

/**
 * Places along the sheet: every piece has at least `least`, the rest is shared by length, so that a valve is as
 * easy to touch as a long pipe. True lengths stand beside the pieces.
 */
export function places(pieces: readonly ProfilePiece[], width: number, least: number): number[] {
  const each = Math.min(least, width / Math.max(pieces.length, 1));
  const total = pieces.reduce((sum, p) => sum + Math.max(0, p.end_m - p.start_m), 0);
  const rest = width - each * pieces.length;
  const xs = [0];
  for (const p of pieces)
    xs.push(xs[xs.length - 1] + each + (total > 0 ? (rest * Math.max(0, p.end_m - p.start_m)) / total : 0));
  return xs;
}

/**
 * The water's way from pool to pool: distance across, elevation and head up. Where the head line lies under the
 * pipe the water is under vacuum, and the space between is hatched.
 */
export function loopProfile(pieces: readonly ProfilePiece[], frame: ProfileFrame): ProfileSheet {
  const { margin: m } = frame;
  const right = frame.width - m.right;
  const bottom = frame.height - m.bottom;
  const items: Item[] = [];
  const anchors: Anchor[] = [];
  const all = [...pieces, ...(frame.ghost ?? [])];
  const heights = all.flatMap((p) => [
    p.startHeight_m,
    p.endHeight_m,
    p.startHead_m,
    p.endHead_m,
    p.top_m ?? 0,
  ]);
  const low = Math.min(min(heights) ?? 0, -0.6);
  const high = Math.max(max(heights) ?? 1, 0.8);
  const y = scaleLinear()
    .domain([low - (high - low) * 0.08, high + (high - low) * 0.06])
    .range([bottom, m.top]);
  const unit = frame.heightUnit_m;
  const pool = y(0);

  for (const tick of scaleLinear()
    .domain([low / unit, high / unit])
    .ticks(Math.max(3, Math.floor((bottom - m.top) / 46)))) {
    const yy = y(tick * unit);
    items.push(
      { kind: 'line', layer: 'grid', from: [m.left, yy], to: [right, yy], ink: 'hair', width: 0.7 },
      {
        kind: 'text',
        layer: 'text',
        at: [m.left - 8, yy + 4],
        text: frame.heightText(tick * unit),
        size: 11,
        ink: 'soft',
        anchor: 'end',
      },
    );
  }

  const xs = places(pieces, right - m.left, frame.leastPiece).map((v) => v + m.left);
  const pipe: Point[] = [];
  const head: Point[] = [];
  pieces.forEach((p, i) => {
    pipe.push([xs[i], y(p.startHeight_m)]);
    if (p.top_m !== undefined && p.top_m > Math.max(p.startHeight_m, p.endHeight_m))
      pipe.push([(xs[i] + xs[i + 1]) / 2, y(p.top_m)]);
    pipe.push([xs[i + 1], y(p.endHeight_m)]);
    head.push([xs[i], y(p.startHead_m)], [xs[i + 1], y(p.endHead_m)]);
  });
  const heightAt = (line: readonly Point[], x: number): number => {
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1], line[i]];
      if (x >= a[0] && x <= b[0] && b[0] > a[0]) return a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
    }
    return Number.NaN;
  };
  items.push(
    ...hatch(
      { x: m.left, y: m.top, width: right - m.left, height: bottom - m.top },
      7,
      ([x, yy]) => yy < heightAt(head, x) - 1 && yy > heightAt(pipe, x) + 2,
    ),
  );

  // water of the pool at both ends, with the level mark of a builder's sheet
  for (const [x0, x1] of [
    [m.left, m.left + Math.min(46, (right - m.left) * 0.06)],
    [right - Math.min(46, (right - m.left) * 0.06), right],
  ]) {
    items.push({ kind: 'line', layer: 'built', from: [x0, pool], to: [x1, pool], ink: 'ink', width: 1.2 });
    [5, 9, 13].forEach((d, i) => {
      const inset = (i + 1) * (x1 - x0) * 0.13;
      items.push({
        kind: 'line',
        layer: 'built',
        from: [x0 + inset, pool + d],
        to: [x1 - inset, pool + d],
        ink: 'soft',
        width: 0.9,
      });
    });
    const c = (x0 + x1) / 2;
    items.push({
      kind: 'polyline',
      layer: 'built',
      closed: true,
      points: [
        [c - 5, pool - 9],
        [c + 5, pool - 9],
        [c, pool - 1],
      ],
      ink: 'ink',
      width: 1.1,
    });
  }
  items.push({
    kind: 'line',
    layer: 'grid',
    from: [m.left, pool],
    to: [right, pool],
    ink: 'soft',
    width: 0.9,
    dash: [9, 3, 2, 3],
  });

  if (frame.ghost !== undefined) {
    const gx = places(frame.ghost, right - m.left, frame.leastPiece).map((v) => v + m.left);
    items.push({
      kind: 'polyline',
      layer: 'ghost',
      points: frame.ghost.flatMap((p, i): Point[] => [
        [gx[i], y(p.startHead_m)],
        [gx[i + 1], y(p.endHead_m)],
      ]),
      ink: 'soft',
      width: 1.3,
      dash: [5, 4],
    });
  }

  const out: ProfileSheet['pieces'] = [];
  pieces.forEach((p, i) => {
    const a: Point = [xs[i], y(p.startHeight_m)];
    const b: Point = [xs[i + 1], y(p.endHeight_m)];
    const mid: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    items.push(
      { kind: 'line', layer: 'water', from: a, to: b, ink: 'ink', width: 7 },
      {
        kind: 'water',
        layer: 'water',
        from: a,
        to: b,
        width: 4.4,
        stops: [
          { at: 0, heat: p.startHeat },
          { at: 1, heat: p.endHeat },
        ],
      },
    );
    items.push(...symbol(p.kind, mid, p.startHeat));
    if (frame.letters) items.push(...bubble([mid[0], bottom + 18], letterOf(i)));
    items.push({
      kind: 'line',
      layer: 'grid',
      from: [xs[i], bottom],
      to: [xs[i], bottom + 6],
      ink: 'soft',
      width: 0.9,
    });
    out.push({ id: p.id, x0: xs[i], x1: xs[i + 1], y: mid[1], letter: letterOf(i) });
    anchors.push({ id: p.id, x: mid[0], y: bottom });
  });
  items.push({ kind: 'polyline', layer: 'built', points: head, ink: 'ink', width: 1.8 });

  const peak = head.reduce((best, p) => (p[1] < best[1] ? p : best), head[0] ?? [m.left, m.top]);
  items.push(
    {
      kind: 'text',
      layer: 'text',
      at: [Math.min(peak[0] + 8, right - 60), Math.max(peak[1] - 7, 12)],
      text: frame.words.head,
      size: 12,
      weight: 550,
      ink: 'ink',
      halo: 'sheet',
    },
    {
      kind: 'text',
      layer: 'text',
      at: [m.left + 4, pool - 14],
      text: frame.words.pool,
      size: 11,
      ink: 'soft',
      halo: 'sheet',
    },
  );
  const deepest = deepestVacuum(pipe, head, heightAt);
  if (deepest !== null)
    items.push({
      kind: 'text',
      layer: 'text',
      at: [Math.min(Math.max(deepest[0], m.left + 90), right - 46), deepest[1]],
      text: frame.words.vacuum,
      size: 11.5,
      ink: 'ink',
      anchor: 'end',
      halo: 'sheet',
    });
  return { width: frame.width, height: frame.height, items, anchors, pieces: out, pool };
}

function deepestVacuum(
  pipe: readonly Point[],
  head: readonly Point[],
  heightAt: (line: readonly Point[], x: number) => number,
): Point | null {
  let best: Point | null = null;
  let most = 9;
  for (const [x] of [...pipe, ...head]) {
    const [p, h] = [heightAt(pipe, x), heightAt(head, x)];
    if (h - p > most) {
      most = h - p;
      best = [x - 6, h + 14];
    }
  }
  return best;
}

/** A letter in a ring, as grid lines are named on a sheet. */
function bubble(at: Point, letter: string): Item[] {
  return [
    { kind: 'circle', layer: 'dimension', centre: at, radius: 10, ink: 'soft', width: 1, fill: 'sheet' },
    {
      kind: 'text',
      layer: 'text',
      at: [at[0], at[1] + 4],
      text: letter,
      size: 11,
      weight: 550,
      ink: 'ink',
      anchor: 'middle',
    },
  ];
}

function symbol(kind: LoopPieceKind, [x, y]: Point, heat: number): Item[] {
  const ring = (radius: number): Item => ({
    kind: 'circle',
    layer: 'built',
    centre: [x, y],
    radius,
    ink: 'ink',
    width: 1.4,
    fill: 'sheet',
  });
  const shape = (points: Point[]): Item => ({
    kind: 'polyline',
    layer: 'built',
    closed: true,
    points: points.map(([dx, dy]): Point => [x + dx, y + dy]),
    ink: 'ink',
    width: 1.4,
    fill: 'sheet',
  });
  const bow = shape([
    [-10, -7],
    [10, 7],
    [10, -7],
    [-10, 7],
  ]);
  switch (kind) {
    case 'pump':
      return [
        ring(13),
        {
          kind: 'polyline',
          layer: 'built',
          closed: true,
          points: [
            [x - 6, y - 8],
            [x + 10, y],
            [x - 6, y + 8],
          ],
          ink: 'ink',
          width: 1.3,
          fill: 'ink',
        },
      ];
    case 'filter':
      return [
        shape([
          [-10, -13],
          [10, -13],
          [10, 13],
          [-10, 13],
        ]),
        ...[-5, 0, 5].map(
          (d): Item => ({
            kind: 'line',
            layer: 'built',
            from: [x - 10, y + d - 4],
            to: [x + 10, y + d + 4],
            ink: 'soft',
            width: 0.9,
          }),
        ),
      ];
    case 'valve':
      return [bow];
    case 'bypass':
      return [
        bow,
        { kind: 'line', layer: 'built', from: [x, y], to: [x, y - 14], ink: 'ink', width: 1.4 },
        { kind: 'line', layer: 'built', from: [x - 6, y - 14], to: [x + 6, y - 14], ink: 'ink', width: 2 },
      ];
    case 'checkValve':
      return [
        shape([
          [-8, -7],
          [8, 0],
          [-8, 7],
        ]),
        { kind: 'line', layer: 'built', from: [x + 8, y - 7], to: [x + 8, y + 7], ink: 'ink', width: 1.6 },
      ];
    case 'collector':
      return [
        shape([
          [-17, -13],
          [17, -13],
          [17, 13],
          [-17, 13],
        ]),
        ...[-8, -4, 0, 4, 8].map(
          (d): Item => ({
            kind: 'water',
            layer: 'built',
            from: [x - 14, y + d],
            to: [x + 14, y + d + 0.01],
            width: 2.2,
            stops: [
              { at: 0, heat },
              { at: 1, heat: 1 },
            ],
          }),
        ),
      ];
    case 'device':
      return [
        shape([
          [-10, -8],
          [10, -8],
          [10, 8],
          [-10, 8],
        ]),
      ];
    default:
      return [];
  }
}

import { type BuildDrawing, type BuildShape, rectangle } from './buildPlan';
import type { Point } from './display';

/** One thing that water passes, in order. */
export interface SchematicPiece {
  name: string;
  kind:
    | 'suction'
    | 'pump'
    | 'filter'
    | 'valve'
    | 'checkValve'
    | 'device'
    | 'pipe'
    | 'collector'
    | 'outlet'
    | 'bypass';
  /** Beside the name: pipe, length, opening. */
  note: string;
}

export interface LoopSchematicInput {
  id: string;
  title: string;
  /** Pool to bypass, bypass to collector and back, and past it. */
  before: readonly SchematicPiece[];
  through: readonly SchematicPiece[];
  past: readonly SchematicPiece[];
  after: readonly SchematicPiece[];
  hasBypass: boolean;
}

const STEP = 1.5;
const SIZE = 0.36;
/** Symbols in a row before it turns. */
const PER_ROW = 7;

/** The loop as symbols joined by lines, not to scale: common way, way through the collector, way past it. */
export function loopSchematic(input: LoopSchematicInput): BuildDrawing {
  const shapes: BuildShape[] = [];
  let y = 0;
  let most = 1;
  const row = (label: string, pieces: readonly SchematicPiece[]): { first: Point; last: Point } => {
    let first: Point = [0, y];
    let last: Point = [0, y];
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [-0.75, y + 0.75],
      text: label,
      size: 12,
      bold: true,
      anchor: 'start',
    });
    pieces.forEach((piece, i) => {
      const col = i % PER_ROW;
      if (i > 0 && col === 0) {
        const fromX = (PER_ROW - 1) * STEP + SIZE;
        shapes.push({
          kind: 'polyline',
          layer: 'pipe',
          points: [
            [fromX, y],
            [fromX + 0.25, y],
            [fromX + 0.25, y - 0.85],
            [-0.6, y - 0.85],
            [-0.6, y - 1.7],
            [-SIZE, y - 1.7],
          ],
        });
        y -= 1.7;
      } else if (i > 0)
        shapes.push({
          kind: 'line',
          layer: 'pipe',
          from: [(col - 1) * STEP + SIZE, y],
          to: [col * STEP - SIZE, y],
        });
      const at: Point = [col * STEP, y];
      most = Math.max(most, col + 1);
      if (i === 0) first = at;
      last = at;
      shapes.push(...symbol(piece.kind, at));
      shapes.push({
        kind: 'text',
        layer: 'text',
        at: [at[0], y - SIZE - 0.17],
        text: short(piece.name, 21),
        size: 9.5,
      });
      if (piece.note !== '')
        shapes.push({
          kind: 'text',
          layer: 'text',
          at: [at[0], y - SIZE - 0.33],
          text: short(piece.note, 24),
          size: 8.5,
        });
    });
    y -= 1.85;
    return { first, last };
  };
  const before = row('from the pool', input.before);
  row('through the collector', input.through);
  if (input.hasBypass) row('past the collector', input.past);
  row('back to the pool', input.after);
  const all = [...input.before, ...input.through, ...input.past, ...input.after];
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${all.map((p) => `${p.name}${p.note ? ` (${p.note})` : ''}`).join(', ')}.`,
    shapes,
    box: { x0: -0.8, x1: (most - 1) * STEP + 0.8, y0: y + 1.1, y1: before.first[1] + 0.95 },
    stretch: 1,
  };
}

const short = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1)}…`;

/** Symbols after the habits of piping drawings: bow tie for a valve, circle with triangle for a pump. */
function symbol(kind: SchematicPiece['kind'], [x, y]: Point): BuildShape[] {
  const s = SIZE;
  const line = (from: Point, to: Point): BuildShape => ({ kind: 'line', layer: 'fitting', from, to });
  switch (kind) {
    case 'pump':
      return [
        { kind: 'circle', layer: 'fitting', centre: [x, y], radius_m: s },
        {
          kind: 'polyline',
          layer: 'fitting',
          closed: true,
          points: [
            [x - s * 0.5, y + s * 0.75],
            [x + s, y],
            [x - s * 0.5, y - s * 0.75],
          ],
        },
      ];
    case 'filter':
      return [
        { kind: 'polyline', layer: 'fitting', closed: true, points: rectangle(x - s, y - s, x + s, y + s) },
        line([x - s, y + s], [x + s, y - s]),
      ];
    case 'valve':
    case 'bypass':
      return [
        {
          kind: 'polyline',
          layer: 'fitting',
          closed: true,
          points: [
            [x - s, y + s * 0.6],
            [x + s, y - s * 0.6],
            [x + s, y + s * 0.6],
            [x - s, y - s * 0.6],
          ],
        },
        ...(kind === 'bypass' ? [line([x, y], [x, y + s])] : []),
      ];
    case 'checkValve':
      return [
        {
          kind: 'polyline',
          layer: 'fitting',
          closed: true,
          points: [
            [x - s, y + s * 0.6],
            [x + s, y],
            [x - s, y - s * 0.6],
          ],
        },
        line([x + s, y + s * 0.6], [x + s, y - s * 0.6]),
      ];
    case 'collector':
      return [
        { kind: 'polyline', layer: 'fitting', closed: true, points: rectangle(x - s, y - s, x + s, y + s) },
        ...[-0.5, 0, 0.5].map((k) => line([x - s, y + k * s], [x + s, y + k * s])),
      ];
    case 'suction':
    case 'outlet':
      return [
        {
          kind: 'polyline',
          layer: 'fitting',
          points: [
            [x - s, y + s * 0.5],
            [x - s, y - s * 0.5],
            [x + s, y - s * 0.5],
            [x + s, y + s * 0.5],
          ],
        },
        line([x - s, y], [x + s, y]),
      ];
    case 'device':
      return [
        {
          kind: 'polyline',
          layer: 'fitting',
          closed: true,
          points: rectangle(x - s, y - s * 0.6, x + s, y + s * 0.6),
        },
      ];
    case 'pipe':
      return [
        line([x - s, y], [x + s, y]),
        line([x - s * 0.2, y + s * 0.25], [x + s * 0.2, y]),
        line([x - s * 0.2, y - s * 0.25], [x + s * 0.2, y]),
      ];
  }
}

import { type BuildDrawing, type BuildShape, paperScale, rectangle, textWidth } from './buildPlan';
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
const LEFT = -0.8;
const RIGHT = (PER_ROW - 1) * STEP + 0.8;
const NAME_SIZE = 10.5;
const NOTE_SIZE = 9.5;
/** From row to row, and from a row's turn to its next line: symbol and four lines of letters. */
const ROW = 2.1;
const TURN = 1.85;

/** The loop as symbols joined by lines, not to scale: common way, way through the collector, way past it. */
export function loopSchematic(input: LoopSchematicInput): BuildDrawing {
  const shapes: BuildShape[] = [];
  let y = 0;
  const unit = paperScale({ x0: LEFT, x1: RIGHT }).x;
  const row = (label: string, pieces: readonly SchematicPiece[]): { first: Point; last: Point } => {
    let first: Point = [0, y];
    let last: Point = [0, y];
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [LEFT, y + 0.62],
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
            [fromX + 0.25, y - TURN + SIZE + 0.1],
            [-0.6, y - TURN + SIZE + 0.1],
            [-0.6, y - TURN],
            [-SIZE, y - TURN],
          ],
        });
        y -= TURN;
      } else if (i > 0)
        shapes.push({
          kind: 'line',
          layer: 'pipe',
          from: [(col - 1) * STEP + SIZE, y],
          to: [col * STEP - SIZE, y],
        });
      const at: Point = [col * STEP, y];
      if (i === 0) first = at;
      last = at;
      shapes.push(...symbol(piece.kind, at));
      const room = STEP / unit - 6;
      const words = [
        ...lines(piece.name, NAME_SIZE, room).map((text) => ({ text, size: NAME_SIZE })),
        ...lines(piece.note, NOTE_SIZE, room).map((text) => ({ text, size: NOTE_SIZE })),
      ];
      words.forEach(({ text, size }, k) => {
        const under: Point = [at[0], y - SIZE - (12 + 11 * k) * unit];
        shapes.push({ kind: 'text', layer: 'text', at: under, text, size });
      });
    });
    y -= ROW;
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
    box: { x0: LEFT, x1: RIGHT, y0: y + 1.1, y1: before.first[1] + 0.95 },
    stretch: 1,
  };
}

/** A text in at most two lines of a width; what is left over ends in dots. */
function lines(text: string, size: number, width: number): string[] {
  if (text === '') return [];
  const out: string[] = [''];
  for (const word of text.split(' ')) {
    const last = out[out.length - 1];
    const longer = last === '' ? word : `${last} ${word}`;
    if (last === '' || textWidth(longer, size) <= width) out[out.length - 1] = longer;
    else out.push(word);
  }
  const most = Math.floor(width / textWidth('x', size));
  const short = (line: string, cut: boolean): string =>
    line.length <= most && !cut ? line : `${line.slice(0, most - 1)}…`;
  return out.slice(0, 2).map((line, i) => short(line, i === 1 && out.length > 2));
}

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

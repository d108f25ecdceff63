import { type BuildPipe, boxOf, compassLetters, nameShare } from './buildPanel';
import { type BuildDrawing, type BuildShape, PAPER_WIDTH, paperScale, textWidth } from './buildPlan';
import type { Point } from './display';

export interface SupportPlanInput {
  id: string;
  title: string;
  banks: readonly {
    name: string;
    tubes: readonly BuildPipe[];
    headers: readonly BuildPipe[];
    /** Distances of the support lines from the tubes' near ends. */
    lines_m: readonly number[];
    member_m: number;
  }[];
  compass: readonly [string, string, string, string];
  length(value_m: number): string;
}

type Bank = SupportPlanInput['banks'][number];
const LABEL_SIZE = 10;

/** Directions of a bank: along its tubes, across them, and how far its members reach beyond the outer ones. */
interface Lay {
  u: Point;
  n: Point;
  length: number;
  wide: number;
  over: number;
  first: BuildPipe;
}

function layOf(bank: Bank): Lay | null {
  const first = bank.tubes[0];
  const last = bank.tubes[bank.tubes.length - 1];
  if (!first || !last) return null;
  const length = Math.hypot(first.to[0] - first.from[0], first.to[1] - first.from[1]) || 1;
  const u: Point = [(first.to[0] - first.from[0]) / length, (first.to[1] - first.from[1]) / length];
  const across: Point = [last.from[0] - first.from[0], last.from[1] - first.from[1]];
  const wide = Math.hypot(across[0], across[1]);
  const n: Point = wide > 1e-9 ? [across[0] / wide, across[1] / wide] : [-u[1], u[0]];
  return { u, n, length, wide, over: (bank.member_m - wide) / 2, first };
}

/** Place along a bank's tubes and across them, from its first tube's near end. */
const placeOf = ({ first, u, n }: Lay, along: number, across: number): Point => [
  first.from[0] + u[0] * along + n[0] * across,
  first.from[1] + u[1] * along + n[1] * across,
];

/** Support lines under the tubes, with their distances from the near ends. */
export function supportPlan(input: SupportPlanInput): BuildDrawing {
  const shapes: BuildShape[] = [];
  const points: Point[] = [];
  let count = 0;
  input.banks.forEach((bank, k) => {
    const lay = layOf(bank);
    if (!lay) return;
    for (const t of [...bank.tubes, ...bank.headers]) {
      points.push(t.from, t.to);
      shapes.push({ kind: 'line', layer: 'pipe', from: t.from, to: t.to, weight: 'hair' });
    }
    for (const d of bank.lines_m) {
      count++;
      const [a, c] = [placeOf(lay, d, -lay.over), placeOf(lay, d, lay.wide + lay.over)];
      points.push(a, c);
      shapes.push({ kind: 'line', layer: 'support', from: a, to: c, weight: 'heavy' });
    }
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: placeOf(lay, lay.length * nameShare(input.banks, k), lay.wide / 2),
      text: bank.name,
      size: 12,
      bold: true,
      plate: true,
    });
  });
  const box = boxOf(points, 0.08);
  const room = distances(input, shapes, box);
  shapes.push(...compassLetters(input.compass, box, { up: 12, ...room }));
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${count} support lines. ${input.banks.map((b) => `${b.name}: ${b.lines_m.map((d) => input.length(d)).join(', ')} from the near end, members ${input.length(b.member_m)}`).join('; ')}.`,
    shapes,
    box,
    stretch: 1,
  };
}

/**
 * Distances of the lines from the near ends, outside the drawing on the side of the first bank's first tube; under them
 * the distance of neighbours.
 *
 * @returns how far under the drawing and beside it the next thing is clear, in paper units
 */
function distances(
  input: SupportPlanInput,
  shapes: BuildShape[],
  box: BuildDrawing['box'],
): { down: number; side: number } {
  const bank = input.banks.find((b) => b.tubes.length > 0);
  const lay = bank ? layOf(bank) : null;
  if (!bank || !lay || bank.lines_m.length === 0) return { down: 18, side: 40 };
  const unit = paperScale(box).x;
  const level = Math.abs(lay.u[0]) >= Math.abs(lay.u[1]);
  const texts = bank.lines_m.map((d) => input.length(d));
  const apart =
    bank.lines_m.length > 1 ? Math.abs(bank.lines_m[1] - bank.lines_m[0]) / unit : Number.POSITIVE_INFINITY;
  // letters beside each other under a line, or one above the other beside it
  const needs = level ? Math.max(...texts.map((t) => textWidth(t, LABEL_SIZE))) + 6 : LABEL_SIZE + 3;
  const rows = level ? Math.min(3, Math.max(1, Math.ceil(needs / apart))) : 1;
  const step = Math.max(1, Math.ceil(needs / (apart * rows)));
  // beside the drawing where the sheet has room there, else on the lines themselves
  const longest = Math.max(...texts.map((t) => textWidth(t, LABEL_SIZE)));
  const aside = !level && (PAPER_WIDTH - (box.x1 - box.x0) / unit) / 2 > longest + 34;
  // outside everything that is drawn, whichever way the tubes run
  const outer = (at: Point): Point => (level ? [at[0], box.y0] : [box.x0, at[1]]);
  bank.lines_m.forEach((d, i) => {
    if (i % step !== 0) return;
    const at = outer(placeOf(lay, d, -lay.over));
    const row = (i / step) % rows;
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: level
        ? [at[0], at[1] - (11 + 11 * row) * unit]
        : [at[0] + (aside ? -5 : 2) * unit, at[1] - 3 * unit],
      text: texts[i],
      size: LABEL_SIZE,
      anchor: level ? 'middle' : aside ? 'end' : 'start',
      plate: !level && !aside,
    });
  });
  const bottom = box.y0 - (level ? 11 * rows + 14 : 12) * unit;
  shapes.push({
    kind: 'text',
    layer: 'text',
    at: [box.x0, bottom],
    text: [
      'support lines from the near ends',
      ...(bank.lines_m.length > 1 ? [`${input.length(bank.lines_m[1] - bank.lines_m[0])} apart`] : []),
      `members ${[...new Set(input.banks.map((b) => input.length(b.member_m)))].join(', ')}`,
    ].join(', '),
    size: 10.5,
    anchor: 'start',
  });
  return { down: (box.y0 - bottom) / unit + 16, side: aside ? longest + 20 : 40 };
}

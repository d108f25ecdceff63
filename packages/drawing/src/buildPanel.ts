import { type BuildDrawing, type BuildShape, paperScale } from './buildPlan';
import type { Point } from './display';

/** A pipe from one point to another in the panel's plane [m]. */
export interface BuildPipe {
  from: Point;
  to: Point;
  outside_m: number;
}

export interface BuildPanelBank {
  name: string;
  tubes: readonly BuildPipe[];
  headers: readonly (BuildPipe & {
    label: string;
    ends: readonly { at: Point; open: boolean; name: string }[];
  })[];
  coil?: { inner_m: number; outer_m: number };
  pitch_m: number;
  length_m: number;
}

export interface BuildPanelInput {
  id: string;
  title: string;
  banks: readonly BuildPanelBank[];
  handovers: readonly { from: Point; to: Point }[];
  /** Compass letters of the four edges of the drawing: up, right, down, left. */
  compass: readonly [string, string, string, string];
  length(value_m: number): string;
  small(value_m: number): string;
}

/** Panel to scale with dimensions: banks, tubes and ends numbered, compass ends marked. */
export function buildPanel(input: BuildPanelInput): BuildDrawing {
  const shapes: BuildShape[] = [];
  const points: Point[] = [];
  input.banks.forEach((bank, k) => {
    // tubes have room beside each other's numbers, coils are short
    const along = bank.coil ? 0.05 + 0.24 * under(input.banks, k) : 0.03 + 0.06 * under(input.banks, k);
    const named = everyNth(bank, unitOf(input));
    for (const [i, tube] of bank.tubes.entries()) {
      points.push(tube.from, tube.to);
      if (bank.coil) {
        const centre: Point = [(tube.from[0] + tube.to[0]) / 2, (tube.from[1] + tube.to[1]) / 2];
        shapes.push(
          { kind: 'circle', layer: 'pipe', centre, radius_m: bank.coil.outer_m / 2 },
          { kind: 'circle', layer: 'pipe', centre, radius_m: bank.coil.inner_m / 2 },
        );
        points.push(
          [centre[0] - bank.coil.outer_m / 2, centre[1] - bank.coil.outer_m / 2],
          [centre[0] + bank.coil.outer_m / 2, centre[1] + bank.coil.outer_m / 2],
        );
      } else shapes.push({ kind: 'line', layer: 'pipe', from: tube.from, to: tube.to, weight: 'normal' });
      const n = i + 1;
      if (named(n))
        shapes.push({
          kind: 'text',
          layer: 'text',
          at: between(tube.from, tube.to, along),
          text: String(n),
          size: 10,
        });
    }
    for (const h of bank.headers) {
      shapes.push(pipeBody(h, 'fitting'));
      points.push(h.from, h.to);
      for (const end of h.ends) {
        shapes.push({
          kind: 'circle',
          layer: 'fitting',
          centre: end.at,
          radius_m: h.outside_m * 0.55,
          filled: !end.open,
        });
      }
    }
  });
  for (const h of input.handovers)
    shapes.push({ kind: 'line', layer: 'fitting', from: h.from, to: h.to, weight: 'heavy' });
  const box = boxOf(points, 0.12);
  const unit = paperScale(box);
  dimensions(input, shapes, box, unit.y);
  input.banks.forEach((bank, k) => {
    const middle = bank.tubes[Math.floor(bank.tubes.length / 2)];
    if (middle)
      shapes.push({
        kind: 'text',
        layer: 'text',
        at: between(middle.from, middle.to, nameShare(input.banks, k)),
        text: bank.name,
        size: 13,
        bold: true,
        plate: true,
      });
  });
  shapes.push(...compassLetters(input.compass, box, { up: 46, down: 16, side: 46 }));
  const tubes = input.banks.reduce((sum, b) => sum + b.tubes.length, 0);
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${input.banks.map((b) => `${b.name} with ${b.tubes.length} of ${input.length(b.length_m)} at a pitch of ${input.small(b.pitch_m)}`).join('; ')}. ${tubes} in all.`,
    shapes,
    box,
    stretch: 1,
  };
}

type Laid = { readonly tubes: readonly BuildPipe[] };

/** How many banks before this one lie in the same place: nested ones, whose letters must not meet. */
function under(banks: readonly Laid[], k: number): number {
  const box = (b: Laid) =>
    boxOf(
      b.tubes.flatMap((t) => [t.from, t.to]),
      0,
    );
  const own = box(banks[k]);
  return banks.slice(0, k).filter((b) => {
    const other = box(b);
    return own.x0 < other.x1 && other.x0 < own.x1 && own.y0 < other.y1 && other.y0 < own.y1;
  }).length;
}

/** Where along its tubes a bank's name stands: in the middle, or beside those of the banks in the same place. */
export function nameShare(banks: readonly Laid[], k: number): number {
  const n = under(banks, k);
  return 0.5 + 0.16 * Math.ceil(n / 2) * (n % 2 === 0 ? 1 : -1);
}

/** Least room that a tube's number takes up and down, in paper units. */
const NUMBER_UNITS = 11;

/** Metres of a paper unit, before the box of everything that is drawn is known. */
function unitOf(input: BuildPanelInput): number {
  const points = input.banks.flatMap((b) => [...b.tubes, ...b.headers].flatMap((t) => [t.from, t.to]));
  return paperScale(boxOf(points, 0.12)).x;
}

/** Which tubes are numbered: the first, the last, and as many between as there is room for, five or ten apart. */
function everyNth(bank: BuildPanelBank, unit_m: number): (n: number) => boolean {
  const count = bank.tubes.length;
  const pitch = bank.pitch_m / unit_m;
  const step = [1, 5, 10, 20, 50, 100].find((k) => k * pitch >= NUMBER_UNITS && count / k <= 12) ?? 200;
  return (n) =>
    n === 1 ||
    (n === count && (n - 1) * pitch >= NUMBER_UNITS) ||
    (n % step === 0 && (count - n) * pitch >= NUMBER_UNITS && (n - 1) * pitch >= NUMBER_UNITS);
}

/** Banks that are alike in a line of their own: `A1, A2: 14 at 82 mm pitch`. */
function captions(input: BuildPanelInput): string[] {
  const alike = new Map<string, string[]>();
  for (const bank of input.banks) {
    if (bank.tubes.length < 2) continue;
    const text = `${bank.tubes.length} at ${input.small(bank.pitch_m)} pitch`;
    alike.set(text, [...(alike.get(text) ?? []), bank.name]);
  }
  return [...alike].map(([text, names]) => `${names.join(', ')}: ${text}`);
}

function dimensions(
  input: BuildPanelInput,
  shapes: BuildShape[],
  box: BuildDrawing['box'],
  unit_m: number,
): void {
  const bank = input.banks[0];
  const first = bank?.tubes[0];
  const last = bank?.tubes[bank.tubes.length - 1];
  if (!bank || !first || !last) return;
  const along: Point = [first.to[0] - first.from[0], first.to[1] - first.from[1]];
  const horizontal = Math.abs(along[0]) >= Math.abs(along[1]);
  const all = input.banks.flatMap((b) => b.tubes.flatMap((t) => [t.from, t.to]));
  const xs = all.map((p) => p[0]);
  const ys = all.map((p) => p[1]);
  const wide = bank.coil ? bank.coil.outer_m / 2 : 0;
  const [x0, x1] = [Math.min(...xs) - (horizontal ? 0 : wide), Math.max(...xs) + (horizontal ? 0 : wide)];
  const [y0, y1] = [Math.min(...ys) - (horizontal ? wide : 0), Math.max(...ys) + (horizontal ? wide : 0)];
  const lengthText = bank.coil
    ? input.length(horizontal ? x1 - x0 : y1 - y0)
    : `tube ${input.length(bank.length_m)}`;
  shapes.push(
    {
      kind: 'dimension',
      layer: 'dimension',
      from: [x0, box.y1],
      to: [x1, box.y1],
      offset: 20,
      text: horizontal ? lengthText : input.length(x1 - x0),
    },
    {
      kind: 'dimension',
      layer: 'dimension',
      from: [box.x0, y0],
      to: [box.x0, y1],
      offset: 24,
      text: horizontal ? input.length(y1 - y0) : lengthText,
    },
  );
  const lines = [...captions(input), 'header ends: dot capped, ring joined'];
  lines.forEach((text, i) => {
    const y = box.y0 - (32 + 13 * i) * unit_m;
    shapes.push({ kind: 'text', layer: 'text', at: [box.x0, y], text, size: 10.5, anchor: 'start' });
  });
}

/** Outline of a pipe seen from above. */
export function pipeBody(pipe: BuildPipe, layer: 'pipe' | 'fitting'): BuildShape {
  const [dx, dy] = [pipe.to[0] - pipe.from[0], pipe.to[1] - pipe.from[1]];
  const l = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [((-dy / l) * pipe.outside_m) / 2, ((dx / l) * pipe.outside_m) / 2];
  return {
    kind: 'polyline',
    layer,
    closed: true,
    points: [
      [pipe.from[0] + nx, pipe.from[1] + ny],
      [pipe.to[0] + nx, pipe.to[1] + ny],
      [pipe.to[0] - nx, pipe.to[1] - ny],
      [pipe.from[0] - nx, pipe.from[1] - ny],
    ],
  };
}

export function between(a: Point, b: Point, share: number): Point {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}

export function boxOf(points: readonly Point[], pad_m: number): BuildDrawing['box'] {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [x, y] of points) {
    box.x0 = Math.min(box.x0, x - pad_m);
    box.y0 = Math.min(box.y0, y - pad_m);
    box.x1 = Math.max(box.x1, x + pad_m);
    box.y1 = Math.max(box.y1, y + pad_m);
  }
  return box.x1 > box.x0 && box.y1 > box.y0 ? box : { x0: 0, y0: 0, x1: 1, y1: 1 };
}

/** Compass letters outside the four edges of a drawing, clear of dimensions: how far is told in paper units. */
export function compassLetters(
  letters: readonly [string, string, string, string],
  box: BuildDrawing['box'],
  room: { up: number; down: number; side: number },
): BuildShape[] {
  const unit = paperScale(box);
  const x = (box.x0 + box.x1) / 2;
  const y = (box.y0 + box.y1) / 2;
  const at: Point[] = [
    [x, box.y1 + room.up * unit.y],
    [box.x1 + 30 * unit.x, y],
    [x, box.y0 - room.down * unit.y],
    [box.x0 - room.side * unit.x, y],
  ];
  return letters.map((text, i) => ({ kind: 'text', layer: 'text', at: at[i], text, size: 13, bold: true }));
}

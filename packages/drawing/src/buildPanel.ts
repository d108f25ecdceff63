import type { BuildDrawing, BuildShape } from './buildPlan';
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
  for (const bank of input.banks) {
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
      if (n === 1 || n === bank.tubes.length || n % 5 === 0)
        shapes.push({
          kind: 'text',
          layer: 'text',
          at: between(tube.from, tube.to, 0.03),
          text: String(n),
          size: 9,
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
  }
  for (const h of input.handovers)
    shapes.push({ kind: 'line', layer: 'fitting', from: h.from, to: h.to, weight: 'heavy' });
  const box = boxOf(points, 0.12);
  dimensions(input, shapes, box);
  for (const bank of input.banks) {
    const middle = bank.tubes[Math.floor(bank.tubes.length / 2)];
    if (middle)
      shapes.push({
        kind: 'text',
        layer: 'text',
        at: between(middle.from, middle.to, 0.5),
        text: bank.name,
        size: 13,
        bold: true,
      });
  }
  shapes.push(...compassLetters(input.compass, box));
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

function dimensions(input: BuildPanelInput, shapes: BuildShape[], box: BuildDrawing['box']): void {
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
      from: [x0, y1],
      to: [x1, y1],
      offset: 34,
      text: horizontal ? lengthText : input.length(x1 - x0),
    },
    {
      kind: 'dimension',
      layer: 'dimension',
      from: [x0, y0],
      to: [x0, y1],
      offset: 36,
      text: horizontal ? input.length(y1 - y0) : lengthText,
    },
  );
  if (bank.tubes.length > 1) {
    const second = bank.tubes[1];
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [(x0 + x1) / 2, box.y0 - (box.x1 - box.x0) * 0.014],
      text: `${bank.name}: ${bank.tubes.length} at ${input.small(Math.hypot(second.from[0] - first.from[0], second.from[1] - first.from[1]))} pitch`,
      size: 11,
    });
  }
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

/** North, east, south and west where the edges of the sheet look. */
export function compassLetters(
  letters: readonly [string, string, string, string],
  box: BuildDrawing['box'],
): BuildShape[] {
  const mx = (box.x0 + box.x1) / 2;
  const high = box.y0 + (box.y1 - box.y0) * 0.86;
  const w = (box.x1 - box.x0) * 0.055;
  const at: Point[] = [
    [mx + (box.x1 - box.x0) * 0.3, box.y1],
    [box.x1 + w * 0.5, high],
    [mx + (box.x1 - box.x0) * 0.3, box.y0 - (box.x1 - box.x0) * 0.022],
    [box.x0 - w * 0.9, high],
  ];
  return letters.map((text, i) => ({ kind: 'text', layer: 'text', at: at[i], text, size: 12, bold: true }));
}

import { type BuildPipe, boxOf, compassLetters } from './buildPanel';
import type { BuildDrawing, BuildShape } from './buildPlan';
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

/** Support lines under the tubes, with their distances from the near ends. */
export function supportPlan(input: SupportPlanInput): BuildDrawing {
  const shapes: BuildShape[] = [];
  const points: Point[] = [];
  let count = 0;
  input.banks.forEach((bank, b) => {
    const first = bank.tubes[0];
    const last = bank.tubes[bank.tubes.length - 1];
    if (!first || !last) return;
    for (const t of [...bank.tubes, ...bank.headers]) {
      points.push(t.from, t.to);
      shapes.push({ kind: 'line', layer: 'pipe', from: t.from, to: t.to, weight: 'hair' });
    }
    const length = Math.hypot(first.to[0] - first.from[0], first.to[1] - first.from[1]) || 1;
    const u: Point = [(first.to[0] - first.from[0]) / length, (first.to[1] - first.from[1]) / length];
    const across: Point = [last.from[0] - first.from[0], last.from[1] - first.from[1]];
    const wide = Math.hypot(across[0], across[1]);
    const n: Point = wide > 1e-9 ? [across[0] / wide, across[1] / wide] : [-u[1], u[0]];
    const over = (bank.member_m - wide) / 2;
    // neighbouring labels stand in two rows
    const alongX = Math.abs(u[0]) > Math.abs(u[1]);
    const low = length * 0.018;
    bank.lines_m.forEach((d, i) => {
      count++;
      const at: Point = [first.from[0] + u[0] * d, first.from[1] + u[1] * d];
      const a: Point = [at[0] - n[0] * over, at[1] - n[1] * over];
      const c: Point = [at[0] + n[0] * (wide + over), at[1] + n[1] * (wide + over)];
      points.push(a, c);
      shapes.push({ kind: 'line', layer: 'support', from: a, to: c, weight: 'heavy' });
      if (b === 0)
        shapes.push({
          kind: 'text',
          layer: 'text',
          at: alongX && i % 2 === 1 ? [a[0] - n[0] * low, a[1] - n[1] * low] : a,
          text: input.length(d),
          size: 9,
          anchor: alongX ? 'middle' : 'end',
        });
    });
    const middle: Point = [
      first.from[0] + u[0] * length * 0.5 + across[0] / 2,
      first.from[1] + u[1] * length * 0.5 + across[1] / 2,
    ];
    shapes.push({ kind: 'text', layer: 'text', at: middle, text: bank.name, size: 12, bold: true });
    if (b === 0 && bank.lines_m.length > 1) {
      const [d0, d1] = bank.lines_m;
      const from: Point = [
        first.from[0] + u[0] * d0 + n[0] * (wide + over),
        first.from[1] + u[1] * d0 + n[1] * (wide + over),
      ];
      const to: Point = [
        first.from[0] + u[0] * d1 + n[0] * (wide + over),
        first.from[1] + u[1] * d1 + n[1] * (wide + over),
      ];
      shapes.push({
        kind: 'dimension',
        layer: 'dimension',
        from,
        to,
        offset: 26,
        text: input.length(d1 - d0),
      });
    }
  });
  const box = boxOf(points, 0.08);
  shapes.push(...compassLetters(input.compass, box));
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${count} support lines. ${input.banks.map((b) => `${b.name}: ${b.lines_m.map((d) => input.length(d)).join(', ')} from the near end, members ${input.length(b.member_m)}`).join('; ')}.`,
    shapes,
    box,
    stretch: 1,
  };
}

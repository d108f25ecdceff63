import type { Item, Point } from './display';
import type { PanelPlan } from './panelPlan';
import type { SheetTube } from './sheetTube';

/** Numbers painted on the tubes: the first, each fifth and the last, where nothing else stands. */
export function tubeNumbers(plan: PanelPlan, tubes: readonly SheetTube[], gap: number): Item[] {
  const out: Item[] = [];
  const xs = tubes.flatMap((t) => [t.from[0], t.to[0]]);
  const ys = tubes.flatMap((t) => [t.from[1], t.to[1]]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const byBank = new Map<string, SheetTube[]>();
  for (const t of tubes) {
    const name = `${t.section}/${t.bank}`;
    byBank.set(name, [...(byBank.get(name) ?? []), t]);
  }
  for (const [name, mine] of byBank) {
    const header = plan.headers.find((h) => `${h.section}/${h.bank}` === name && h.header === 'supply');
    const step =
      mine.length > 1 ? Math.hypot(mine[1].from[0] - mine[0].from[0], mine[1].from[1] - mine[0].from[1]) : 99;
    for (const t of mine) {
      const edge = t.position === 1 || t.position === mine.length;
      const fifth = t.position % 5 === 0 && mine.length - t.position > 1 && step * 5 > 22;
      if (!edge && !fifth) continue;
      const [dx, dy] = [t.to[0] - t.from[0], t.to[1] - t.from[1]];
      const l = Math.hypot(dx, dy) || 1;
      const back = header === undefined ? 13 : gap + header.rank * 12;
      const at: Point = [t.from[0] - (dx / l) * back, t.from[1] - (dy / l) * back];
      if (at[0] > x0 && at[0] < x1 && at[1] > y0 - 1 && at[1] < y1 + 1) continue;
      out.push({
        kind: 'text',
        layer: 'text',
        at: [at[0], at[1] + 3.5],
        text: String(t.position),
        size: 10.5,
        ink: 'soft',
        anchor: 'middle',
        halo: 'sheet',
      });
    }
  }
  return out;
}

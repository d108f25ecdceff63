import type { Item } from '@sunlap/drawing/display';
import { edges } from '@sunlap/drawing/panelPlan';
import type { PanelSheet } from '@sunlap/drawing/panelSheet';
import { doc, study, units } from '../../app/state';
import { neighboursOf } from '../../edits/plumbing';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';

/** Words at the ends where water comes and goes, and at the edges of the compass. */
export function labels(sheet: PanelSheet, width: number, height: number, small: boolean): Item[] {
  const { collector } = doc.value.project;
  const out: Item[] = [];
  const next = neighboursOf(collector.plumbing);
  const heat = study.value?.heat?.result;
  const names = (ids: string[]) =>
    ids.map((id) => collector.sections.find((s) => s.id === id)?.id ?? id).join(', ');
  for (const s of collector.sections) {
    const n = next.get(s.id);
    const first = s.banks[0].id;
    const last = s.banks[s.banks.length - 1].id;
    const here = heat?.banks.filter((b) => b.section === s.id) ?? [];
    for (const e of sheet.ends) {
      const inlet = e.section === s.id && e.bank === first && e.header === 'supply';
      const outlet = e.section === s.id && e.bank === last && e.header === 'gather';
      if (!e.open || !(inlet || outlet)) continue;
      const ids = (inlet ? n?.from : n?.to) ?? [];
      const where = ids.includes('pool')
        ? inlet
          ? t.ends.fromPool
          : t.ends.toPool
        : inlet
          ? t.ends.fromSection(names(ids))
          : t.ends.toSection(names(ids));
      const t_C = inlet
        ? here.find((b) => b.id === first)?.inlet_C
        : here.find((b) => b.id === last)?.outlet_C;
      const value = t_C === undefined ? '' : ` ${say(t_C, 'temperature', units.value)}`;
      const vertical = Math.abs(e.outward[1]) > Math.abs(e.outward[0]);
      const box = sheet.boxes.find((b) => b.id === s.id);
      const leftSide = box === undefined || e.at[0] < box.x + box.width / 2;
      const far = small && sheet.boxes.length > 1;
      if (far) continue;
      out.push({
        kind: 'text',
        layer: 'text',
        at: vertical
          ? [e.at[0] + (leftSide ? 16 : -16), e.at[1] + e.outward[1] * 30 + 4]
          : [e.at[0] + e.outward[0] * 20, e.at[1] + (e.header === 'supply' ? 24 : -18)],
        text: where + value,
        size: small ? 11.5 : 12.5,
        weight: 550,
        ink: 'ink',
        anchor: vertical ? (leftSide ? 'start' : 'end') : e.outward[0] > 0 ? 'start' : 'end',
        halo: 'sheet',
      });
    }
  }
  const letter = edges(collector.placement.facing_deg);
  const box = sheet.boxes.reduce(
    (a, b) => ({
      x0: Math.min(a.x0, b.x),
      y0: Math.min(a.y0, b.y),
      x1: Math.max(a.x1, b.x + b.width),
      y1: Math.max(a.y1, b.y + b.height),
    }),
    { x0: width, y0: height, x1: 0, y1: 0 },
  );
  const mid = (box.y0 + box.y1) / 2;
  const edge = (x: number, y: number, text: string): Item => ({
    kind: 'text',
    layer: 'text',
    at: [x, y],
    text,
    size: 12.5,
    weight: 680,
    ink: 'soft',
    anchor: 'middle',
  });
  out.push(
    edge(small ? 14 : 22, small ? 24 : mid + 4, letter.left),
    edge(width - (small ? 14 : 22), small ? 24 : mid + 4, letter.right),
  );
  if (sheet.boxes.length > 1)
    for (const b of sheet.boxes)
      out.push({
        kind: 'text',
        layer: 'text',
        at: [b.x + b.width - 26, b.y + b.height + (small ? 20 : 22)],
        text: b.id,
        size: 13,
        weight: 680,
        ink: 'ink',
        anchor: 'middle',
        halo: 'sheet',
      });
  return out;
}

/** Least and most tube, said on the tube. */
export function shareLabels(sheet: PanelSheet): Item[] {
  const banks = study.value?.flow.result.collector.banks ?? [];
  const out: Item[] = [];
  for (const b of banks) {
    const live = b.tubes.filter((x) => x.state === 'full' || x.state === 'outfall');
    if (live.length < 2) continue;
    const low = live.reduce((p, q) => (q.share < p.share ? q : p));
    const high = live.reduce((p, q) => (q.share > p.share ? q : p));
    for (const x of [low, high]) {
      const line = sheet.tubes.find(
        (s) => s.section === b.section && s.bank === b.id && s.position === x.position,
      );
      if (line === undefined) continue;
      const d = Math.round((x.share - 1) * 100);
      if (d === 0) continue;
      const u = Math.min(x.share / 2, 1);
      const way = line.to[0] >= line.from[0] ? 1 : -1;
      out.push({
        kind: 'text',
        layer: 'text',
        at: [
          line.from[0] + (line.to[0] - line.from[0]) * u + way * 8,
          line.from[1] + (line.to[1] - line.from[1]) * u + 4,
        ],
        text: `${d > 0 ? '+' : '−'}${Math.abs(d)} %`,
        size: 11.5,
        weight: 550,
        ink: 'ink',
        anchor: way > 0 ? 'start' : 'end',
        halo: 'sheet',
      });
    }
  }
  return out;
}

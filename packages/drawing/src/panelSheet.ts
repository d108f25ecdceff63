import type { Anchor, HeatStop, Item, Point, Sheet } from './display';
import { headerBody, offsetOutward } from './headerBody';
import { panelDimensions } from './panelDimensions';
import { type PanelInput, type PanelPlan, panelPlan, type Uv } from './panelPlan';
import type { SheetTube } from './sheetTube';
import { airMarks, blockedMarks, coilTube, shareBar } from './tubeMarks';
import { tubeNumbers } from './tubeNumbers';

export type TubeLook = 'full' | 'outfall' | 'unfilled' | 'airBound' | 'blocked';

/** What is known of the water in one tube. */
export interface TubeData {
  bank: string;
  section: string;
  position: number;
  look: TubeLook;
  /** Air may stay in it though it flows. */
  holdsAir: boolean;
  /** Over the mean of its bank. */
  share: number;
  heat: readonly HeatStop[];
}

export interface HeaderData {
  section: string;
  bank: string;
  header: 'supply' | 'gather';
  /** Along the header's pieces from the first end to the last; sign is direction. */
  flow_m3s: readonly number[];
  heat: number;
}

export interface PanelData {
  tubes: readonly TubeData[];
  headers: readonly HeaderData[];
  /** Flow that is drawn as the widest header. */
  fullFlow_m3s: number;
}

export interface PanelFrame {
  width: number;
  height: number;
  /** Room for dimensions, ends and labels. */
  margin: { left: number; right: number; top: number; bottom: number };
  mode: 'heat' | 'share';
  /** One section alone, or all. */
  only?: string;
  /** Least distance between tubes on the sheet before the scale across them is stretched [px]. */
  leastPitch: number;
  trueScale: boolean;
  /** From the panel to the dimension over it, and to the one left of it. */
  dimensionGap: number;
  countGap: number;
  /** From a tube's end to its number. */
  numberGap: number;
  ghost?: PanelInput;
}

export interface SheetEnd {
  section: string;
  bank: string;
  header: 'supply' | 'gather';
  end: 'first' | 'last';
  at: Point;
  /** On along the header, away from its middle. */
  outward: Point;
  /** Away from the tubes. */
  aside: Point;
  open: boolean;
}

export interface PanelSheet extends Sheet {
  tubes: SheetTube[];
  ends: SheetEnd[];
  /** Sheet units per metre along u and v. */
  scale: { u: number; v: number };
  boxes: { id: string; x: number; y: number; width: number; height: number }[];
}

interface Map2d {
  scale: { u: number; v: number };
  point: (p: Uv) => Point;
}

function fitted(input: PanelInput, box: PanelPlan['box'], frame: PanelFrame): Map2d {
  const { margin: m } = frame;
  const [w, h] = [frame.width - m.left - m.right, frame.height - m.top - m.bottom];
  const [du, dv] = [Math.max(box.u1 - box.u0, 0.05), Math.max(box.v1 - box.v0, 0.05)];
  const even = Math.min(w / du, h / dv);
  const scale = { u: even, v: even };
  const turned = input.sections.some((s) => s.angle_deg % 90 !== 0);
  const round = input.sections.some((s) => s.banks.some((b) => b.kind === 'coil'));
  if (!frame.trueScale && !turned && !round) {
    const alongU = input.sections.every((s) => Math.abs(s.angle_deg) !== 90);
    const pitch = Math.min(...input.sections.flatMap((s) => s.banks.map((b) => b.pitch_m)));
    const wanted = Math.max(even, frame.leastPitch / pitch);
    if (alongU) scale.v = Math.min(wanted, h / dv);
    else scale.u = Math.min(wanted, w / du);
  }
  const left = m.left + (w - du * scale.u) / 2;
  const top = m.top + (h - dv * scale.v) / 2;
  return {
    scale,
    point: ([u, v]) => [left + (u - box.u0) * scale.u, top + (box.v1 - v) * scale.v],
  };
}

const key = (section: string, bank: string, more: string | number) => `${section}/${bank}/${more}`;

/**
 * The panel as a sheet: every tube coloured by its water or barred by its share, headers as wide as their flow,
 * ends, numbers, dimensions with room for their controls.
 *
 * The scale across the tubes may be stretched so that single tubes can be seen and touched; both scales are
 * returned and belong in the title block.
 */
export function panelSheet(whole: PanelInput, data: PanelData, frame: PanelFrame): PanelSheet {
  const shown = frame.only === undefined ? whole.sections : whole.sections.filter((s) => s.id === frame.only);
  const input = { ...whole, sections: shown.length > 0 ? shown : whole.sections };
  const plan = panelPlan(input);
  const map = fitted(input, plan.box, frame);
  const at = map.point;
  const items: Item[] = [];
  const anchors: Anchor[] = [];
  const tubes: SheetTube[] = [];
  const ends: SheetEnd[] = [];
  const tubeData = new Map(data.tubes.map((t) => [key(t.section, t.bank, t.position), t]));
  const headerData = new Map(data.headers.map((h) => [key(h.section, h.bank, h.header), h]));
  const banks = new Map(input.sections.flatMap((s) => s.banks.map((b) => [key(s.id, b.id, ''), b] as const)));

  if (frame.ghost !== undefined) items.push(...ghost(frame.ghost, frame, at));

  for (const tube of plan.tubes) {
    const bank = banks.get(key(tube.section, tube.bank, ''))!;
    const d = tubeData.get(key(tube.section, tube.bank, tube.position));
    const [from, to] = [at(tube.from), at(tube.to)];
    const horizontal = Math.abs(to[0] - from[0]) > Math.abs(to[1] - from[1]);
    const across = horizontal ? map.scale.v : map.scale.u;
    const width = Math.max(
      1.6,
      Math.min(bank.tubeDiameter_m * across * 1.15, bank.pitch_m * across * 0.62, 11),
    );
    tubes.push({ section: tube.section, bank: tube.bank, position: tube.position, from, to, width });
    const stops = d?.heat ?? [{ at: 0, heat: 0 }];
    if (bank.coil !== undefined)
      items.push(...coilTube(from, to, bank.coil, map.scale.u, stops, d?.look ?? 'full'));
    else if (d === undefined || d.look === 'full' || d.look === 'outfall') {
      if (frame.mode === 'share') items.push(...shareBar(from, to, width, d?.share ?? 1));
      else if (bank.kind === 'rated') items.push(...absorber(from, to, bank.pitch_m * across, stops));
      else items.push({ kind: 'water', layer: 'water', from, to, width, stops });
      if (d?.look === 'outfall') items.push(...airMarks(from, to, width, 'half'));
      else if (d?.holdsAir === true) items.push(...airMarks(from, to, width, 'some'));
    } else if (d.look === 'blocked') items.push(...blockedMarks(from, to, width));
    else items.push(...airMarks(from, to, width, 'all'));
  }

  for (const h of plan.headers) {
    const d = headerData.get(key(h.section, h.bank, h.header));
    items.push(...headerBody(h, at, d, data.fullFlow_m3s));
    for (const end of ['first', 'last'] as const) {
      const p = offsetOutward(at(h[end]), h, at);
      const other = at(h[end === 'first' ? 'last' : 'first']);
      const here = at(h[end]);
      const l = Math.hypot(here[0] - other[0], here[1] - other[1]) || 1;
      ends.push({
        section: h.section,
        bank: h.bank,
        header: h.header,
        end,
        at: p,
        outward: [(here[0] - other[0]) / l, (here[1] - other[1]) / l],
        aside: aside(h.outward, at),
        open: h.open.includes(end),
      });
    }
  }

  for (const j of plan.handovers) {
    const gather = plan.headers.find(
      (h) => h.section === j.section && h.bank === j.fromBank && h.header === 'gather',
    );
    const supply = plan.headers.find(
      (h) => h.section === j.section && h.bank === j.toBank && h.header === 'supply',
    );
    if (gather === undefined || supply === undefined) continue;
    const [a, b] = [offsetOutward(at(j.from), gather, at), offsetOutward(at(j.to), supply, at)];
    items.push(...handover(a, b, j.outward, headerData.get(key(j.section, j.fromBank, 'gather'))?.heat ?? 0));
  }

  items.push(...tubeNumbers(plan, tubes, frame.numberGap));
  const boxes = plan.sections.map(({ id, box }) => {
    const [a, b] = [at([box.u0, box.v1]), at([box.u1, box.v0])];
    return { id, x: a[0], y: a[1], width: b[0] - a[0], height: b[1] - a[1] };
  });
  const coils = input.sections.some((x) => x.banks.some((b) => b.kind === 'coil'));
  const dims = panelDimensions(tubes, boxes, frame, coils);
  items.push(...dims.items);
  anchors.push(...dims.anchors);
  return { width: frame.width, height: frame.height, items, anchors, tubes, ends, scale: map.scale, boxes };
}

function aside(outward: Uv, at: Map2d['point']): Point {
  const [a, b] = [at([0, 0]), at(outward)];
  const l = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / l, (b[1] - a[1]) / l];
}

function ghost(input: PanelInput, frame: PanelFrame, at: Map2d['point']): Item[] {
  const shown = frame.only === undefined ? input.sections : input.sections.filter((s) => s.id === frame.only);
  if (shown.length === 0) return [];
  const plan = panelPlan({ ...input, sections: shown });
  const dash = [5, 4];
  const out: Item[] = plan.headers.map((h) => ({
    kind: 'line',
    layer: 'ghost',
    from: at(h.first),
    to: at(h.last),
    ink: 'soft',
    width: 1.2,
    dash,
  }));
  for (const bank of new Set(plan.tubes.map((t) => `${t.section}/${t.bank}`))) {
    const mine = plan.tubes.filter((t) => `${t.section}/${t.bank}` === bank);
    for (const t of [mine[0], mine[mine.length - 1]])
      out.push({
        kind: 'line',
        layer: 'ghost',
        from: at(t.from),
        to: at(t.to),
        ink: 'soft',
        width: 1.2,
        dash,
      });
  }
  return out;
}

function absorber(from: Point, to: Point, breadth: number, stops: readonly HeatStop[]): Item[] {
  const fill: Item = { kind: 'water', layer: 'water', from, to, width: Math.max(4, breadth * 0.9), stops };
  return [fill];
}

function handover(a: Point, b: Point, outward: Uv, heat: number): Item[] {
  const reach = 9;
  const [ox, oy] = [outward[0] * reach, -outward[1] * reach];
  const straight = Math.abs(a[0] - b[0]) < 2 || Math.abs(a[1] - b[1]) < 2;
  const points: Point[] =
    straight && Math.hypot(a[0] - b[0], a[1] - b[1]) < 60
      ? [a, b]
      : [a, [a[0] + ox, a[1] + oy], [b[0] + ox, b[1] + oy], b];
  return [
    { kind: 'polyline', layer: 'built', points, ink: 'ink', width: 7.4 },
    { kind: 'waterPath', layer: 'built', points, width: 4.6, heat },
  ];
}

/** Inputs and plain geometry of a panel in its own plane, in metres: `u` along the contour, `v` up the slope. */

export type HeaderEnd = 'first' | 'last';

export interface PanelBank {
  id: string;
  kind: 'tubes' | 'coil' | 'rated';
  /** Across the section: axis of the first tube, or edge of the first coil or absorber. */
  across_m: number;
  /** From there to the first unit's axis: 0 for tubes, half a width for coils and absorbers. */
  shift_m: number;
  along_m: number;
  depth_m: number;
  count: number;
  length_m: number;
  pitch_m: number;
  tubeDiameter_m: number;
  /** 0 where there is no header. */
  supplyDiameter_m: number;
  gatherDiameter_m: number;
  /** Coils: inner and outer diameter of the coil, and turns. */
  coil?: { inner_m: number; outer_m: number; turns: number };
}

export interface PanelSection {
  id: string;
  u_m: number;
  v_m: number;
  /** Tubes run along the contour turned by this much towards up-slope: 0 contour, 90 slope. */
  angle_deg: number;
  inletSide: 'near' | 'far';
  inletEnds: readonly HeaderEnd[];
  outletEnds: readonly HeaderEnd[];
  banks: readonly PanelBank[];
  handovers: readonly { from: HeaderEnd; to: HeaderEnd }[][];
}

export interface PanelInput {
  sections: readonly PanelSection[];
  /** Where the plane looks: 0 north, 90 east. */
  facing_deg: number;
}

export type Uv = readonly [u: number, v: number];

export interface PlanTube {
  bank: string;
  section: string;
  /** Painted number, from 1 at the header's first end. */
  position: number;
  /** Upstream end first. */
  from: Uv;
  to: Uv;
}

export interface PlanHeader {
  section: string;
  bank: string;
  header: 'supply' | 'gather';
  first: Uv;
  last: Uv;
  /** Towards the outside of the tubes, length 1. */
  outward: Uv;
  diameter_m: number;
  /** Ends that water enters or leaves by. */
  open: HeaderEnd[];
  /** Which nested header this is, counted outwards from the tubes, so that a drawing can set them apart. */
  rank: number;
}

export interface PlanHandover {
  section: string;
  fromBank: string;
  toBank: string;
  from: Uv;
  to: Uv;
  fromEnd: HeaderEnd;
  toEnd: HeaderEnd;
  outward: Uv;
  ranks: [number, number];
}

export interface PanelPlan {
  tubes: PlanTube[];
  headers: PlanHeader[];
  handovers: PlanHandover[];
  /** Least and most u and v over all tubes and headers. */
  box: { u0: number; v0: number; u1: number; v1: number };
  sections: { id: string; box: { u0: number; v0: number; u1: number; v1: number } }[];
}

/**
 * Section axes (along the tubes, across them) to the collector's plane. Of the two ways across, the one that goes
 * right or up, so that contour tubes count upwards and tubes up the slope count to the right.
 */
export function toPlane(section: PanelSection, along_m: number, across_m: number): Uv {
  const upright = Math.abs(section.angle_deg) === 90;
  const a = (section.angle_deg * Math.PI) / 180;
  const [c, s] = [upright ? 0 : Math.cos(a), upright ? Math.sign(section.angle_deg) : Math.sin(a)];
  const turn = c - s >= 0 ? 1 : -1;
  return [section.u_m + along_m * c - across_m * s * turn, section.v_m + along_m * s + across_m * c * turn];
}

/** Across the section from one header end to the other. */
export function bankSpan(bank: PanelBank): { first: number; last: number } {
  const middle = bank.across_m + bank.shift_m;
  return { first: middle - bank.pitch_m / 2, last: middle + (bank.count - 0.5) * bank.pitch_m };
}

const overlaps = (a: PanelBank, b: PanelBank) =>
  bankSpan(a).first < bankSpan(b).last - 1e-9 && bankSpan(b).first < bankSpan(a).last - 1e-9;

/** Banks of a section that lie within one another, in the order of their first tube. */
export function nestedWith(section: PanelSection, bank: PanelBank): PanelBank[] {
  return section.banks.filter((other) => overlaps(other, bank)).sort((a, b) => a.across_m - b.across_m);
}

/** Side where bank `n` is fed; sides alternate from bank to bank. */
export function supplySide(section: PanelSection, n: number): 'near' | 'far' {
  const other = section.inletSide === 'near' ? 'far' : 'near';
  return n % 2 === 0 ? section.inletSide : other;
}

/**
 * Geometry of every tube, header and hand-over in metres. Pure; makes no choice of scale.
 *
 * @example panelPlan(input).box // { u0: 0, v0: 0, u1: 9.6, v1: 2.6 }
 */
export function panelPlan(input: PanelInput): PanelPlan {
  const tubes: PlanTube[] = [];
  const headers: PlanHeader[] = [];
  const handovers: PlanHandover[] = [];
  const sections: PanelPlan['sections'] = [];
  for (const section of input.sections) {
    const started = { tubes: tubes.length, headers: headers.length };
    section.banks.forEach((bank, n) => {
      const side = supplySide(section, n);
      const length = bank.coil === undefined ? bank.length_m : bank.coil.outer_m;
      const [near, far] = [bank.along_m, bank.along_m + length];
      const [start, end] = side === 'near' ? [near, far] : [far, near];
      for (let i = 1; i <= bank.count; i++) {
        const across = bank.across_m + bank.shift_m + (i - 1) * bank.pitch_m;
        tubes.push({
          section: section.id,
          bank: bank.id,
          position: i,
          from: toPlane(section, start, across),
          to: toPlane(section, end, across),
        });
      }
      const rank = nestedWith(section, bank).indexOf(bank);
      const out = (along: number): Uv => {
        const [a, b] = [toPlane(section, near, 0), toPlane(section, far, 0)];
        const l = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
        const sign = along === near ? -1 : 1;
        return [(sign * (b[0] - a[0])) / l, (sign * (b[1] - a[1])) / l];
      };
      const header = (which: 'supply' | 'gather', along: number, diameter_m: number, open: HeaderEnd[]) => {
        if (diameter_m > 0)
          headers.push({
            section: section.id,
            bank: bank.id,
            header: which,
            first: toPlane(section, along, bankSpan(bank).first),
            last: toPlane(section, along, bankSpan(bank).last),
            outward: out(along),
            diameter_m,
            open,
            rank,
          });
      };
      const before = n === 0 ? section.inletEnds : (section.handovers[n - 1] ?? []).map((h) => h.to);
      const after =
        n === section.banks.length - 1 ? section.outletEnds : (section.handovers[n] ?? []).map((h) => h.from);
      header('supply', start, bank.supplyDiameter_m, [...before]);
      header('gather', end, bank.gatherDiameter_m, [...after]);
    });
    section.handovers.forEach((joins, n) => {
      const [a, b] = [section.banks[n], section.banks[n + 1]];
      if (a === undefined || b === undefined) return;
      const find = (bank: PanelBank, which: string) =>
        headers.find((h) => h.section === section.id && h.bank === bank.id && h.header === which);
      const [gather, supply] = [find(a, 'gather'), find(b, 'supply')];
      if (gather === undefined || supply === undefined) return;
      for (const join of joins)
        handovers.push({
          section: section.id,
          fromBank: a.id,
          toBank: b.id,
          from: gather[join.from],
          to: supply[join.to],
          fromEnd: join.from,
          toEnd: join.to,
          outward: gather.outward,
          ranks: [gather.rank, supply.rank],
        });
    });
    sections.push({
      id: section.id,
      box: bounds([
        ...tubes.slice(started.tubes).flatMap((t) => [t.from, t.to]),
        ...headers.slice(started.headers).flatMap((h) => [h.first, h.last]),
      ]),
    });
  }
  return { tubes, headers, handovers, sections, box: bounds(sections.flatMap((s) => corners(s.box))) };
}

const corners = (b: PanelPlan['box']): Uv[] => [
  [b.u0, b.v0],
  [b.u1, b.v1],
];

function bounds(points: readonly Uv[]): PanelPlan['box'] {
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  return { u0: Math.min(...us), v0: Math.min(...vs), u1: Math.max(...us), v1: Math.max(...vs) };
}

/** Eight points of the compass. */
const WINDS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;
export type Wind = (typeof WINDS)[number];

/** Name of the compass direction nearest to a bearing. @example compass(184) // 'S' */
export function compass(bearing_deg: number): Wind {
  return WINDS[((Math.round(bearing_deg / 45) % 8) + 8) % 8];
}

/** What lies at each edge of the panel for one who stands below it and looks up the slope. */
export function edges(facing_deg: number): { top: Wind; bottom: Wind; left: Wind; right: Wind } {
  return {
    top: compass(facing_deg + 180),
    bottom: compass(facing_deg),
    left: compass(facing_deg + 90),
    right: compass(facing_deg - 90),
  };
}

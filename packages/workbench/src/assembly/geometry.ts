import type { Bank, Collector, HeaderEnd, Section } from '@sunlap/project/schema/collector';
import {
  distance_m,
  type PanelFrame,
  type PanelPoint,
  panelFrame,
  type SectionAxes,
  sectionAxes,
} from './frame';
import { type Neighbours, realNeighbours } from './neighbours';
import { type BankEnds, bankEnds, handoverAt, hasHeaders, spacing_m } from './plumbed-ends';
import type { PipeSize, PipeSizes } from './sizes';

/** From a header's centre line to the bottom of a branch socket: half the header and 1/16 in (derived rule). */
const BRANCH_ALLOWANCE_M = 0.0015875;

/** A tube, one coil or one rated absorber. */
export interface UnitGeometry {
  /** From 1 at the header's first end. */
  readonly position: number;
  /** From 1 nearest the inlet. */
  readonly number: number;
  /** Ends at the near and the far side of the section. */
  readonly near: PanelPoint;
  readonly far: PanelPoint;
  /** True when water enters at the near side. */
  readonly entersNear: boolean;
  readonly length_m: number;
  readonly volume_m3: number;
  /** How far it falls in the direction of flow over its whole length [m]; negative when it climbs. */
  readonly fall_m: number;
  /** Real neighbours in the sun; only tubes have them. */
  readonly neighbours: Neighbours | null;
}

export interface HeaderGeometry {
  readonly side: 'near' | 'far';
  readonly size: PipeSize;
  /** Header ends, lead-in included. */
  readonly first: PanelPoint;
  readonly last: PanelPoint;
  /** Tee centres from the first end to the last. */
  readonly tees: readonly PanelPoint[];
  readonly leadIn_m: number;
  /** Between tee centres. */
  readonly spacing_m: number;
  readonly length_m: number;
  readonly volume_m3: number;
  /** Ends that something is joined to. */
  readonly joined: readonly HeaderEnd[];
}

export interface BankGeometry {
  readonly section: number;
  readonly bank: number;
  /** JSON pointer into the project file. */
  readonly path: string;
  readonly kind: Bank['kind'];
  readonly ends: BankEnds;
  readonly size: PipeSize | null;
  readonly units: readonly UnitGeometry[];
  readonly spacing_m: number;
  readonly supply: HeaderGeometry | null;
  readonly gather: HeaderGeometry | null;
  /** Between the centre lines of the two headers; the unit's own length where there are none [m]. */
  readonly headerDistance_m: number;
  readonly volume_m3: number;
}

/** Where two banks are joined: straight distance between the two header ends. */
export interface HandoverGeometry {
  readonly from: PanelPoint;
  readonly to: PanelPoint;
  readonly distance_m: number;
}

export interface SectionGeometry {
  readonly index: number;
  readonly path: string;
  readonly axes: SectionAxes;
  readonly banks: readonly BankGeometry[];
  /** By step from bank to bank, one or two joins each. */
  readonly handovers: readonly (readonly HandoverGeometry[])[];
  /** Where water comes in and goes out; midway when both ends are used. */
  readonly inlet: PanelPoint;
  readonly outlet: PanelPoint;
}

export interface PanelGeometry {
  readonly frame: PanelFrame;
  readonly sections: readonly SectionGeometry[];
  /** All banks one after another, as the sections list them. */
  readonly banks: readonly BankGeometry[];
  /** Water in headers, tubes, coils and absorbers, without hand-over pipes [m³]. */
  readonly volume_m3: number;
  readonly lowest_m: number;
  readonly highest_m: number;
  /** Corners of what it covers in its plane. */
  readonly extent: { u0_m: number; v0_m: number; u1_m: number; v1_m: number };
}

/**
 * Where every tube, header, tee and hand-over of a collector lies.
 *
 * A bank's `length_m` is the tube as cut; header centre lines lie half a header and 1/16 in beyond its ends.
 * Falls are built in by lowering, they do not move things sideways.
 *
 * @param collector of the project file
 * @param sizes     the pipe table
 */
export function panelGeometry(collector: Collector, sizes: PipeSizes): PanelGeometry {
  const frame = panelFrame(collector.placement);
  const sections = collector.sections.map((s, i) => sectionGeometry(s, i, frame, sizes));
  const withNeighbours = joinNeighbours(sections);
  const banks = withNeighbours.flatMap((s) => s.banks);
  let lowest = Infinity;
  let highest = -Infinity;
  const extent = { u0_m: Infinity, v0_m: Infinity, u1_m: -Infinity, v1_m: -Infinity };
  for (const p of pointsOf(banks)) {
    lowest = Math.min(lowest, p.height_m);
    highest = Math.max(highest, p.height_m);
    extent.u0_m = Math.min(extent.u0_m, p.u_m);
    extent.v0_m = Math.min(extent.v0_m, p.v_m);
    extent.u1_m = Math.max(extent.u1_m, p.u_m);
    extent.v1_m = Math.max(extent.v1_m, p.v_m);
  }
  return {
    frame,
    sections: withNeighbours,
    banks,
    volume_m3: banks.reduce((sum, b) => sum + b.volume_m3, 0),
    lowest_m: lowest,
    highest_m: highest,
    extent,
  };
}

function* pointsOf(banks: readonly BankGeometry[]): Generator<PanelPoint> {
  for (const bank of banks) {
    for (const unit of bank.units) {
      yield unit.near;
      yield unit.far;
    }
    for (const header of [bank.supply, bank.gather]) {
      if (header) {
        yield header.first;
        yield header.last;
      }
    }
  }
}

function sectionGeometry(
  section: Section,
  index: number,
  frame: PanelFrame,
  sizes: PipeSizes,
): SectionGeometry {
  const path = `/collector/sections/${index}`;
  const axes = sectionAxes(section.direction, section.angle_deg);
  const ends = bankEnds(section);
  const banks = section.banks.map((bank, k) =>
    bankGeometry(section, bank, ends[k], frame, axes, sizes, index, k),
  );
  const handovers = banks.slice(1).map((to, step) =>
    handoverAt(section, step).joins.map((join) => {
      const a = bankPort(banks[step], 'gather', join.from);
      const b = bankPort(to, 'supply', join.to);
      return { from: a, to: b, distance_m: distance_m(a, b) };
    }),
  );
  return {
    index,
    path,
    axes,
    banks,
    handovers,
    inlet: middle(banks[0], 'supply', ends[0].inflow),
    outlet: middle(banks[banks.length - 1], 'gather', ends[banks.length - 1].outflow),
  };
}

/** Where a bank's header can be joined at an end; without headers, the end of the first or last unit. */
export function bankPort(bank: BankGeometry, which: 'supply' | 'gather', end: HeaderEnd): PanelPoint {
  const header = which === 'supply' ? bank.supply : bank.gather;
  if (header) return end === 'first' ? header.first : header.last;
  const unit = which === 'supply' ? bank.units[0] : bank.units[bank.units.length - 1];
  return unit.entersNear === (which === 'supply') ? unit.near : unit.far;
}

function middle(bank: BankGeometry, which: 'supply' | 'gather', ends: readonly HeaderEnd[]): PanelPoint {
  const a = bankPort(bank, which, ends[0]);
  const b = bankPort(bank, which, ends[ends.length - 1]);
  if (a === b) return a;
  return {
    u_m: (a.u_m + b.u_m) / 2,
    v_m: (a.v_m + b.v_m) / 2,
    w_m: (a.w_m + b.w_m) / 2,
    x_m: (a.x_m + b.x_m) / 2,
    y_m: (a.y_m + b.y_m) / 2,
    height_m: (a.height_m + b.height_m) / 2,
  };
}

function bankGeometry(
  section: Section,
  bank: Bank,
  ends: BankEnds,
  frame: PanelFrame,
  axes: SectionAxes,
  sizes: PipeSizes,
  s: number,
  k: number,
): BankGeometry {
  const pitch = spacing_m(bank);
  const along0 = bank.along_m ?? 0;
  const reach = bank.kind === 'coil' ? bank.outerDiameter_m : bank.length_m;
  const fall = bank.kind === 'tubes' ? (bank.fall_mPerM ?? 0) : 0;
  const headerFall = bank.kind === 'tubes' ? (bank.headerFall_mPerM ?? 0) : 0;
  const w = (section.raise_m ?? 0) + bank.depth_m;
  const point = (across: number, along: number): PanelPoint => {
    const a = bank.across_m + across;
    const l = along0 + along;
    return frame.at(
      section.u_m + axes.acrossU * a + axes.alongU * l,
      section.v_m + axes.acrossV * a + axes.alongV * l,
      w,
      fall * along + headerFall * across,
    );
  };
  const size = bank.kind === 'rated' ? null : sizes(bank.pipe);
  const unitVolume = bank.kind === 'rated' ? (bank.volume_m3 ?? 0) : area(size!.bore_m) * bank.length_m;
  // a unit's axis lies in the middle of its own width for coils and absorbers, on the layout line for tubes
  const shift =
    bank.kind === 'tubes' ? 0 : bank.kind === 'coil' ? bank.outerDiameter_m / 2 : bank.width_m / 2;
  // units in series alternate direction only on paper: each is entered at its supply side
  const entersNear = ends.supplySide === 'near';
  const units: UnitGeometry[] = [];
  for (let i = 0; i < bank.count; i++) {
    const near = point(shift + i * pitch, 0);
    const far = point(shift + i * pitch, reach);
    const start = entersNear ? near : far;
    const end = entersNear ? far : near;
    units.push({
      position: i + 1,
      number: ends.countedFromLast ? bank.count - i : i + 1,
      near,
      far,
      entersNear,
      length_m: bank.length_m,
      volume_m3: unitVolume,
      fall_m: start.height_m - end.height_m,
      neighbours: null,
    });
  }
  const header = (which: 'supply' | 'gather'): HeaderGeometry | null => {
    if (!hasHeaders(bank)) return null;
    const spec = bank.kind === 'rated' ? { pipe: bank.headerPipe! } : bank[which]!;
    const headerSize = sizes(spec.pipe);
    const near = (which === 'supply') === (ends.supplySide === 'near');
    const off = headerSize.outer_m / 2 + BRANCH_ALLOWANCE_M;
    const along = near ? -off : reach + off;
    const leadIn = ('leadIn_m' in spec ? spec.leadIn_m : undefined) ?? pitch / 2;
    const span = (bank.count - 1) * pitch;
    const length = span + 2 * leadIn;
    return {
      side: near ? 'near' : 'far',
      size: headerSize,
      first: point(shift - leadIn, along),
      last: point(shift + span + leadIn, along),
      tees: units.map((_, i) => point(shift + i * pitch, along)),
      leadIn_m: leadIn,
      spacing_m: pitch,
      length_m: length,
      volume_m3: area(headerSize.bore_m) * length,
      joined: which === 'supply' ? ends.inflow : ends.outflow,
    };
  };
  const supply = header('supply');
  const gather = header('gather');
  const off = (h: HeaderGeometry | null) => (h ? h.size.outer_m / 2 + BRANCH_ALLOWANCE_M : 0);
  return {
    section: s,
    bank: k,
    path: `/collector/sections/${s}/banks/${k}`,
    kind: bank.kind,
    ends,
    size,
    units,
    spacing_m: pitch,
    supply,
    gather,
    headerDistance_m: reach + off(supply) + off(gather),
    volume_m3: unitVolume * bank.count + (supply?.volume_m3 ?? 0) + (gather?.volume_m3 ?? 0),
  };
}

function area(bore_m: number): number {
  return (Math.PI / 4) * bore_m * bore_m;
}

/** Tubes of all banks and sections find their neighbours by place. */
function joinNeighbours(sections: readonly SectionGeometry[]): SectionGeometry[] {
  const tubes = sections.flatMap((s) => s.banks.filter((b) => b.kind === 'tubes').flatMap((b) => b.units));
  const found = realNeighbours(
    tubes.map((t) => ({
      u0_m: t.near.u_m,
      v0_m: t.near.v_m,
      u1_m: t.far.u_m,
      v1_m: t.far.v_m,
      w_m: t.near.w_m,
    })),
  );
  let next = 0;
  return sections.map((s) => ({
    ...s,
    banks: s.banks.map((b) =>
      b.kind === 'tubes' ? { ...b, units: b.units.map((t) => ({ ...t, neighbours: found[next++] })) } : b,
    ),
  }));
}

import { type RowFrame, rowFrame } from '@sunlap/engine/collector/row-frame';
import { type RowSight, rowSight, type TubeRow } from '@sunlap/engine/collector/row-sight';
import type { Collector } from '@sunlap/project/schema/collector';
import type { BankGeometry, PanelGeometry } from './geometry';

/** Tubes that lie beside each other in one plane, whatever bank or section they belong to. */
export interface HeatRow {
  readonly frame: RowFrame;
  readonly sight: RowSight;
  /** Tubes of the row: place of the bank and of the tube in it. */
  readonly tubes: readonly { readonly bank: number; readonly unit: number }[];
  /** Of the deepest tubes over the backing [m]. */
  readonly clearance_m: number;
}

/** Banks further apart than this across do not touch each other's light [m]. */
const APART_M = 1;

/**
 * Rows of tubes for light and long wave: banks of one direction that run beside each other along at least half
 * the shorter one, nested or not.
 */
export function heatRows(collector: Collector, geometry: PanelGeometry): HeatRow[] {
  const places = geometry.banks.flatMap((b, i) => (b.kind === 'tubes' ? [i] : []));
  const group = new Map<number, number>(places.map((p) => [p, p]));
  const root = (p: number): number => {
    const up = group.get(p)!;
    return up === p ? p : root(up);
  };
  for (const a of places) {
    for (const b of places) {
      if (a < b && beside(geometry, geometry.banks[a], geometry.banks[b])) group.set(root(b), root(a));
    }
  }
  const rows = new Map<number, number[]>();
  for (const p of places) {
    const key = root(p);
    rows.set(key, [...(rows.get(key) ?? []), p]);
  }
  return [...rows.values()].map((banks) => makeRow(collector, geometry, banks));
}

interface Span {
  from: number;
  to: number;
  low: number;
  high: number;
  angle: number;
}

function spanOf(geometry: PanelGeometry, bank: BankGeometry, angle: number): Span {
  const c = Math.cos((angle * Math.PI) / 180);
  const s = Math.sin((angle * Math.PI) / 180);
  const first = bank.units[0];
  const last = bank.units[bank.units.length - 1];
  const along = [first.near, first.far].map((p) => p.u_m * c + p.v_m * s);
  const across = [first.near, last.near].map((p) => p.v_m * c - p.u_m * s);
  return {
    from: Math.min(...along),
    to: Math.max(...along),
    low: Math.min(...across),
    high: Math.max(...across),
    angle: halfTurn(geometry.sections[bank.section].axes.angle_deg),
  };
}

function halfTurn(angle: number): number {
  return ((angle % 180) + 180) % 180;
}

function beside(geometry: PanelGeometry, a: BankGeometry, b: BankGeometry): boolean {
  const angle = halfTurn(geometry.sections[a.section].axes.angle_deg);
  const [x, y] = [spanOf(geometry, a, angle), spanOf(geometry, b, angle)];
  const turn = Math.abs(x.angle - y.angle);
  if (Math.min(turn, 180 - turn) > 0.1) return false;
  const overlap = Math.min(x.to, y.to) - Math.max(x.from, y.from);
  if (!(overlap >= 0.5 * Math.min(x.to - x.from, y.to - y.from))) return false;
  return Math.max(x.low, y.low) - Math.min(x.high, y.high) < APART_M;
}

/** Views of rows met lately: they take longest, and stay while lengths, falls and pipes elsewhere change. */
const KEPT_SIGHTS = 8;
const sights: RowSight[] = [];

function sightOf(row: TubeRow): RowSight {
  const known = sights.findIndex(
    (s) =>
      same(s.row.across_m, row.across_m) &&
      same(s.row.depth_m, row.depth_m) &&
      same(s.row.diameter_m, row.diameter_m),
  );
  const sight = known >= 0 ? sights.splice(known, 1)[0] : rowSight(row);
  sights.unshift(sight);
  if (sights.length > KEPT_SIGHTS) sights.pop();
  return sight;
}

function same(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function makeRow(collector: Collector, geometry: PanelGeometry, banks: readonly number[]): HeatRow {
  const { tilt_deg, facing_deg } = collector.placement;
  const angle = halfTurn(geometry.sections[geometry.banks[banks[0]].section].axes.angle_deg);
  // the engine's row counts across as axis × normal: the other way round from up-slope
  const c = Math.cos((angle * Math.PI) / 180);
  const s = Math.sin((angle * Math.PI) / 180);
  const tubes = banks.flatMap((bank) => geometry.banks[bank].units.map((_, unit) => ({ bank, unit })));
  const across: number[] = [];
  const depth: number[] = [];
  const diameter: number[] = [];
  let clearance_m = Infinity;
  for (const { bank, unit } of tubes) {
    const b = geometry.banks[bank];
    const at = b.units[unit].near;
    const outer = b.size!.outer_m;
    across.push(at.u_m * s - at.v_m * c);
    depth.push(at.w_m);
    diameter.push(outer);
    clearance_m = Math.min(clearance_m, at.w_m - outer / 2);
  }
  return {
    frame: rowFrame(tilt_deg, facing_deg, angle),
    sight: sightOf({ across_m: across, depth_m: depth, diameter_m: diameter }),
    tubes,
    clearance_m,
  };
}

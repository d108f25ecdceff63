import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import type { Interval } from '@sunlap/workbench/results';
import { difference, show } from '../shape/quantity';
import { t } from '../text/catalogue';

/** One answer of a title block. */
export interface Readout {
  id: string;
  label: string;
  /** Counted up to; null where the answer is a word. */
  value: number | null;
  write(value: number): { number: string; unit: string };
  word?: string;
  unit?: string;
  band?: { low: string; high: string };
  /** Under the value when nothing is held: one short line. */
  sub?: string;
  difference?: string;
  first?: boolean;
}

export const quantity =
  (kind: QuantityKind, units: UnitSystem) =>
  (value: number): { number: string; unit: string } => {
    const { number, unit } = show(value, kind, units);
    return { number, unit };
  };

export function bandOf(band: Interval | undefined, kind: QuantityKind, units: UnitSystem): Readout['band'] {
  if (band === undefined || !Number.isFinite(band.low) || !Number.isFinite(band.high)) return undefined;
  return { low: show(band.low, kind, units).number, high: show(band.high, kind, units).number };
}

/** With its sign and an arrow; nothing is said of differences too small to be shown. */
export function against(
  now: number | null | undefined,
  held: number | null | undefined,
  kind: QuantityKind,
  units: UnitSystem,
): string | undefined {
  if (now === null || now === undefined || held === null || held === undefined) return undefined;
  const d = now - held;
  if (show(Math.abs(d), kind, units).value === 0 || Math.abs(d) < 1e-9 * Math.abs(held))
    return t.read.sameAsReference;
  return `${d > 0 ? '▲' : '▼'} ${difference(d, kind, units).slice(1)}`;
}

import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import type { Interval } from '@sunlap/workbench/results';
import { show } from '../shape/quantity';
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
  /** True while the value is on its way: no dash, which would say that there is none. */
  awaits?: boolean;
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
  const main = show(now, kind, units);
  const plain = /^[-−]?[\d.,\s\u00A0]+$/.test(main.number);
  const decimals = main.number.split('.')[1]?.length ?? 0;
  // a difference is shown as finely as the value it belongs to, and not finer
  const shown = plain
    ? formatQuantity(Math.abs(d), kind === 'temperature' ? 'temperatureDifference' : kind, units, {
        unit: main.unit,
        decimals,
      })
    : show(Math.abs(d), kind, units);
  if (shown.value === 0) return t.read.sameAsReference;
  return `${d > 0 ? '▲' : '▼'} ${shown.text}`;
}

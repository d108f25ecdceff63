import type { UnitSystem } from '@sunlap/project/units/kinds';
import { quantity, type Readout } from '../../parts/readout';
import type { WhyText } from '../../text/why';
import { y } from '../../text/yard';
import { COLUMNS, ROWS, type YardShade } from './yard-protocol';

/** Hours in which all of it would lie in the sun, on the day of a column. */
export function sunHours(carpet: Float32Array, column: number): number {
  let sum = 0;
  for (let r = 0; r < ROWS; r++) sum += Math.max(0, carpet[column * ROWS + r]);
  return (sum * 24) / ROWS;
}

export function yardReadouts(
  shade: YardShade | null,
  now: { pool: number; collector: number } | null,
  elevation_deg: number,
  yearPart: number,
  units: UnitSystem,
): Readout[] {
  const column = Math.min(COLUMNS - 1, Math.floor(yearPart * COLUMNS));
  const night = elevation_deg <= 0 ? { word: y.night } : {};
  const share = (id: string, label: string, value: number | null, more: Partial<Readout> = {}): Readout => ({
    id,
    label,
    value,
    write: (v) => ({ number: String(Math.round(v * 100)), unit: '%' }),
    ...more,
  });
  const hours = (id: string, label: string, carpet: Float32Array | undefined): Readout => ({
    id,
    label,
    value: carpet === undefined ? null : sunHours(carpet, column),
    write: (v) => ({ number: v.toFixed(1), unit: 'h' }),
  });
  return [
    share('poolNow', y.read.poolNow, now?.pool ?? null, { first: true, ...night }),
    share('collectorNow', y.read.collectorNow, now?.collector ?? null, night),
    {
      id: 'sunHeight',
      label: y.read.sunHeight,
      value: Math.max(-90, elevation_deg),
      write: quantity('angle', units),
    },
    hours('poolDay', y.read.poolDay, shade?.poolCarpet),
    hours('collectorDay', y.read.collectorDay, shade?.collectorCarpet),
    share('year', y.read.year, shade?.year.collector ?? null),
  ];
}

export function yardWhy(id: string, inputs: WhyText['inputs']): WhyText {
  const of = (equation: string, source: string): WhyText => ({ equation, source, inputs, touches: ['yard'] });
  if (id === 'sunHeight') return of(y.why.sun, y.why.sunSource);
  if (id === 'year') return of(y.why.year, y.why.shareSource);
  if (id === 'poolDay' || id === 'collectorDay') return of(y.why.day, y.why.shareSource);
  return of(y.why.share, y.why.shareSource);
}

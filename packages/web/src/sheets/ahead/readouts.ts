import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { AheadAnswer } from '@sunlap/workbench/ahead/ahead';
import { bandOf, quantity, type Readout } from '../../parts/readout';
import { difference } from '../../shape/quantity';
import { a } from '../../text/ahead';
import { valveHours, weekMoment } from './when';

const J = 3.6e6;

/** What stands in the title block. */
export function readouts(now: AheadAnswer, u: UnitSystem): Readout[] {
  const r = now.result;
  const write = (v: number) => ({ number: String(Math.round(v)), unit: '' });
  const [today] = r.valve;
  const hours = r.reached === null ? null : r.hours.findIndex((h) => h.at === r.reached?.at) + 1;
  const last = r.hours[r.hours.length - 1];
  return [
    {
      id: 'reach',
      label: a.read.reach,
      value: null,
      write,
      first: true,
      word: r.reached === null ? a.read.not : hours === 0 ? a.read.already : weekMoment(r.reached.at),
      ...(hours === null || hours === 0 ? {} : { sub: a.read.hours(String(hours)) }),
      ...(r.reached?.earliest != null && r.reached.latest !== null && now.complete && hours !== 0
        ? { band: { low: weekMoment(r.reached.earliest), high: weekMoment(r.reached.latest) } }
        : {}),
    },
    {
      id: 'today',
      label: a.read.today,
      value: null,
      write,
      word: today?.open == null ? a.notWorth : valveHours(today.open, today.close ?? ''),
    },
    {
      id: 'brings',
      label: a.read.brings,
      value: (today?.heat_kWh ?? 0) * J,
      write: quantity('energy', u),
    },
    {
      id: 'warmest',
      label: a.read.warmest,
      value: r.warmest.water_C,
      write: quantity('temperature', u),
      band: now.complete
        ? bandOf({ low: r.warmest.low_C, high: r.warmest.high_C }, 'temperature', u)
        : undefined,
    },
    {
      id: 'end',
      label: a.read.end,
      value: last.water_C,
      write: quantity('temperature', u),
      band: now.complete ? bandOf({ low: last.low_C, high: last.high_C }, 'temperature', u) : undefined,
    },
    {
      id: 'act',
      label: a.read.act,
      value: r.best === null ? null : r.best.gain_K,
      write: (v: number) => ({ number: difference(v, 'temperatureDifference', u), unit: '' }),
      ...(r.best === null ? { word: a.read.noAct } : {}),
    },
  ] as Readout[];
}

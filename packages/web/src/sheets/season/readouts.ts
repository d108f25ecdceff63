import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import { against, bandOf, quantity, type Readout } from '../../parts/readout';
import { say } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';

const J = 3.6e6;
export const dayName = (iso: string, units: UnitSystem): string => {
  const [, m, d] = iso.split('-').map(Number);
  return units === 'us' ? `${y.months[m - 1]} ${d}` : `${d} ${y.months[m - 1]}`;
};

const whole = (unit: string) => (v: number) => ({ number: String(Math.round(v)), unit });

/** The few answers of the year, with what is held beside them. */
export function seasonReadouts(now: SeasonAnswer, held: SeasonAnswer | null, u: UnitSystem): Readout[] {
  const { year, money } = now.result;
  const h = held?.result.year;
  const warmer = (year.pool_C.with?.mean ?? Number.NaN) - (year.pool_C.without?.mean ?? Number.NaN);
  const heldWarmer =
    h === undefined
      ? undefined
      : (h.pool_C.with?.mean ?? Number.NaN) - (h.pool_C.without?.mean ?? Number.NaN);
  const days = now.band['swimDays.with'];
  const heat = now.band.heat_kWh;
  const dayDifference = h === undefined ? undefined : year.swimDays.with - h.swimDays.with;
  const saved = money?.netPerYear ?? null;
  const { with: from } = year.swimFrom;
  const { with: to } = year.swimTo;
  return [
    {
      id: 'swim',
      label: s.read.swim,
      value: year.swimDays.with,
      write: whole(s.unitDays),
      first: true,
      sub: s.read.swimSub(String(year.swimDays.without)),
      ...(days === undefined
        ? {}
        : { band: { low: String(Math.round(days.low)), high: String(Math.round(days.high)) } }),
      ...(dayDifference === undefined
        ? {}
        : { difference: `${dayDifference < 0 ? '▼' : '▲'} ${Math.abs(dayDifference)} ${s.unitDays}` }),
    },
    {
      id: 'heat',
      label: s.read.heat,
      value: year.heat_kWh * J,
      write: quantity('energy', u),
      band: heat === undefined ? undefined : bandOf({ low: heat.low * J, high: heat.high * J }, 'energy', u),
      difference: against(year.heat_kWh * J, h === undefined ? undefined : h.heat_kWh * J, 'energy', u),
    },
    {
      id: 'warmer',
      label: s.read.warmer,
      value: Number.isFinite(warmer) ? warmer : null,
      write: quantity('temperatureDifference', u),
      difference: against(warmer, heldWarmer, 'temperatureDifference', u),
    },
    {
      id: 'season',
      label: s.read.first,
      value: null,
      write: whole(''),
      word: from === null || to === null ? s.read.notReached : `${dayName(from, u)} – ${dayName(to, u)}`,
    },
    {
      id: 'hours',
      label: s.read.hours,
      value: year.runHours,
      write: whole(s.unitHours),
      sub: `${s.read.pump} ${say(year.extraPump_kWh * J, 'energy', 'metric')}`,
      ...(h === undefined
        ? {}
        : {
            difference: `${year.runHours < h.runHours ? '▼' : '▲'} ${Math.round(Math.abs(year.runHours - h.runHours))} h`,
          }),
    },
    {
      id: 'saved',
      label: s.read.saved,
      value: saved,
      write: (v) => ({ number: String(Math.round(v)), unit: money?.currency ?? '' }),
      ...(money !== null && saved === null ? { sub: s.read.lacks } : {}),
    },
  ] as Readout[];
}

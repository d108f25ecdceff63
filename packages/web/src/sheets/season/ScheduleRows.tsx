import type { Schedule } from '@sunlap/project/schema/season';
import { s } from '../../text/season';
import { ClockInput } from './ClockInput';
import { MonthPicks } from './Months';

const w = s.habits;
const MOST = 8;

interface Props {
  /** What is on, for labels. */
  of: string;
  on: readonly Schedule[];
  /** What a first or a further row begins as. */
  usual: Schedule;
  weekdays?: boolean;
  set: (on: Schedule[]) => void;
}

/** When something is on: hours and months, several rows if it needs them. */
export function ScheduleRows({ of, on, usual, weekdays = false, set }: Props) {
  const change = (n: number, to: Partial<Schedule>) =>
    set(on.map((row, k) => (k === n ? { ...row, ...to } : row)));
  return (
    <div class="schedules">
      {on.map((row, n) => {
        const name = on.length > 1 ? `${of} ${n + 1}` : of;
        const days = row.weekdays ?? new Array<boolean>(7).fill(true);
        return (
          <fieldset key={n} class="schedule-times" aria-label={name}>
            <MonthPicks label={w.months(name)} on={row.months} set={(months) => change(n, { months })} />
            <span class="schedule-hours">
              <ClockInput label={w.from} value={row.from_h} put={(from_h) => change(n, { from_h })} />
              <ClockInput label={w.to} value={row.to_h} put={(to_h) => change(n, { to_h })} />
              {row.from_h === row.to_h && <span class="hint">{w.allDay}</span>}
              {row.from_h > row.to_h && <span class="hint">{w.overNight}</span>}
              {on.length > 1 && (
                <button
                  type="button"
                  class="act act-quiet"
                  aria-label={w.dropTimes(name)}
                  onClick={() => set(on.filter((_, k) => k !== n))}
                >
                  ×
                </button>
              )}
            </span>
            {weekdays && (
              <fieldset class="month-picks" aria-label={w.weekdays(name)}>
                {days.map((yes, d) => (
                  <button
                    key={w.days[d]}
                    type="button"
                    aria-pressed={yes}
                    aria-label={w.days[d]}
                    onClick={() => change(n, { weekdays: days.map((was, k) => (k === d ? !was : was)) })}
                  >
                    {w.days[d].slice(0, 2)}
                  </button>
                ))}
              </fieldset>
            )}
          </fieldset>
        );
      })}
      {on.length < MOST && (
        <button type="button" class="act act-quiet" onClick={() => set([...on, usual])}>
          {on.length === 0 ? w.firstTimes : w.moreTimes}
        </button>
      )}
    </div>
  );
}

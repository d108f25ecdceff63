import { doc, units } from '../../app/state';
import { Slider } from '../../parts/Slider';
import type { Doc } from '../../store/doc';
import { y } from '../../text/yard';

const two = (n: number) => String(n).padStart(2, '0');

/** Day of the year of a local time, from 0, and its hour. */
export function partsOf(at: string): { day: number; hour: number; year: number } {
  const [date, time] = at.split('T');
  const [year, month, dayOfMonth] = date.split('-').map(Number);
  const day = Math.round((Date.UTC(year, month - 1, dayOfMonth) - Date.UTC(year, 0, 1)) / 86_400_000);
  return { year, day, hour: Number(time.slice(0, 2)) + Number(time.slice(3, 5)) / 60 };
}

export function withMoment(doc: Doc, day: number, hour: number): Doc {
  const { year } = partsOf(doc.moment.at);
  const date = new Date(Date.UTC(year, 0, 1 + Math.min(364, Math.max(0, Math.round(day)))));
  const minutes = Math.min(1439, Math.max(0, Math.round(hour * 60)));
  const at = `${date.toISOString().slice(0, 10)}T${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  return { ...doc, moment: { ...doc.moment, at } };
}

export const dayText = (at: string): string => {
  const [, month, day] = at.slice(0, 10).split('-').map(Number);
  return units.value === 'us' ? `${y.months[month - 1]} ${day}` : `${day} ${y.months[month - 1]}`;
};

/** The day and the hour that move the sun. */
export function When() {
  const { day, hour } = partsOf(doc.value.moment.at);
  const { at } = doc.value.moment;
  return (
    <div class="yard-when">
      <Slider
        id="yard-day"
        label={y.day}
        value={day}
        min={0}
        max={364}
        step={1}
        text={dayText(at)}
        low={y.months[0]}
        high={y.months[11]}
        stepName={() => y.toDay(dayText(at))}
        set={(d, v) => withMoment(d, v, hour)}
      />
      <Slider
        id="yard-hour"
        label={y.hour}
        value={Math.round(hour * 4) / 4}
        min={0}
        max={23.75}
        step={0.25}
        text={at.slice(11, 16)}
        low="0:00"
        high="24:00"
        stepName={() => y.toHour(at.slice(11, 16))}
        set={(d, v) => withMoment(d, day, v)}
      />
    </div>
  );
}

import { aheadPlot } from '@sunlap/drawing/seasonAhead';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { AheadValues } from '@sunlap/workbench/ahead/ahead';
import { units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say, show } from '../../shape/quantity';
import { a } from '../../text/ahead';
import { dayName, weekMoment } from './when';

function ticks(low: number, high: number, u: UnitSystem): number[] {
  const unit = u === 'us' ? 1 / 1.8 : 1;
  const zero = u === 'us' ? -32 / 1.8 : 0;
  const step = ([1, 2, 5, 10].find((k) => (high - low) / (k * unit) <= 7) ?? 20) * unit;
  const out: number[] = [];
  for (let k = Math.ceil((low - zero) / step); zero + k * step <= high; k++) out.push(zero + k * step);
  return out;
}

/** Water hour by hour with its band, the wish, and when the valve is open. */
export function AheadPlot({ r }: { r: AheadValues }) {
  const { ref, width, height } = useSize<HTMLDivElement>();
  const u = units.value;
  const days: { at: number; text: string }[] = [{ at: 0, text: dayName(r.from) }];
  r.hours.forEach((h, i) => {
    if (h.at.endsWith('T00:00') && i + 1 < r.hours.length) days.push({ at: i + 1, text: dayName(h.at) });
  });
  const points = r.hours
    .filter((_, i) => i % 6 === 5)
    .map((h) =>
      a.point(
        weekMoment(h.at),
        say(h.water_C, 'temperature', u),
        say(h.low_C, 'temperature', u),
        say(h.high_C, 'temperature', u),
      ),
    );
  const at = r.hours.findIndex((h) => h.at === r.reached?.at);
  return (
    <div class="canvas season-canvas" ref={ref}>
      {width > 80 && height > 60 && (
        <Picture
          items={
            aheadPlot(
              {
                hours: r.hours.map((h) => ({
                  water_C: h.water_C,
                  low_C: h.low_C,
                  high_C: h.high_C,
                  without_C: h.withoutCollector_C,
                  run: h.run,
                })),
                wish_C: r.wish_C,
                days,
                reached: at < 0 ? null : at,
              },
              {
                width,
                height,
                temperatureText: (v) => show(v, 'temperature', u).number.replace(/\.0$/, ''),
                ticks_C: (low, high) => ticks(low, high, u),
                words: {
                  wish: a.wish(say(r.wish_C, 'temperature', u)),
                  without: a.without,
                  valve: a.valveOpen,
                },
              },
            ).items
          }
          width={width}
          height={height}
          name="ahead"
          title={a.picture}
          says={a.says(r.saying, points.join('; '))}
        />
      )}
    </div>
  );
}

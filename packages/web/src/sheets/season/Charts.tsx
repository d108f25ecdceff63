import { type DayBand, seasonBands } from '@sunlap/drawing/seasonBands';
import { type MonthPart, partGround, seasonMonths } from '@sunlap/drawing/seasonMonths';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { SeasonDays, SeasonValues } from '@sunlap/workbench/season/values';
import { palette, units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say, show } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';

const J = 3.6e6;

function temperatureTicks(low: number, high: number, units: UnitSystem): number[] {
  const step = units === 'us' ? 10 / 1.8 : 5;
  const zero = units === 'us' ? -32 / 1.8 : 0;
  const out: number[] = [];
  for (let k = Math.ceil((low - zero) / step); zero + k * step <= high; k++) out.push(zero + k * step);
  return out;
}

function says(r: SeasonValues, u: UnitSystem): string {
  const t = (v: number | undefined) => say(v, 'temperature', u);
  const { pool_C, swimDays } = r.year;
  return s.says(
    s.range(t(pool_C.with?.low), t(pool_C.with?.high)),
    String(swimDays.with),
    String(swimDays.without),
    r.months
      .map((m) => s.pair(y.months[m.month - 1], t(m.pool_C.with?.mean), t(m.pool_C.without?.mean)))
      .join('; '),
  );
}

/** The year's water. */
export function Bands({ r, held }: { r: SeasonValues; held: SeasonDays | null }) {
  const { ref, width, height } = useSize<HTMLDivElement>();
  const u = units.value;
  const months: { at: number; text: string }[] = [];
  r.days.date.forEach((date, d) => {
    const m = Number(date.slice(5, 7)) - 1;
    if (d === 0 || Number(r.days.date[d - 1].slice(5, 7)) - 1 !== m)
      months.push({ at: d, text: width < 560 ? y.monthLetters[m] : y.months[m] });
  });
  const ghost: DayBand | null = held === null ? null : held.with;
  return (
    <div class="canvas season-canvas" ref={ref}>
      {width > 80 && height > 60 && (
        <Picture
          items={
            seasonBands(
              {
                with: r.days.with,
                without: r.days.without,
                wish_C: r.wish_C,
                months,
                ...(ghost === null ? {} : { ghost }),
              },
              {
                width,
                height,
                temperatureText: (v) => show(v, 'temperature', u).number.replace(/\.0$/, ''),
                ticks_C: (low, high) => temperatureTicks(low, high, u),
                words: { with: s.with, without: s.without, wish: s.wish(say(r.wish_C, 'temperature', u)) },
              },
            ).items
          }
          width={width}
          height={height}
          name="season"
          title={s.picture}
          says={says(r, u)}
        />
      )}
    </div>
  );
}

/** Causes put together to what a face can show. */
export function partsOf(r: SeasonValues): MonthPart[] {
  const of = (
    id: string,
    name: string,
    pick: (h: SeasonValues['months'][number]['heat']['with']) => number,
  ): MonthPart => ({
    id,
    name,
    values: r.months.map((m) => pick(m.heat.with)),
  });
  const rest = (h: SeasonValues['months'][number]['heat']['with'], sign: 1 | -1) =>
    [h.convection, h.ground, h.makeUp, h.rain, h.swimmers, h.frozenThrough].reduce(
      (sum, v) => sum + (v * sign > 0 ? v : 0),
      0,
    );
  return [
    of('sun', s.parts.sun, (h) => h.sun),
    of('collector', s.parts.collector, (h) => h.collector),
    of('heater', s.parts.heater, (h) => h.heater),
    of('otherIn', s.parts.otherIn, (h) => rest(h, 1)),
    of('evaporation', s.parts.evaporation, (h) => h.evaporation),
    of('longWave', s.parts.longWave, (h) => h.longWave),
    of('otherOut', s.parts.otherOut, (h) => rest(h, -1)),
  ];
}

export function Months({ r }: { r: SeasonValues }) {
  const { ref, width } = useSize<HTMLDivElement>();
  const u = units.value;
  const parts = partsOf(r);
  const used = parts.map((p, i) => ({ ...p, i })).filter((p) => p.values.some((v) => Math.abs(v) > 0.5));
  const total = (p: MonthPart) => p.values.reduce((a, b) => a + b, 0);
  const scale = u === 'us' ? 1e6 / 3412.14 : 1000;
  const valueText = (v: number) => (Math.round((v / scale) * 10) / 10).toString().replace('-', '−');
  return (
    <figure class="season-figure" ref={ref as never}>
      <figcaption>
        {s.monthsPicture} <span class="soft">({u === 'us' ? 'million Btu' : 'MWh'})</span>
      </figcaption>
      {width > 80 && (
        <Picture
          items={
            seasonMonths(parts, {
              width,
              height: 150,
              months: y.monthLetters,
              valueText,
              ticks: (low, high) => {
                const size = [0.5, 1, 2, 5, 10, 20, 50].find((k) => (high - low) / (k * scale) <= 6) ?? 100;
                const out: number[] = [];
                for (let k = Math.ceil(low / (size * scale)); k * size * scale <= high; k++)
                  out.push(k * size * scale);
                return out;
              },
            }).items
          }
          width={width}
          height={150}
          name="season-months"
          title={s.monthsPicture}
          says={used.map((p) => `${p.name} ${say(total(p) * J, 'energy', u)}`).join('; ')}
        />
      )}
      <ul class="season-key">
        {used.map((p) => (
          <li key={p.id}>
            <svg width="14" height="12" aria-hidden="true">
              <rect
                x="0.5"
                y="0.5"
                width="13"
                height="11"
                fill={palette.value.ink}
                fill-opacity={partGround(p.i)}
                stroke={palette.value.ink}
              />
            </svg>
            {p.name} <span class="soft">{valueText(total(p))}</span>
          </li>
        ))}
      </ul>
    </figure>
  );
}

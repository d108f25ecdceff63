import { aheadPlot } from '@sunlap/drawing/seasonAhead';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { AheadAnswer, AheadValues } from '@sunlap/workbench/ahead/ahead';
import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import { doc, moving, narrow, units } from '../../app/state';
import { Notes } from '../../parts/Notes';
import { Picture } from '../../parts/Picture';
import { QuantityInput } from '../../parts/QuantityInput';
import { bandOf, quantity, type Readout } from '../../parts/readout';
import { TitleBlock } from '../../parts/TitleBlock';
import { useSize } from '../../parts/useSize';
import { Why } from '../../parts/Why';
import { difference, say, show } from '../../shape/quantity';
import { a } from '../../text/ahead';
import { y } from '../../text/yard';
import { ForecastRows } from './ForecastRows';
import { daysOf, forecast, setForecast } from './rows';
import { answer, failure, useAhead } from './run';

const WEEK = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const J = 3.6e6;

function dayName(iso: string): string {
  const date = new Date(`${iso.slice(0, 10)}T12:00:00Z`);
  const [day, month] = [date.getUTCDate(), y.months[date.getUTCMonth()]];
  return `${WEEK[date.getUTCDay()]} ${units.value === 'us' ? `${month} ${day}` : `${day} ${month}`}`;
}
/** From and to; on a phone as short as it can be said. */
const valveHours = (open: string, close: string) =>
  narrow.value ? `${open}–${close} h`.replaceAll(':00', '') : `${open} – ${close}`;
const moment = (at: string) => `${dayName(at).slice(0, 3)} ${at.slice(11, 16)}`;

function ticks(low: number, high: number, u: UnitSystem): number[] {
  const unit = u === 'us' ? 1 / 1.8 : 1;
  const zero = u === 'us' ? -32 / 1.8 : 0;
  const step = ([1, 2, 5, 10].find((k) => (high - low) / (k * unit) <= 7) ?? 20) * unit;
  const out: number[] = [];
  for (let k = Math.ceil((low - zero) / step); zero + k * step <= high; k++) out.push(zero + k * step);
  return out;
}

function Plot({ r }: { r: AheadValues }) {
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
        moment(h.at),
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

function readouts(now: AheadAnswer, u: UnitSystem): Readout[] {
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
      word: r.reached === null ? a.read.not : hours === 0 ? a.read.already : moment(r.reached.at),
      ...(hours === null || hours === 0 ? {} : { sub: a.read.hours(String(hours)) }),
      ...(r.reached?.earliest != null && r.reached.latest !== null && now.complete && hours !== 0
        ? { band: { low: moment(r.reached.earliest), high: moment(r.reached.latest) } }
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

/** What the clock at the site says now. */
function siteNow(timeZone: string): string {
  try {
    const parts = new Intl.DateTimeFormat('sv-SE', {
      timeZone,
      dateStyle: 'short',
      timeStyle: 'short',
    }).format(new Date());
    return parts.replace(' ', 'T');
  } catch {
    return new Date().toISOString().slice(0, 16);
  }
}

export default function AheadSheet() {
  const { store } = useApp();
  const { project, moment: m } = doc.value;
  const u = units.value;
  registerFields([]);
  const { rows, cover } = forecast.value;
  const days = daysOf(rows);
  const key = useAhead(
    project,
    days === null ? null : { at: m.at, water_C: m.water_C, days, ...(cover === null ? {} : { cover }) },
    !moving.value,
  );
  const now = answer.value;
  const list = now === null ? [] : readouts(now.answer, u);
  const r = now?.answer.result ?? null;
  const notices = now?.answer.notices ?? [];
  const start = new Date(`${m.at.slice(0, 10)}T12:00:00Z`).getTime();
  return (
    <>
      <section
        class="drawing ahead-drawing"
        aria-label={a.picture}
        data-fresh={now?.key === key && now.answer.complete}
      >
        <div class="ahead-top">
          <QuantityInput
            label={a.water}
            kind="temperature"
            value={m.water_C}
            min={0}
            max={45}
            onValue={(v) =>
              store.apply(a.steps.water(say(v, 'temperature', u)), {
                doc: { ...doc.value, moment: { ...doc.value.moment, water_C: v } },
                undo: 'drag',
              })
            }
            onDone={() => store.endDrag()}
          />
          <p class="ahead-from">
            <span class="soft">{a.from}</span> {moment(m.at)}
            <button
              type="button"
              class="act act-quiet"
              onClick={() =>
                store.apply(a.steps.now, {
                  doc: { ...doc.value, moment: { ...doc.value.moment, at: siteNow(project.site.timeZone) } },
                  undo: 'commit',
                })
              }
            >
              {a.now}
            </button>
          </p>
          <label class="tick">
            <input
              type="checkbox"
              checked={cover ?? project.season?.cover !== undefined}
              onChange={(event) => setForecast({ rows, cover: event.currentTarget.checked })}
            />
            {a.cover}
          </label>
        </div>
        {r !== null && <p class="ahead-saying">{r.saying}</p>}
        {failure.value !== null && (
          <p class="season-failed" role="alert">
            {a.failed}: {failure.value}
          </p>
        )}
        {r === null ? <p class="loading">{a.working}</p> : <Plot r={r} />}
      </section>
      <section class="season-side ahead-side">
        {r !== null && (
          <div class="season-findings">
            <section>
              <h2>{a.act}</h2>
              <p>
                {r.best === null ? (
                  a.noAct
                ) : (
                  <>
                    <strong>{r.best.name}</strong>:{' '}
                    {a.gains(difference(r.best.gain_K, 'temperatureDifference', u))}
                  </>
                )}
              </p>
            </section>
            <section>
              <h2>{a.valve}</h2>
              <table>
                <thead>
                  <tr>
                    {a.valveHead.map((h) => (
                      <th key={h} scope="col">
                        {h}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {r.valve.map((v) => (
                    <tr key={v.date}>
                      <th scope="row">{dayName(v.date)}</th>
                      <td>{v.open ?? '–'}</td>
                      <td>{v.close ?? '–'}</td>
                      <td>{say(v.heat_kWh * J, 'energy', u)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </section>
          </div>
        )}
        <ForecastRows names={(n) => dayName(new Date(start + n * 86_400_000).toISOString())} />
      </section>
      <Notes notices={notices} fieldFor={() => null} />
      <TitleBlock
        number={5}
        name={a.name}
        scale={project.site.place}
        readouts={list}
        converged={now?.answer.solver.converged ?? true}
      />
      <Why
        readouts={list}
        notices={notices}
        text={() => ({
          equation: a.why.text,
          source: a.why.source,
          inputs: [
            [a.water, say(m.water_C, 'temperature', u)],
            ...(r?.acts ?? []).map((x): [string, string] => [
              x.name,
              difference(x.gain_K, 'temperatureDifference', u),
            ]),
          ],
          touches: ['ahead', 'pool'],
        })}
      />
    </>
  );
}

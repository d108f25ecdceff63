import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import { doc, moving, units } from '../../app/state';
import { Notes } from '../../parts/Notes';
import { QuantityInput } from '../../parts/QuantityInput';
import { TableHead } from '../../parts/TableHead';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { difference, say } from '../../shape/quantity';
import { a } from '../../text/ahead';
import { t } from '../../text/catalogue';
import { AheadPlot } from './AheadPlot';
import { ForecastRows } from './ForecastRows';
import { readouts } from './readouts';
import { daysOf, forecast, setForecast } from './rows';
import { answer, failure, useAhead } from './run';
import { clockOf, dayName, siteNow, weekMoment } from './when';

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
            <span class="soft">{a.from}</span> {weekMoment(m.at)}
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
        {r === null ? <p class="loading">{a.working}</p> : <AheadPlot r={r} />}
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
                <TableHead of={a.valveHead} />
                <tbody>
                  {r.valve.map((v) => (
                    <tr key={v.date}>
                      <th scope="row">{dayName(v.date)}</th>
                      <td>{v.open === null ? '–' : clockOf(v.open)}</td>
                      <td>{v.close === null ? '–' : clockOf(v.close)}</td>
                      <td>{say(v.heat_kWh * 3.6e6, 'energy', u)}</td>
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
        name={t.sheets.ahead}
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

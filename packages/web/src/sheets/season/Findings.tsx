import type { SeasonValues } from '@sunlap/workbench/season/values';
import { units } from '../../app/state';
import { TableHead } from '../../parts/TableHead';
import { difference, say } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';

const J = 3.6e6;
const signed = (v: number) => `${v < 0 ? '−' : '+'}${Math.abs(Math.round(v))}`;

/** What changes, shade, suction and money come to; each as far as it is known by now. */
export function Findings({ r }: { r: SeasonValues }) {
  const u = units.value;
  return (
    <div class="season-findings">
      {r.first !== null && (
        <section>
          <h2>{s.enough}</h2>
          <p>{r.first.saying}</p>
        </section>
      )}
      <section>
        <h2>{s.changes.title}</h2>
        {r.changes.length === 0 ? (
          <p class="hint">{s.changes.waiting}</p>
        ) : (
          <table>
            <caption class="hint">{s.changes.caption}</caption>
            <TableHead of={s.changes.head} />
            <tbody>
              {r.changes.map((c) => (
                <tr key={c.id}>
                  <th scope="row">
                    {c.name}
                    {c.present && <span class="soft"> ({s.changes.present})</span>}
                  </th>
                  <td>{signed(c.swimDaysAdded.with)}</td>
                  <td>{difference(c.warmer_K.with, 'temperatureDifference', u)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </section>
      {r.obstacles.length > 0 && (
        <section>
          <h2>{s.obstacles.title}</h2>
          <table>
            <caption class="hint">{s.obstacles.caption}</caption>
            <TableHead of={s.obstacles.head} />
            <tbody>
              {r.obstacles.map((o) => (
                <tr key={o.id}>
                  <th scope="row">{o.name}</th>
                  <td>{say(o.year_kWh.pool * J, 'energy', u)}</td>
                  <td>{say(o.year_kWh.collector * J, 'energy', u)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <ObstacleMonths r={r} />
        </section>
      )}
      {r.money !== null && (
        <section>
          <h2>{s.money}</h2>
          <p>{r.money.saying}</p>
          <p class="hint">{s.moneyWith(r.money.inputs.join('; '))}</p>
        </section>
      )}
      {r.suction !== null && (
        <section>
          <h2>{s.suction}</h2>
          <p>{r.suction.saying}</p>
        </section>
      )}
      <details class="season-fold">
        <summary>{s.table}</summary>
        <div class="season-scroll">
          <table>
            <TableHead of={s.tableHead} />
            <tbody>
              {r.months.map((m) => (
                <tr key={m.month}>
                  <th scope="row">{y.months[m.month - 1]}</th>
                  <td>{say(m.pool_C.with?.mean, 'temperature', u)}</td>
                  <td>{say(m.pool_C.without?.mean, 'temperature', u)}</td>
                  <td>{say(m.heat_kWh * J, 'energy', u)}</td>
                  <td>{Math.round(m.runHours)} h</td>
                  <td>
                    {m.swimDays.with} <span class="soft">({m.swimDays.without})</span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </div>
  );
}

/** Which thing costs what in which month: sun kept off pool and panel together. */
function ObstacleMonths({ r }: { r: SeasonValues }) {
  const u = units.value;
  return (
    <details class="season-fold">
      <summary>{s.obstacles.byMonth}</summary>
      <div class="season-scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">{s.table12.month}</th>
              {r.obstacles.map((o) => (
                <th key={o.id} scope="col">
                  {o.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {y.months.map((name, m) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                {r.obstacles.map((o) => (
                  <td key={o.id}>{say((o.pool_kWh[m] + o.collector_kWh[m]) * J, 'energy', u)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

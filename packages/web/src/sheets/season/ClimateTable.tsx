import { climateBars } from '@sunlap/drawing/climateBars';
import {
  type ClimateColumn,
  type ClimateRow,
  climateGuess,
  climateRows,
  isOwnRow,
  shelfOf,
  withClimateValue,
  withShelf,
  withShelfRow,
} from '@sunlap/workbench/season/own-climate';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say, show } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';
import { cellText, columnUnit, readCell } from './climate-cells';

const w = s.table12;

/** The twelve rows of the climate, each value to be typed; marked which are the shelf's, one's own, or guessed. */
export function ClimateTable() {
  const { store } = useApp();
  const { project } = doc.value;
  const u = units.value;
  const rows = climateRows(project);
  const shelf = shelfOf(project);
  const table = project.season?.climate?.kind === 'table';
  const [sun, setSun] = useState<keyof typeof w.pick>(
    rows[0].irradiation_kWhm2 === undefined ? 'sunshine_h' : 'irradiation_kWhm2',
  );
  const [damp, setDamp] = useState<keyof typeof w.pick>(
    rows[0].dewPoint_C === undefined ? 'humidity' : 'dewPoint_C',
  );
  const [fault, setFault] = useState<{ at: string; text: string } | null>(null);
  const columns: readonly ClimateColumn[] = ['high_C', 'low_C', sun, damp, 'wind_ms', 'rain_mm'];
  const own = rows.map((row, m) => table && isOwnRow(row, shelf.months[m]));
  const put = (month: number, column: ClimateColumn, value: number | null) => {
    const next = withClimateValue(project, month, column, value);
    store.apply(w.step(y.months[month], w.columns[column]), {
      doc: { ...doc.value, project: next },
      undo: 'commit',
    });
  };
  const back = (name: string, next: typeof project) =>
    store.apply(name, { doc: { ...doc.value, project: next }, undo: 'commit' });
  return (
    <div class="climate">
      <ClimatePicture rows={rows} shelf={shelf.months} own={own} />
      <table class="climate-table">
        <caption class="away">{w.caption}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span class="away">{w.month}</span>
            </th>
            {columns.map((c) => (
              <th key={c} scope="col">
                {c === sun ? (
                  <Pick
                    label={w.sunAs}
                    value={c}
                    options={['sunshine_h', 'irradiation_kWhm2']}
                    onPick={setSun}
                  />
                ) : c === damp ? (
                  <Pick label={w.dampAs} value={c} options={['humidity', 'dewPoint_C']} onPick={setDamp} />
                ) : (
                  w.columns[c]
                )}
                <span class="climate-unit">{columnUnit(c, u)}</span>
              </th>
            ))}
            <th scope="col">
              <span class="away">{w.backHead}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, m) => (
            <tr key={y.months[m]}>
              <th scope="row">{y.months[m]}</th>
              {columns.map((c) => (
                <td key={c}>
                  <Cell
                    key={`${c} ${u}`}
                    label={w.cell(y.months[m], w.columns[c])}
                    column={c}
                    value={row[c]}
                    guess={climateGuess(project, m, c, row)}
                    own={table && row[c] !== undefined && row[c] !== (shelf.months[m] as ClimateRow)[c]}
                    fault={fault?.at === `${m} ${c}`}
                    tell={(text) => setFault(text === null ? null : { at: `${m} ${c}`, text })}
                    limit={(v) => {
                      if (c === 'high_C' && v < row.low_C) return w.highLow;
                      if (c === 'low_C' && v > row.high_C) return w.highLow;
                      return c === 'dewPoint_C' && v > row.high_C ? w.dewHigh : null;
                    }}
                    put={(column, v) => put(m, column, v)}
                  />
                </td>
              ))}
              <td>
                {own[m] && (
                  <button
                    type="button"
                    class="climate-back"
                    aria-label={w.back(y.months[m], shelf.name)}
                    title={w.back(y.months[m], shelf.name)}
                    onClick={() => back(w.backStep(y.months[m]), withShelfRow(project, m))}
                  >
                    ↺
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="entry-error" role="alert">
        {fault?.text ?? ''}
      </p>
      <p class="hint">
        <b>{w.markOwn}</b> · {w.markShelf(shelf.name)} · <i>{w.markGuess}</i>
      </p>
      {table && (
        <button
          type="button"
          class="act act-quiet"
          onClick={() => back(w.allStep(shelf.name), withShelf(project))}
        >
          {w.all(shelf.name)}
        </button>
      )}
    </div>
  );
}

function Pick({
  label,
  value,
  options,
  onPick,
}: {
  label: string;
  value: keyof typeof w.pick;
  options: readonly (keyof typeof w.pick)[];
  onPick: (column: keyof typeof w.pick) => void;
}) {
  return (
    <select
      class="climate-pick"
      aria-label={label}
      value={value}
      onChange={(event) => onPick(event.currentTarget.value as keyof typeof w.pick)}
    >
      {options.map((o) => (
        <option key={o} value={o}>
          {w.pick[o]}
        </option>
      ))}
    </select>
  );
}

interface CellProps {
  label: string;
  column: ClimateColumn;
  value: number | undefined;
  guess: number | null;
  own: boolean;
  fault: boolean;
  tell: (text: string | null) => void;
  limit: (value: number) => string | null;
  put: (column: ClimateColumn, value: number | null) => void;
}

/** One figure. What cannot be read stays, with the reason under the table; the last good value is in force. */
function Cell({ label, column, value, guess, own, fault, tell, limit, put }: CellProps) {
  const u = units.value;
  const [text, setText] = useState<string | null>(null);
  const shown = value === undefined ? '' : cellText(column, value, u);
  const finish = (raw: string) => {
    if (raw === shown) {
      setText(null);
      return tell(null);
    }
    if (raw.trim() === '') {
      setText(null);
      tell(null);
      if (value !== undefined) put(column, null);
      return;
    }
    const typed = readCell(column, raw, u);
    const wrong = typed.ok ? (typed.column === column ? limit(typed.value) : null) : typed.message;
    if (wrong !== null) return tell(`${label}: ${wrong}`);
    tell(null);
    setText(null);
    if (typed.ok) put(typed.column, typed.value);
  };
  return (
    <input
      class={own ? 'cell-own' : ''}
      aria-label={label}
      aria-invalid={fault}
      value={text ?? shown}
      placeholder={guess === null ? '–' : `~${cellText(column, guess, u)}`}
      autocomplete="off"
      spellcheck={false}
      inputMode="text"
      onFocus={(event) => event.currentTarget.select()}
      onInput={(event) => setText(event.currentTarget.value)}
      onBlur={(event) => {
        if (text !== null) finish(event.currentTarget.value);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && text !== null) finish(event.currentTarget.value);
        if (event.key === 'Escape' && text !== null) {
          setText(null);
          tell(null);
        }
      }}
    />
  );
}

/** The months' highs and lows with the sun under them; what was changed shows the shelf as a ghost. */
function ClimatePicture({
  rows,
  shelf,
  own,
}: {
  rows: readonly ClimateRow[];
  shelf: readonly { high_C: number; low_C: number }[];
  own: readonly boolean[];
}) {
  const { ref, width } = useSize<HTMLDivElement>();
  const { project } = doc.value;
  const u = units.value;
  const figure = (v: number) => show(v, 'temperature', u).number.replace(/\.\d$/, '');
  const sun = rows.map(
    (row, m) => row.irradiation_kWhm2 ?? climateGuess(project, m, 'irradiation_kWhm2', row) ?? 0,
  );
  return (
    <div ref={ref}>
      {width > 80 && (
        <Picture
          items={
            climateBars(
              rows.map((row, m) => ({
                high_C: row.high_C,
                low_C: row.low_C,
                sun: sun[m],
                ghost: own[m] ? shelf[m] : null,
              })),
              { width, height: 150, months: y.monthLetters, temperatureText: figure, sunText: w.sunText },
            ).items
          }
          width={width}
          height={150}
          name="climate"
          title={w.picture}
          says={rows
            .map((row, m) =>
              w.says(
                y.months[m],
                say(row.high_C, 'temperature', u),
                say(row.low_C, 'temperature', u),
                sun[m].toFixed(1),
              ),
            )
            .join('; ')}
        />
      )}
    </div>
  );
}

import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { type TablePreview, UNITS_OF } from '@sunlap/workbench/weather/guess-mapping';
import type { CsvMapping, CsvUnit } from '@sunlap/workbench/weather/plain-csv';
import { useState } from 'preact/hooks';
import { doc } from '../../app/state';
import { SelectRow } from '../../parts/SelectRow';
import { s } from '../../text/season';
import { lacking, mappingFor, ROLES, type Role, roleOf, withRole, withUnit } from './csv-map';

const w = s.csv;
const ORDERS = ['ymd', 'mdy', 'dmy'] as const;
const MARKS = ['start', 'middle', 'end'] as const;

interface Props {
  name: string;
  preview: TablePreview;
  /** What was wrong when it was read last, with line and column. */
  problems: readonly string[];
  read: (mapping: CsvMapping) => void;
}

/** A table whose columns are named on its own first rows. */
export function CsvMap({ name, preview, problems, read }: Props) {
  const [mapping, setMapping] = useState(() => mappingFor(name, preview, doc.peek().project));
  const lacks = lacking(mapping);
  const change = (to: Partial<CsvMapping>) => setMapping({ ...mapping, ...to });
  return (
    <section class="csv" aria-label={w.title(name)}>
      <h2>{w.title(name)}</h2>
      <p class="hint">{w.how}</p>
      <div class="season-scroll">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard */}
        <table class="csv-table" tabIndex={0} aria-label={w.rows}>
          <thead>
            <tr>
              {preview.header.map((head, k) => (
                <th key={`${head}${k}`} scope="col">
                  <Column head={head} column={k + 1} mapping={mapping} set={setMapping} />
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {preview.rows.map((row, r) => (
              <tr key={r}>
                {preview.header.map((head, k) => (
                  <td key={`${head}${k}`}>{row[k] ?? ''}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div class="csv-rest">
        <SelectRow
          label={w.order}
          value={mapping.dateOrder}
          options={ORDERS.map((o) => [o, w.orders[o]])}
          put={(dateOrder) => change({ dateOrder: dateOrder as CsvMapping['dateOrder'] })}
        />
        <SelectRow
          label={w.marks}
          value={mapping.marks}
          options={MARKS.map((o) => [o, w.marked[o]])}
          put={(marks) => change({ marks: marks as CsvMapping['marks'] })}
        />
        <Figure
          label={w.offset}
          value={mapping.utcOffset_h}
          low={-12}
          high={14}
          put={(utcOffset_h) => change({ utcOffset_h })}
        />
        <Figure
          label={w.headLines}
          value={mapping.headerLines}
          low={0}
          high={200}
          put={(headerLines) => change({ headerLines: Math.round(headerLines) })}
        />
        <Figure
          label={w.windHeight}
          value={mapping.windHeight_m ?? 10}
          low={0.3}
          high={100}
          put={(windHeight_m) => change({ windHeight_m })}
        />
        <label class="hours-on">
          <input
            type="checkbox"
            checked={mapping.decimalComma === true}
            onChange={(event) => change({ decimalComma: event.currentTarget.checked })}
          />
          {w.comma}
        </label>
      </div>
      {problems.length > 0 && (
        <div role="alert" class="csv-problems">
          <strong>{w.notRead}</strong>
          <ul>
            {problems.slice(0, 8).map((p) => (
              <li key={p}>{p}</li>
            ))}
          </ul>
        </div>
      )}
      <p class="hint" role="status">
        {lacks.length === 0 ? w.ready : w.lacks(lacks.map((l) => w.lacking[l]).join(', '))}
      </p>
      <button type="button" class="act" disabled={lacks.length > 0} onClick={() => read(mapping)}>
        {w.read}
      </button>
    </section>
  );
}

function Column({
  head,
  column,
  mapping,
  set,
}: {
  head: string;
  column: number;
  mapping: CsvMapping;
  set: (mapping: CsvMapping) => void;
}) {
  const role = roleOf(mapping, column);
  const raw = role in UNITS_OF ? (role as RawColumn) : null;
  return (
    <>
      <span class="csv-head">{head}</span>
      <select
        aria-label={w.is(head)}
        data-column={column}
        value={role}
        onChange={(event) => set(withRole(mapping, column, event.currentTarget.value as Role))}
      >
        {ROLES.map((r) => (
          <option key={r} value={r}>
            {w.roles[r]}
          </option>
        ))}
      </select>
      {raw !== null && (
        <select
          aria-label={w.unit(head)}
          value={mapping.columns[raw]?.unit}
          onChange={(event) => set(withUnit(mapping, raw, event.currentTarget.value as CsvUnit))}
        >
          {UNITS_OF[raw].map((u) => (
            <option key={u} value={u}>
              {u}
            </option>
          ))}
        </select>
      )}
    </>
  );
}

/** A plain number; what is none keeps the last good one. */
function Figure({
  label,
  value,
  low,
  high,
  put,
}: {
  label: string;
  value: number;
  low: number;
  high: number;
  put: (value: number) => void;
}) {
  const [text, setText] = useState<string | null>(null);
  const number = text === null ? value : Number(text.trim().replace('−', '-').replace(',', '.'));
  const wrong = text !== null && (text.trim() === '' || !(number >= low && number <= high));
  return (
    <label class="row">
      <span>{label}</span>
      <input
        value={text ?? String(value).replace('-', '−')}
        autocomplete="off"
        aria-invalid={wrong}
        onInput={(event) => {
          const raw = event.currentTarget.value;
          setText(raw);
          const v = Number(raw.trim().replace('−', '-').replace(',', '.'));
          if (raw.trim() !== '' && v >= low && v <= high) put(v);
        }}
        onBlur={() => {
          if (!wrong) setText(null);
        }}
      />
    </label>
  );
}

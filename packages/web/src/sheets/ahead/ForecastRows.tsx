import { useState } from 'preact/hooks';
import { units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { a } from '../../text/ahead';
import { forecast, type Row, rowsOf, type SkyWord, setForecast, type WindWord } from './rows';

/** The forecast, day by day, and as one typed line. */
export function ForecastRows({ names }: { names: (n: number) => string }) {
  const now = forecast.value;
  const put = (n: number, change: Partial<Row>) =>
    setForecast({ ...now, rows: now.rows.map((r, i) => (i === n ? { ...r, ...change } : r)) });
  return (
    <section class="ahead-forecast">
      <h2>{a.forecast}</h2>
      {now.rows.map((row, n) => (
        <fieldset key={n} class="ahead-day">
          <legend>{names(n)}</legend>
          <QuantityInput
            label={a.high}
            kind="temperature"
            value={row.high_C}
            min={Math.max(-45, row.low_C)}
            max={58}
            onValue={(v) => put(n, { high_C: v })}
          />
          <QuantityInput
            label={a.low}
            kind="temperature"
            value={row.low_C}
            min={-45}
            max={row.high_C}
            onValue={(v) => put(n, { low_C: v })}
          />
          <Words
            label={a.sky}
            words={a.skies}
            value={row.sky}
            onValue={(sky) => put(n, { sky: sky as SkyWord })}
          />
          <Words
            label={a.wind}
            words={a.winds}
            value={row.wind}
            onValue={(wind) => put(n, { wind: wind as WindWord })}
          />
        </fieldset>
      ))}
      <p class="note-acts">
        <button
          type="button"
          class="act act-quiet"
          disabled={now.rows.length >= 7}
          onClick={() => setForecast({ ...now, rows: [...now.rows, { ...now.rows[now.rows.length - 1] }] })}
        >
          {a.addDay}
        </button>
        <button
          type="button"
          class="act act-quiet"
          disabled={now.rows.length <= 1}
          onClick={() => setForecast({ ...now, rows: now.rows.slice(0, -1) })}
        >
          {a.lessDay}
        </button>
      </p>
      <Typed />
    </section>
  );
}

function Words({
  label,
  words,
  value,
  onValue,
}: {
  label: string;
  words: Readonly<Record<string, string>>;
  value: string;
  onValue: (value: string) => void;
}) {
  return (
    <label class="ahead-words">
      <span>{label}</span>
      <select value={value} onChange={(event) => onValue(event.currentTarget.value)}>
        {Object.entries(words).map(([word, shown]) => (
          <option key={word} value={word}>
            {shown}
          </option>
        ))}
      </select>
    </label>
  );
}

function Typed() {
  const [text, setText] = useState('');
  const system = units.value;
  const read = text.trim() === '' ? null : rowsOf(text, system);
  return (
    <details class="season-fold">
      <summary>{a.typed}</summary>
      <div class="row">
        <label for="ahead-typed">{a.forecast}</label>
        <input
          id="ahead-typed"
          value={text}
          autocomplete="off"
          placeholder={a.typedExample[system]}
          aria-invalid={read?.ok === false}
          aria-describedby="ahead-typed-hint"
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <p id="ahead-typed-hint" class={read?.ok === false ? 'entry-error' : 'hint'}>
          {read?.ok === false ? read.message : a.typedHint}
        </p>
      </div>
      <button
        type="button"
        class="act"
        disabled={read?.ok !== true}
        onClick={() => {
          if (read?.ok !== true) return;
          setForecast({ ...forecast.value, rows: read.rows.slice(0, 7) });
          setText('');
        }}
      >
        {a.take}
      </button>
    </details>
  );
}

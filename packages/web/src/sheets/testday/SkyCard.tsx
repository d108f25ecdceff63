import { beaufortScale } from '@sunlap/data/beaufort';
import { skies } from '@sunlap/data/skies';
import type { TestDay } from '@sunlap/project/schema/life';
import { useApp } from '../../app/context';
import { QuantityInput } from '../../parts/QuantityInput';
import { d } from '../../text/testday';
import { changeDay, day } from './state';

type Weather = NonNullable<TestDay['weather']>;

/** Over this a person has other things to do than to time a pail. */
const MOST_FORCE = 6;

function Words({
  name,
  label,
  rows,
  value,
  set,
}: {
  name: string;
  label: string;
  rows: readonly { value: string; words: string }[];
  value: string | null;
  set: (value: string) => void;
}) {
  const chosen = rows.find((row) => row.value === value);
  return (
    <details class="more words-more" open={chosen === undefined}>
      <summary>
        {label}
        <strong class="words-chosen">{chosen?.words ?? d.sky.none}</strong>
      </summary>
      <fieldset class="choices words">
        <legend class="away">{label}</legend>
        {rows.map((row) => (
          <label key={row.value} class={row.value === value ? 'chosen' : ''}>
            <input type="radio" name={name} checked={row.value === value} onChange={() => set(row.value)} />
            {row.words}
          </label>
        ))}
      </fieldset>
    </details>
  );
}

/** Sky and wind in words that a person can judge, or as measured. */
export function SkyCard() {
  const { store } = useApp();
  const now = day.value;
  if (now === null) return null;
  const weather = now.weather ?? {};
  const put = (what: string, change: Partial<Weather>) =>
    changeDay(store, d.steps.set(what), (one) => ({ ...one, weather: { ...one.weather, ...change } }));
  const [date, hour] = now.at.split('T');
  return (
    <section class="card" aria-labelledby="sky-title">
      <h2 id="sky-title">{d.sky.title}</h2>
      <div class="ask-two">
        <label class="row">
          <span>{d.sky.at}</span>
          <input
            type="datetime-local"
            value={`${date}T${hour}`}
            onChange={(event) => {
              const at = event.currentTarget.value.slice(0, 16);
              if (/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(at))
                changeDay(store, d.steps.set(d.sky.at), (one) => ({ ...one, at }));
            }}
          />
        </label>
        <QuantityInput
          label={d.sky.air}
          kind="temperature"
          value={weather.air_C ?? null}
          min={-40}
          max={60}
          placeholder={d.sky.none}
          onValue={(air_C) => put(d.sky.air, { air_C })}
        />
      </div>
      <Words
        name="testday-sky"
        label={d.sky.sky}
        rows={skies.map((s) => ({ value: s.id, words: s.words }))}
        value={weather.sky ?? null}
        set={(sky) => put(d.sky.sky, { sky: sky as Weather['sky'] })}
      />
      <Words
        name="testday-wind"
        label={d.sky.wind}
        rows={beaufortScale
          .filter((b) => b.force <= MOST_FORCE)
          .map((b) => ({ value: String(b.force), words: b.words }))}
        value={weather.beaufort === undefined ? null : String(weather.beaufort)}
        set={(force) => put(d.sky.wind, { beaufort: Number(force) })}
      />
      <details class="more">
        <summary>{d.sky.more}</summary>
        <div class="ask-fields">
          <QuantityInput
            label={d.sky.irradiance}
            kind="irradiance"
            value={weather.irradiance_Wm2 ?? null}
            min={0}
            max={1500}
            placeholder={d.sky.none}
            onValue={(irradiance_Wm2) => put(d.sky.irradiance, { irradiance_Wm2 })}
          />
          <QuantityInput
            label={d.sky.windMeasured}
            kind="windSpeed"
            value={weather.wind_ms ?? null}
            min={0}
            max={40}
            placeholder={d.sky.none}
            onValue={(wind_ms) => put(d.sky.windMeasured, { wind_ms })}
          />
          <QuantityInput
            label={d.sky.dew}
            kind="temperature"
            value={weather.dewPoint_C ?? null}
            min={-40}
            max={40}
            placeholder={d.sky.none}
            onValue={(dewPoint_C) => put(d.sky.dew, { dewPoint_C })}
          />
        </div>
      </details>
    </section>
  );
}

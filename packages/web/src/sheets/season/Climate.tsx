import { climateTypes, findClimateType } from '@sunlap/data/climate-types';
import { findPlace, nearestPlaces, searchPlaces } from '@sunlap/data/places';
import type { Climate } from '@sunlap/project/schema/season';
import { useRef, useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { say } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';
import { withSeason } from './fields';
import { readFile, weather } from './weather-ask';
import type { WeatherNotice } from './weather-found';

const nameOf = (climate: Climate | undefined): string => {
  if (climate === undefined) return s.climate.auto;
  switch (climate.kind) {
    case 'place':
      return findPlace(climate.id)?.name ?? climate.id;
    case 'type':
      return findClimateType(climate.id)?.name ?? climate.id;
    case 'table':
      return climate.name ?? climate.kind;
    case 'file':
      return climate.name;
  }
};

/** Weather of the year: a town by its name or nearness, a kind of climate, or a file with what was found in it. */
export function ClimatePick() {
  const { store } = useApp();
  const [typed, setTyped] = useState('');
  const file = useRef<HTMLInputElement>(null);
  const { project } = doc.value;
  const { latitude_deg, longitude_deg } = project.site;
  const choose = (climate: Climate) => {
    store.apply(s.climate.step(nameOf(climate)), {
      doc: { ...doc.value, project: withSeason(project, { climate }) },
      undo: 'commit',
    });
  };
  const words = typed.trim().toLowerCase();
  const towns = words.length < 2 ? [] : searchPlaces(typed, 6);
  const kinds =
    words.length < 2 ? [] : climateTypes.filter((c) => c.name.toLowerCase().includes(words)).slice(0, 5);
  const here = project.season?.climate;
  const pressed = (kind: Climate['kind'], id: string) =>
    here !== undefined && here.kind === kind && 'id' in here && here.id === id;
  const button = (kind: 'place' | 'type', id: string, name: string, aside: string) => (
    <li key={`${kind}-${id}`}>
      <button
        type="button"
        class="season-town"
        aria-pressed={pressed(kind, id)}
        onClick={() => choose({ kind, id })}
      >
        <span>{name}</span> <span class="soft">{aside}</span>
      </button>
    </li>
  );
  const take = async (chosen: File): Promise<void> => {
    const found = await readFile(chosen.name, new Uint8Array(await chosen.arrayBuffer()));
    weather.value = found;
    if (found.ok) choose({ kind: 'file', name: found.name });
  };
  return (
    <details class="season-fold">
      <summary>{s.climate.now(nameOf(here))}</summary>
      <div class="row">
        <label for="season-town">{s.climate.search}</label>
        <input
          id="season-town"
          value={typed}
          autocomplete="off"
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
      {words.length >= 2 ? (
        towns.length + kinds.length === 0 ? (
          <p class="hint">{s.climate.none}</p>
        ) : (
          <ul class="season-towns">
            {towns.map((p) => button('place', p.id, p.name, ''))}
            {kinds.map((c) => button('type', c.id, c.name, ''))}
          </ul>
        )
      ) : (
        <>
          <h2>{s.climate.near}</h2>
          <ul class="season-towns">
            {nearestPlaces(latitude_deg, longitude_deg, 3).map(({ place, distance_km }) =>
              button('place', place.id, place.name, s.climate.km(distance_km)),
            )}
          </ul>
          <details>
            <summary>{s.climate.types}</summary>
            <ul class="season-towns">{climateTypes.map((c) => button('type', c.id, c.name, ''))}</ul>
          </details>
        </>
      )}
      <p class="hint">{s.climate.memory}</p>
      <button type="button" class="act act-quiet" onClick={() => file.current?.click()}>
        {s.climate.file}
      </button>
      <p class="hint">{s.climate.fileHint}</p>
      <input
        ref={file}
        class="away"
        type="file"
        tabIndex={-1}
        aria-label={s.climate.file}
        data-weather
        onChange={(event) => {
          const chosen = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (chosen !== undefined) void take(chosen);
        }}
      />
      {weather.value !== null && <Found found={weather.value} />}
    </details>
  );
}

function Found({ found }: { found: WeatherNotice }) {
  const u = units.value;
  if (!found.ok)
    return (
      <div class="season-found" role="alert">
        <h2>{s.climate.refused(found.name)}</h2>
        <ul>
          {found.problems.slice(0, 6).map((p) => (
            <li key={p}>{p}</li>
          ))}
        </ul>
      </div>
    );
  const off = found.shift_min;
  const rows: [string, string][] = [
    [
      s.climate.foundPlace,
      `${found.place}, ${found.latitude_deg.toFixed(2)}°, ${found.longitude_deg.toFixed(2)}°`,
    ],
    [s.climate.foundZone, `UTC ${found.utcOffset_h >= 0 ? '+' : '−'}${Math.abs(found.utcOffset_h)} h`],
    [s.climate.foundStated, found.convention],
    [
      s.climate.foundLight,
      off === null
        ? s.climate.foundUnknown
        : Math.abs(off) < 8
          ? s.climate.fits
          : s.climate.foundFit(off.toFixed(0)),
    ],
    [s.climate.foundRows, `${found.rows}`],
  ];
  return (
    <div class="season-found" role="status">
      <h2>{s.climate.found(found.name)}</h2>
      <dl>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {found.notices.length > 0 && (
        <ul>
          {found.notices.map((n) => (
            <li key={n}>{n}</li>
          ))}
        </ul>
      )}
      <details>
        <summary>{s.climate.foundMonths}</summary>
        <ul>
          {found.months.map((m, i) => (
            <li key={y.months[i]}>
              {y.months[i]} {say(m.high_C, 'temperature', u)} / {say(m.low_C, 'temperature', u)},{' '}
              {Number.isFinite(m.irradiation_kWhm2) ? `${m.irradiation_kWhm2.toFixed(1)} kWh/m²` : '–'},{' '}
              {say(m.wind_ms, 'windSpeed', u)}
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

import { climateTypes, findClimateType } from '@sunlap/data/climate-types';
import { findPlace, nearestPlaces, searchPlaces } from '@sunlap/data/places';
import type { Climate } from '@sunlap/project/schema/season';
import type { TablePreview } from '@sunlap/workbench/weather/guess-mapping';
import type { CsvMapping } from '@sunlap/workbench/weather/plain-csv';
import { useRef, useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { s } from '../../text/season';
import { CsvMap } from './CsvMap';
import { previewOf } from './csv-map';
import { Found } from './Found';
import { withSeason } from './fields';
import { readFile, weather } from './weather-ask';

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
  /** A file of no known format whose columns are being named. */
  const [table, setTable] = useState<{ name: string; bytes: Uint8Array; preview: TablePreview } | null>(null);
  const [tries, setTries] = useState(0);
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
  const read = async (name: string, bytes: Uint8Array, mapping: CsvMapping | null): Promise<void> => {
    const found = await readFile(name, bytes, mapping);
    weather.value = found;
    if (found.ok) {
      setTable(null);
      choose({ kind: 'file', name });
    } else if (mapping === null) {
      const preview = found.mayBeTable ? previewOf(bytes) : null;
      setTable(preview === null ? null : { name, bytes, preview });
    }
  };
  const take = async (chosen: File): Promise<void> => {
    setTable(null);
    setTries(0);
    await read(chosen.name, new Uint8Array(await chosen.arrayBuffer()), null);
  };
  const found = weather.value;
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
      {table !== null ? (
        <CsvMap
          key={table.name}
          name={table.name}
          preview={table.preview}
          problems={tries > 0 && found !== null && !found.ok ? found.problems : []}
          read={(mapping) => {
            setTries(tries + 1);
            void read(table.name, table.bytes, mapping);
          }}
        />
      ) : (
        found !== null && <Found found={found} />
      )}
    </details>
  );
}

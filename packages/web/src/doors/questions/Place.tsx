import { usualAnswers } from '@sunlap/project/start/start-project';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { f } from '../../text/first';
import { answer } from '../answers';
import { type PlaceFound, readDegrees, searchTowns } from '../places';
import type { QuestionProps } from './props';

/** Height of the noon sun on the longest and the shortest day [°]; the earth's axis leans 23.44°. */
const noon = (latitude_deg: number) =>
  [23.44, -23.44].map((lean) => Math.max(0, 90 - Math.abs(Math.abs(latitude_deg) - lean)));

function NoonSun({ latitude_deg }: { latitude_deg: number }) {
  const [high, low] = noon(latitude_deg);
  const at = (deg: number) => [
    150 - 118 * Math.cos((deg * Math.PI) / 180),
    112 - 104 * Math.sin((deg * Math.PI) / 180),
  ];
  return (
    <figure class="noon">
      <svg
        viewBox="0 0 300 126"
        role="img"
        aria-label={`${f.place.noon}: ${f.place.high(`${Math.round(high)}°`)}, ${f.place.low(`${Math.round(low)}°`)}`}
      >
        <path d="M20 112H280" class="curve-full" />
        <path d="M32 112A118 104 0 0 1 268 112" class="curve-slow" />
        <path d="M150 112v-9M143 112v-6h14v6" class="curve-axis" />
        {[high, low].map((deg, i) => {
          const [x, y] = at(deg);
          return (
            <g key={i === 0 ? 'high' : 'low'}>
              <path d={`M150 106L${x.toFixed(1)} ${y.toFixed(1)}`} class="noon-ray" />
              <circle cx={x} cy={y} r="7" class={i === 0 ? 'noon-sun' : 'noon-sun noon-low'} />
              <text x={x - 13} y={y + 4} text-anchor="end" class="noon-text">
                {Math.round(deg)}°
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption class="hint">{f.place.noon}</figcaption>
    </figure>
  );
}

function Degrees({
  label,
  hint,
  value,
  most,
  set,
}: {
  label: string;
  hint: string;
  value: number;
  most: number;
  set: (value: number) => void;
}) {
  const [text, setText] = useState<string | null>(null);
  const [bad, setBad] = useState(false);
  return (
    <label class="row">
      <span>
        {label} <small>{hint}</small>
      </span>
      <input
        value={text ?? String(Number(value.toFixed(3)))}
        inputMode="text"
        autocomplete="off"
        aria-invalid={bad}
        onInput={(event) => {
          setText(event.currentTarget.value);
          const v = readDegrees(event.currentTarget.value, most);
          setBad(v === null);
          if (v !== null) set(v);
        }}
        onBlur={() => {
          if (!bad) setText(null);
        }}
      />
    </label>
  );
}

export function Place({ answers: a, put }: QuestionProps) {
  const { store } = useApp();
  const [text, setText] = useState(a.place === usualAnswers(a.units).place ? '' : a.place);
  const [found, setFound] = useState<readonly PlaceFound[] | null>(null);
  const facing = (latitude_deg: number) =>
    a.facing_deg % 180 === 0 ? { facing_deg: latitude_deg < 0 ? 0 : 180 } : {};
  const choose = (p: PlaceFound) => {
    setText(p.name);
    setFound(null);
    put(f.set.place(p.name), {
      place: p.name,
      latitude_deg: p.latitude_deg,
      longitude_deg: p.longitude_deg,
      elevation_m: p.elevation_m,
      timeZone: p.timeZone,
      ...facing(p.latitude_deg),
    });
  };
  return (
    <>
      <NoonSun latitude_deg={a.latitude_deg} />
      <div class="ask-fields">
        <div class="row town">
          <label for="first-town">{f.place.town}</label>
          <input
            id="first-town"
            value={text}
            autocomplete="off"
            spellcheck={false}
            aria-describedby="first-town-hint"
            onInput={(event) => {
              const typed = event.currentTarget.value;
              setText(typed);
              void searchTowns(typed).then(setFound);
            }}
            onBlur={() => {
              const name = text.trim();
              if (name !== '' && name !== doc.value.project.site.place)
                answer(store, f.set.place(name), { place: name });
            }}
          />
          {found !== null && found.length > 0 && (
            <ul class="towns">
              {found.map((p) => (
                <li key={`${p.name} ${p.latitude_deg}`}>
                  <button
                    type="button"
                    onMouseDown={(event) => event.preventDefault()}
                    onClick={() => choose(p)}
                  >
                    <strong>{p.name}</strong> <span>{p.aside}</span>
                  </button>
                </li>
              ))}
            </ul>
          )}
          <p class="hint" id="first-town-hint">
            {found !== null && found.length === 0 && text.trim().length > 2
              ? f.place.noTown
              : f.place.townHint}
          </p>
        </div>
        <div class="ask-two">
          <Degrees
            label={f.place.latitude}
            hint={f.place.latitudeHint}
            value={a.latitude_deg}
            most={66}
            set={(latitude_deg) =>
              put(f.set.place(`${latitude_deg.toFixed(1)}°`), { latitude_deg, ...facing(latitude_deg) })
            }
          />
          <Degrees
            label={f.place.longitude}
            hint={f.place.longitudeHint}
            value={a.longitude_deg}
            most={180}
            set={(longitude_deg) => put(f.set.place(`${longitude_deg.toFixed(1)}°`), { longitude_deg })}
          />
        </div>
        <div class="row">
          <span id="first-units">{f.place.units}</span>
          <fieldset class="segments" aria-labelledby="first-units">
            {(['us', 'metric'] as const).map((u) => (
              <button
                key={u}
                type="button"
                aria-pressed={a.units === u}
                onClick={() => {
                  if (u === a.units) return;
                  const usual = usualAnswers(u, a.latitude_deg);
                  put(f.set.units, {
                    ...usual,
                    name: a.name,
                    place: a.place,
                    longitude_deg: a.longitude_deg,
                    elevation_m: a.elevation_m,
                    timeZone: a.timeZone,
                    unsure: a.unsure,
                  });
                }}
              >
                {f.place[u]}
              </button>
            ))}
          </fieldset>
        </div>
      </div>
    </>
  );
}

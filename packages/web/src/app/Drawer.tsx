import type { QuantityKind } from '@sunlap/project/units/kinds';
import { useEffect, useRef, useState } from 'preact/hooks';
import { say } from '../shape/quantity';
import { read } from '../shape/readQuantity';
import { type MomentInput, SKIES, type Sky } from '../store/doc';
import { t } from '../text/catalogue';
import { drawerText } from '../text/drawer';
import { editorText } from '../text/editor';
import { useApp } from './context';
import { doc, drawerOpen, theme, units } from './state';

function MomentField({
  name,
  label,
  kind,
  min,
  max,
}: {
  name: 'water_C' | 'air_C' | 'dewPoint_C' | 'wind_ms';
  label: string;
  kind: QuantityKind;
  min: number;
  max: number;
}) {
  const { store } = useApp();
  const [text, setText] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const value = doc.value.moment[name];
  const shown = say(value, kind, units.value);
  const id = `moment-${name}`;
  return (
    <div class="row">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={text ?? shown}
        autocomplete="off"
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : `${id}-error`}
        onInput={(event) => {
          setText(event.currentTarget.value);
          const answer = read(event.currentTarget.value, kind, units.value);
          if (!answer.ok) return setError(`${answer.message} ${editorText.keeps(shown)}`);
          if (answer.value < min || answer.value > max)
            return setError(editorText.outside(say(min, kind, units.value), say(max, kind, units.value)));
          setError(null);
          store.apply(t.steps.moment(label), {
            doc: { ...doc.value, moment: { ...doc.value.moment, [name]: answer.value } },
            undo: 'drag',
          });
        }}
        onBlur={() => {
          store.endDrag();
          if (error === null) setText(null);
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
        }}
      />
      {error !== null && (
        <p class="entry-error" id={`${id}-error`} role="alert">
          {error}
        </p>
      )}
    </div>
  );
}

/** What has no place on the drawing: the moment, the project's name, units, the sheet's ground. */
export function Drawer() {
  const { store, actions } = useApp();
  const box = useRef<HTMLDivElement>(null);
  const open = drawerOpen.value;
  useEffect(() => {
    if (open) box.current?.querySelector<HTMLElement>('input')?.focus({ preventScroll: true });
  }, [open]);
  if (!open) return null;
  const { moment, project } = doc.value;
  const put = (label: string, change: Partial<MomentInput>, undo: 'commit' | 'drag' = 'commit') =>
    store.apply(t.steps.moment(label), { doc: { ...doc.value, moment: { ...moment, ...change } }, undo });
  const [date, hour] = moment.at.split('T');
  const minutes = Number(hour.slice(0, 2)) * 60 + Number(hour.slice(3));
  const close = () => {
    drawerOpen.value = false;
    document.querySelector<HTMLElement>('[data-drawer]')?.focus();
  };
  return (
    <div
      class="drawer"
      ref={box}
      role="dialog"
      aria-label={drawerText.title}
      onKeyDown={(event) => {
        if (event.key === 'Escape') close();
      }}
    >
      <div class="editor-head">
        <h2>{drawerText.title}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={close}>
          ×
        </button>
      </div>
      <p class="hint">{drawerText.intro}</p>
      <div class="row">
        <label for="moment-date">{drawerText.date}</label>
        <input
          id="moment-date"
          type="date"
          value={date}
          onChange={(event) => {
            if (/^\d{4}-\d\d-\d\d$/.test(event.currentTarget.value))
              put(drawerText.date, { at: `${event.currentTarget.value}T${hour}` });
          }}
        />
      </div>
      <div class="slider">
        <label for="moment-hour">
          <span>{drawerText.hour}</span> <output for="moment-hour">{hour}</output>
        </label>
        <input
          id="moment-hour"
          type="range"
          min={240}
          max={1320}
          step={15}
          value={minutes}
          aria-valuetext={hour}
          onInput={(event) => {
            const v = Number(event.currentTarget.value);
            const text = `${String(Math.floor(v / 60)).padStart(2, '0')}:${String(v % 60).padStart(2, '0')}`;
            put(drawerText.hour, { at: `${date}T${text}` }, 'drag');
          }}
          onChange={() => store.endDrag()}
        />
        <div class="slider-ends" aria-hidden="true">
          <span>04:00</span>
          <span>22:00</span>
        </div>
      </div>
      <MomentField name="water_C" label={t.fields.water} kind="temperature" min={0} max={60} />
      <MomentField name="air_C" label={t.fields.air} kind="temperature" min={-30} max={55} />
      <MomentField name="dewPoint_C" label={t.fields.dew} kind="temperature" min={-40} max={40} />
      <MomentField name="wind_ms" label={t.fields.wind} kind="windSpeed" min={0} max={40} />
      <div class="row">
        <label for="moment-sky">{t.fields.sky}</label>
        <select
          id="moment-sky"
          value={moment.sky}
          onChange={(event) => put(t.fields.sky, { sky: event.currentTarget.value as Sky })}
        >
          {SKIES.map((sky) => (
            <option key={sky} value={sky}>
              {t.options[sky]}
            </option>
          ))}
        </select>
      </div>
      <h3>{drawerText.project}</h3>
      <div class="row">
        <label for="project-name">{drawerText.name}</label>
        <input
          id="project-name"
          value={project.name}
          maxLength={200}
          onChange={(event) => {
            const name = event.currentTarget.value.trim();
            if (name === '') return;
            store.apply(t.steps.set(drawerText.name, name), {
              doc: { ...doc.value, project: { ...project, name } },
              undo: 'commit',
            });
          }}
        />
      </div>
      <div class="row">
        <span id="units-label">{drawerText.units}</span>
        <fieldset class="segments" aria-labelledby="units-label">
          {(['us', 'metric'] as const).map((u) => (
            <button
              key={u}
              type="button"
              aria-pressed={project.units === u}
              onClick={() =>
                store.apply(t.steps.units(drawerText[u]), {
                  doc: { ...doc.value, project: { ...project, units: u } },
                  undo: 'commit',
                })
              }
            >
              {drawerText[u]}
            </button>
          ))}
        </fieldset>
      </div>
      <div class="row">
        <span id="theme-label">{drawerText.sheet}</span>
        <fieldset class="segments" aria-labelledby="theme-label">
          {(['light', 'dark', 'auto'] as const).map((kind) => (
            <button
              key={kind}
              type="button"
              aria-pressed={theme.value === kind}
              onClick={() => actions.setTheme(kind)}
            >
              {drawerText[kind]}
            </button>
          ))}
        </fieldset>
      </div>
    </div>
  );
}

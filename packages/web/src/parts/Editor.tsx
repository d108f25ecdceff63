import { readNominal } from '@sunlap/project/units/nominal';
import { Fragment } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, editing, focus, narrow, study, units } from '../app/state';
import { fieldText } from '../shape/fieldText';
import { familiesOf, PIPES, pipeName, pipeOf } from '../shape/pipes';
import { difference, read, say } from '../shape/quantity';
import { t } from '../text/catalogue';
import { Cautions } from './Cautions';
import type { ChoiceField, Field, NumberField, PipeField } from './field';

/** Places a box beside what opened it, within the window. */
function usePlace(from: HTMLElement | null, box: { current: HTMLElement | null }, key: unknown) {
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    if (narrow.value) {
      element.style.left = '';
      element.style.top = '';
      return;
    }
    const r = from?.isConnected === true ? from.getBoundingClientRect() : null;
    const { offsetWidth: w, offsetHeight: h } = element;
    const [vw, vh] = [window.innerWidth, window.innerHeight];
    const x = r === null ? (vw - w) / 2 : Math.min(Math.max(8, r.left + r.width / 2 - w / 2), vw - w - 8);
    const below = r === null ? vh * 0.18 : r.bottom + 10;
    const y = r !== null && below + h > vh - 8 ? Math.max(8, r.top - h - 10) : below;
    element.style.left = `${x}px`;
    element.style.top = `${y}px`;
  }, [from, key]);
}

/** The one editor: a small sheet beside the chip, or from below on a phone. */
export function Editor({ fields }: { fields: readonly Field[] }) {
  const open = editing.value;
  const field = open === null ? undefined : fields.find((f) => f.id === open.id);
  const box = useRef<HTMLDivElement>(null);
  usePlace(open?.from ?? null, box, field?.id);
  const id = field?.id;
  useEffect(() => {
    if (id === undefined) return;
    const onPointer = (event: PointerEvent) => {
      if (box.current !== null && !box.current.contains(event.target as Node)) close(false);
    };
    const timer = setTimeout(() => document.addEventListener('pointerdown', onPointer), 0);
    return () => {
      clearTimeout(timer);
      document.removeEventListener('pointerdown', onPointer);
    };
  }, [id]);
  function close(refocus: boolean) {
    const back = editing.value;
    editing.value = null;
    if (!refocus || back === null) return;
    const again = document.querySelector<HTMLElement>(`[data-field="${CSS.escape(back.id)}"]`);
    (back.from?.isConnected === true ? back.from : again)?.focus();
  }
  if (field === undefined) return null;
  return (
    <div
      class="editor"
      ref={box}
      role="dialog"
      aria-label={field.label}
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          event.stopPropagation();
          close(true);
        }
      }}
    >
      <div class="editor-head">
        <h2>{field.label}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={() => close(true)}>
          ×
        </button>
      </div>
      {field.type === 'number' && <NumberEditor key={field.id} field={field} done={() => close(true)} />}
      {field.type === 'choice' && field.acts === true && (
        <ActsEditor key={field.id} field={field} done={() => close(true)} />
      )}
      {field.type === 'choice' && field.acts !== true && (
        <ChoiceEditor key={field.id} field={field} done={() => close(true)} />
      )}
      {field.type === 'pipe' && <PipeEditor key={field.id} field={field} done={() => close(true)} />}
      {field.hint !== undefined && <p class="hint">{field.hint}</p>}
      {field.path?.startsWith('/collector/sections') === true &&
        doc.value.project.collector.sections.length > 1 && (
          <p class="hint">
            {focus.value === null
              ? t.editor.scopeAll
              : t.editor.scopeOne(
                  doc.value.project.collector.sections.find((s) => s.id === focus.value)?.name ?? focus.value,
                )}
          </p>
        )}
      {field.hand !== undefined && <Cautions hand={field.hand} />}
    </div>
  );
}

/** Heat now if the field stood one step lower and one step higher. */
function useEffects(make: (way: 1 | -1) => ReturnType<NumberField['set']> | null, key: string) {
  const { runner } = useApp();
  const [heat, setHeat] = useState<{ key: string; low: number | null; high: number | null }>({
    key: '',
    low: null,
    high: null,
  });
  useEffect(() => {
    let live = true;
    runner.forget('effect');
    for (const way of [-1, 1] as const) {
      const other = make(way);
      if (other === null) continue;
      runner.ask('effect', way < 0 ? 'low' : 'high', other, (result) => {
        if (!live || !('study' in result)) return;
        const value = result.study.heat?.result.heat_W ?? null;
        setHeat((old) => {
          const base = old.key === key ? old : { key, low: null, high: null };
          return way < 0 ? { ...base, low: value } : { ...base, high: value };
        });
      });
    }
    return () => {
      live = false;
    };
  }, [key]);
  return heat.key === key ? heat : { low: null, high: null };
}

function EffectRow({
  low,
  high,
  effect,
  go,
}: {
  low: string | null;
  high: string | null;
  effect: { low: number | null; high: number | null };
  go: (way: 1 | -1) => void;
}) {
  const now = study.value?.heat?.result.heat_W;
  const text = (value: number | null) => {
    if (value === null || now === undefined) return t.editor.working;
    const d = value - now;
    return Math.abs(d) < Math.abs(now) * 5e-4 ? t.editor.same : difference(d, 'heatRate', units.value);
  };
  return (
    <fieldset class="effects" aria-label={t.editor.effect}>
      {([-1, 1] as const).map((way) => {
        const label = way < 0 ? low : high;
        return (
          <button key={way} type="button" class="effect" disabled={label === null} onClick={() => go(way)}>
            <span class="effect-to">
              {way < 0 ? '▾ ' : '▴ '}
              {label ?? (way < 0 ? t.editor.nothingSmaller : t.editor.nothingLarger)}
            </span>
            {label !== null && <span class="effect-heat">{text(way < 0 ? effect.low : effect.high)}</span>}
          </button>
        );
      })}
    </fieldset>
  );
}

function NumberEditor({ field, done }: { field: NumberField; done: () => void }) {
  const { store } = useApp();
  const system = units.value;
  const value = field.value ?? field.typical;
  const shown = (v: number) => field.write?.(v) ?? say(v, field.kind, system);
  const [text, setText] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  // closing takes the focus away: what was entered must not be entered again by that
  const closed = useRef(false);
  useLayoutEffect(() => {
    if (!narrow.value) input.current?.focus();
    input.current?.select();
  }, []);
  const within = (v: number) => v >= field.min - 1e-9 && v <= field.max + 1e-9;
  const next = (way: 1 | -1) => {
    const v = field.step(value, way);
    return within(v) ? v : null;
  };
  const effect = useEffects((way) => {
    const v = next(way);
    return v === null ? null : field.set(doc.value, v);
  }, `${field.id} ${value} ${system}`);
  function put(v: number) {
    store.apply(field.stepName(shown(v)), { doc: field.set(doc.value, v), undo: 'commit' });
  }
  function typed(raw: string, finish: boolean) {
    setText(raw);
    const answer = read(raw, field.kind, system);
    if (!answer.ok) return setError(answer.message);
    if (!within(answer.value)) return setError(t.editor.outside(shown(field.min), shown(field.max)));
    setError(null);
    if (Math.abs(answer.value - value) > 1e-12 && finish) put(answer.value);
    if (finish) {
      closed.current = true;
      setText(null);
      done();
    }
  }
  function go(way: 1 | -1) {
    const v = next(way);
    if (v === null) return;
    setText(null);
    setError(null);
    put(v);
  }
  const errorId = `${field.id}-error`;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        typed(input.current?.value ?? '', true);
      }}
    >
      <div class="entry">
        <button
          type="button"
          class="stepper"
          aria-label={t.editor.less}
          disabled={next(-1) === null}
          onClick={() => go(-1)}
        >
          −
        </button>
        <input
          ref={input}
          value={text ?? shown(value)}
          aria-label={field.label}
          aria-invalid={error !== null}
          aria-describedby={error === null ? undefined : errorId}
          autocomplete="off"
          spellcheck={false}
          inputMode="text"
          onInput={(event) => typed(event.currentTarget.value, false)}
          onBlur={(event) => {
            if (closed.current || text === null || error !== null) return;
            const answer = read(event.currentTarget.value, field.kind, system);
            if (answer.ok && Math.abs(answer.value - value) > 1e-12) put(answer.value);
            setText(null);
          }}
          onKeyDown={(event) => {
            if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
            event.preventDefault();
            go(event.key === 'ArrowUp' ? 1 : -1);
          }}
        />
        <button
          type="button"
          class="stepper"
          aria-label={t.editor.more}
          disabled={next(1) === null}
          onClick={() => go(1)}
        >
          +
        </button>
      </div>
      {error !== null && (
        <p class="entry-error" id={errorId} role="alert">
          {error} {t.editor.keeps(field.value === null ? t.chip.varies : shown(value))}
        </p>
      )}
      <EffectRow
        low={next(-1) === null ? null : shown(next(-1)!)}
        high={next(1) === null ? null : shown(next(1)!)}
        effect={effect}
        go={go}
      />
    </form>
  );
}

/** Things to do, one press each. */
function ActsEditor({ field, done }: { field: ChoiceField; done: () => void }) {
  const { store } = useApp();
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (!narrow.value) box.current?.querySelector('button')?.focus();
  }, []);
  return (
    <div class="acts" ref={box}>
      {field.options.map((o, i) => (
        <Fragment key={o.value}>
          {o.group !== undefined && o.group !== field.options[i - 1]?.group && (
            <h3 class="acts-group">{o.group}</h3>
          )}
          <button
            type="button"
            class="act act-quiet"
            disabled={o.disabled === true}
            onClick={() => {
              store.apply(field.stepName(o.label), { doc: field.set(doc.value, o.value), undo: 'commit' });
              done();
            }}
          >
            {o.label}
          </button>
        </Fragment>
      ))}
    </div>
  );
}

function ChoiceEditor({ field, done }: { field: ChoiceField; done: () => void }) {
  const { store } = useApp();
  const box = useRef<HTMLFieldSetElement>(null);
  useLayoutEffect(() => {
    const inputs = [...(box.current?.querySelectorAll('input') ?? [])];
    (inputs.find((i) => i.checked) ?? inputs[0])?.focus();
  }, []);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        done();
      }}
    >
      <fieldset class="choices" ref={box}>
        <legend class="away">{field.label}</legend>
        {field.options.map((o) => (
          <label key={o.value} class={o.value === field.value ? 'chosen' : ''}>
            <input
              type="radio"
              name={field.id}
              checked={o.value === field.value}
              disabled={o.disabled === true}
              onChange={() =>
                store.apply(field.stepName(o.label), { doc: field.set(doc.value, o.value), undo: 'commit' })
              }
              onKeyDown={(event) => {
                if (event.key === 'Enter') done();
              }}
            />
            {o.label}
          </label>
        ))}
      </fieldset>
    </form>
  );
}

function PipeEditor({ field, done }: { field: PipeField; done: () => void }) {
  const { store } = useApp();
  const value = field.value ?? field.typical;
  const current = pipeOf(value);
  const family = current?.family ?? PIPES[0].family;
  const sizes = PIPES.filter((p) => p.family === family);
  const index = sizes.findIndex((p) => p.id === value);
  const [text, setText] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    if (!narrow.value) input.current?.focus();
    input.current?.select();
  }, []);
  const put = (id: string) => {
    if (id !== field.value)
      store.apply(field.stepName(pipeName(id)), { doc: field.set(doc.value, id), undo: 'commit' });
  };
  const next = (way: 1 | -1) => sizes[index + way] ?? null;
  const effect = useEffects((way) => {
    const p = next(way);
    return p === null ? null : field.set(doc.value, p.id);
  }, `${field.id} ${value}`);
  const familyLabel = familiesOf().find((f) => f.id === family)?.label ?? family;
  function typed(raw: string, finish: boolean) {
    setText(raw);
    const nominal = readNominal(raw.split('·')[0].trim());
    const found = sizes.find((p) => p.nominal === nominal);
    if (found === undefined) return setError(t.editor.unknownPipe(raw, familyLabel));
    setError(null);
    if (!finish) return;
    put(found.id);
    setText(null);
    done();
  }
  const go = (way: 1 | -1) => {
    const p = next(way);
    if (p === null) return;
    setText(null);
    setError(null);
    put(p.id);
  };
  const shortName = (id: string) => pipeName(id).split(' · ')[0];
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        typed(input.current?.value ?? '', true);
      }}
    >
      <div class="entry">
        <button
          type="button"
          class="stepper"
          aria-label={t.editor.less}
          disabled={next(-1) === null}
          onClick={() => go(-1)}
        >
          −
        </button>
        <input
          ref={input}
          value={text ?? shortName(value)}
          aria-label={field.label}
          aria-invalid={error !== null}
          aria-describedby={error === null ? undefined : `${field.id}-error`}
          autocomplete="off"
          spellcheck={false}
          onInput={(event) => typed(event.currentTarget.value, false)}
          onKeyDown={(event) => {
            if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
            event.preventDefault();
            go(event.key === 'ArrowUp' ? 1 : -1);
          }}
        />
        <button
          type="button"
          class="stepper"
          aria-label={t.editor.more}
          disabled={next(1) === null}
          onClick={() => go(1)}
        >
          +
        </button>
      </div>
      {error !== null && (
        <p class="entry-error" id={`${field.id}-error`} role="alert">
          {error} {t.editor.keeps(field.value === null ? t.chip.varies : pipeName(value))}
        </p>
      )}
      <label class="family">
        <span>{t.fields.family}</span>
        <select
          value={family}
          onChange={(event) => {
            const wanted = event.currentTarget.value;
            const near = PIPES.filter((p) => p.family === wanted).sort(
              (a, b) =>
                Math.abs(a.outer_m - (current?.outer_m ?? 0.03)) -
                Math.abs(b.outer_m - (current?.outer_m ?? 0.03)),
            )[0];
            if (near !== undefined) put(near.id);
          }}
        >
          {familiesOf().map((f) => (
            <option key={f.id} value={f.id}>
              {f.label}
            </option>
          ))}
        </select>
      </label>
      <EffectRow
        low={next(-1) === null ? null : shortName(next(-1)!.id)}
        high={next(1) === null ? null : shortName(next(1)!.id)}
        effect={effect}
        go={go}
      />
    </form>
  );
}

/** Text of a field for lists. */
export const textOf = (field: Field) => fieldText(field, units.value);

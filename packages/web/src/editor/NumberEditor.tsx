import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, narrow, units } from '../app/state';
import type { NumberField } from '../parts/field';
import { say } from '../shape/quantity';
import { read } from '../shape/readQuantity';
import { t } from '../text/catalogue';
import { editorText } from '../text/editor';
import { EffectRow, useEffects } from './Effects';

/** A quantity: typed, stepped, or taken one step on with what that does. */
export function NumberEditor({ field, done }: { field: NumberField; done: () => void }) {
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
    if (!within(answer.value)) return setError(editorText.outside(shown(field.min), shown(field.max)));
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
          aria-label={editorText.less}
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
          aria-label={editorText.more}
          disabled={next(1) === null}
          onClick={() => go(1)}
        >
          +
        </button>
      </div>
      {error !== null && (
        <p class="entry-error" id={errorId} role="alert">
          {error} {editorText.keeps(field.value === null ? t.chip.varies : shown(value))}
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

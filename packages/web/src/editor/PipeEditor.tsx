import { readNominal } from '@sunlap/project/units/nominal';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, narrow } from '../app/state';
import type { PipeField } from '../parts/field';
import { familiesOf, PIPES, pipeName, pipeOf } from '../shape/pipes';
import { t } from '../text/catalogue';
import { editorText } from '../text/editor';
import { EffectRow, useEffects } from './Effects';

/** A pipe by its nominal size, within its family or another. */
export function PipeEditor({ field, done }: { field: PipeField; done: () => void }) {
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
    if (found === undefined) return setError(editorText.unknownPipe(raw, familyLabel));
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
          aria-label={editorText.less}
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
          aria-label={editorText.more}
          disabled={next(1) === null}
          onClick={() => go(1)}
        >
          +
        </button>
      </div>
      {error !== null && (
        <p class="entry-error" id={`${field.id}-error`} role="alert">
          {error} {editorText.keeps(field.value === null ? t.chip.varies : pipeName(value))}
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

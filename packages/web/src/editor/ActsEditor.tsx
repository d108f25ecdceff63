import { Fragment } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, narrow } from '../app/state';
import type { ChoiceField } from '../parts/field';

/** Things to do, one press each. */
export function ActsEditor({ field, done }: { field: ChoiceField; done: () => void }) {
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

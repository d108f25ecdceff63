import { useLayoutEffect, useRef } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc } from '../app/state';
import type { ChoiceField } from '../parts/field';

/** One of several. */
export function ChoiceEditor({ field, done }: { field: ChoiceField; done: () => void }) {
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

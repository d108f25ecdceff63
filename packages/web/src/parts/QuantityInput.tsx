import type { QuantityKind } from '@sunlap/project/units/kinds';
import { useId, useState } from 'preact/hooks';
import { units } from '../app/state';
import { say } from '../shape/quantity';
import { read } from '../shape/readQuantity';
import { editorText } from '../text/editor';

interface Props {
  label: string;
  kind: QuantityKind;
  value: number | null;
  min: number;
  max: number;
  hint?: string;
  placeholder?: string;
  /** Called with each readable value as it is typed. */
  onValue: (value: number) => void;
  /** Called when the field is emptied, where that means something. */
  onEmpty?: () => void;
  /** When the field is left or Enter is pressed. */
  onDone?: () => void;
}

/** A quantity typed as people write it. What cannot be read stays, with the reason; the last good value is in force. */
export function QuantityInput({
  label,
  kind,
  value,
  min,
  max,
  hint,
  placeholder,
  onValue,
  onEmpty,
  onDone,
}: Props) {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const system = units.value;
  const shown = value === null ? '' : say(value, kind, system);
  return (
    <div class="row quantity">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={text ?? shown}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        inputMode="text"
        aria-invalid={error !== null}
        aria-describedby={error !== null ? `${id}-error` : hint === undefined ? undefined : `${id}-hint`}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => {
          const raw = event.currentTarget.value;
          setText(raw);
          if (raw.trim() === '' && onEmpty !== undefined) {
            setError(null);
            return onEmpty();
          }
          const answer = read(raw, kind, system);
          if (!answer.ok) return setError(`${answer.message} ${shown === '' ? '' : editorText.keeps(shown)}`);
          if (!(answer.value >= min && answer.value <= max))
            return setError(editorText.outside(say(min, kind, system), say(max, kind, system)));
          setError(null);
          onValue(answer.value);
        }}
        onBlur={() => {
          if (error === null) setText(null);
          onDone?.();
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
        }}
      />
      {error !== null ? (
        <p class="entry-error" id={`${id}-error`} role="alert">
          {error}
        </p>
      ) : (
        hint !== undefined && (
          <p class="hint" id={`${id}-hint`}>
            {hint}
          </p>
        )
      )}
    </div>
  );
}

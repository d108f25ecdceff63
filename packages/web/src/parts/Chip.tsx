import { editing, units } from '../app/state';
import { fieldText } from '../shape/fieldText';
import { t } from '../text/catalogue';
import type { Field } from './field';

interface Props {
  field: Field | undefined;
  /** Small word before the value. */
  word?: string;
  at?: { x: number; y: number };
  /** Which point of the chip stands on `at`. */
  hold?: 'middle' | 'left' | 'right' | 'top' | 'bottom';
}

const SHIFT = {
  middle: 'translate(-50%, -50%)',
  left: 'translate(0, -50%)',
  right: 'translate(-100%, -50%)',
  top: 'translate(-50%, 0)',
  bottom: 'translate(-50%, -100%)',
};

/** A control on the drawing. Numbers are square like dimension text; choices are round and carry a mark. */
export function Chip({ field, word, at, hold = 'middle' }: Props) {
  if (field === undefined) return null;
  const text = fieldText(field, units.value);
  const choice = field.type === 'choice';
  return (
    <button
      type="button"
      class={`chip ${choice ? 'chip-choice' : 'chip-number'}`}
      data-field={field.id}
      aria-haspopup="dialog"
      aria-expanded={editing.value?.id === field.id}
      aria-label={t.chip.edit(word === undefined ? text : `${word} ${text}`, field.label)}
      style={
        at === undefined
          ? {}
          : { position: 'absolute', left: `${at.x}px`, top: `${at.y}px`, transform: SHIFT[hold] }
      }
      onClick={(event) => {
        editing.value = { id: field.id, from: event.currentTarget };
      }}
    >
      {word !== undefined && <span class="chip-word">{`${word} `}</span>}
      <span class="chip-value">{text}</span>
      {choice && (
        <svg class="chip-mark" width="9" height="6" viewBox="0 0 9 6" aria-hidden="true">
          <path d="M1 1l3.5 3.5L8 1" fill="none" stroke="currentColor" stroke-width="1.6" />
        </svg>
      )}
    </button>
  );
}

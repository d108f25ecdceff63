import { useApp } from '../app/context';
import { doc } from '../app/state';
import type { Doc } from '../store/doc';

interface Props {
  id: string;
  label: string;
  value: number;
  min: number;
  max: number;
  step: number;
  text: string;
  low: string;
  high: string;
  /** Name of the step in undo. */
  stepName: (value: number) => string;
  set: (doc: Doc, value: number) => Doc;
}

/** A rule with a mark that is dragged: live while it moves, one step when it is let go. */
export function Slider({ id, label, value, min, max, step, text, low, high, stepName, set }: Props) {
  const { store } = useApp();
  const move = (v: number) => store.apply(stepName(v), { doc: set(doc.value, v), undo: 'drag' });
  return (
    <div class="slider">
      <label for={id}>
        <span>{label}</span> <output for={id}>{text}</output>
      </label>
      <input
        id={id}
        data-field={id}
        type="range"
        min={min}
        max={max}
        step={step}
        value={value}
        aria-valuetext={text}
        onInput={(event) => move(Number(event.currentTarget.value))}
        onChange={() => store.endDrag()}
        onBlur={() => store.endDrag()}
      />
      <div class="slider-ends" aria-hidden="true">
        <span>{low}</span>
        <span>{high}</span>
      </div>
    </div>
  );
}

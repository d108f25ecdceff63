interface Props {
  label: string;
  less: string;
  more: string;
  value: number;
  min: number;
  max: number;
  write: (value: number) => string;
  set: (value: number) => void;
}

/** A whole number with a large key on either side. */
export function Stepper({ label, less, more, value, min, max, write, set }: Props) {
  return (
    <fieldset class="counter" aria-label={label}>
      <button
        type="button"
        class="stepper"
        aria-label={less}
        disabled={value <= min}
        onClick={() => set(value - 1)}
      >
        −
      </button>
      <output>{write(value)}</output>
      <button
        type="button"
        class="stepper"
        aria-label={more}
        disabled={value >= max}
        onClick={() => set(value + 1)}
      >
        +
      </button>
    </fieldset>
  );
}

import { useId, useState } from 'preact/hooks';
import { units } from '../../app/state';
import { clockText, readClock } from '../../shape/clock';
import { s } from '../../text/season';

interface Props {
  label: string;
  value: number;
  put: (hour: number) => void;
  disabled?: boolean;
}

/** An hour of the day, typed as people write it. */
export function ClockInput({ label, value, put, disabled = false }: Props) {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState(false);
  const u = units.value;
  const finish = (raw: string) => {
    const hour = readClock(raw);
    setWrong(hour === null);
    if (hour === null) return;
    setText(null);
    if (Math.abs(hour - value) > 1e-9) put(hour);
  };
  return (
    <span class="clock">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={text ?? clockText(value, u)}
        disabled={disabled}
        autocomplete="off"
        spellcheck={false}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-e` : undefined}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => setText(event.currentTarget.value)}
        onBlur={(event) => {
          if (text !== null) finish(event.currentTarget.value);
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && text !== null) finish(event.currentTarget.value);
          if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
          event.preventDefault();
          setText(null);
          setWrong(false);
          put(Math.min(24, Math.max(0, value + (event.key === 'ArrowUp' ? 0.5 : -0.5))));
        }}
      />
      {wrong && (
        <span class="entry-error" id={`${id}-e`} role="alert">
          {s.habits.notClock}
        </span>
      )}
    </span>
  );
}

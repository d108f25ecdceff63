import { y } from '../../text/yard';

interface Props {
  label: string;
  on: readonly boolean[];
  set: (on: boolean[]) => void;
}

/** Twelve months to be chosen, a letter each. */
export function MonthPicks({ label, on, set }: Props) {
  return (
    <fieldset class="month-picks" aria-label={label}>
      {on.map((yes, m) => (
        <button
          key={y.months[m]}
          type="button"
          aria-pressed={yes}
          aria-label={y.months[m]}
          onClick={() => set(on.map((was, k) => (k === m ? !was : was)))}
        >
          {y.monthLetters[m]}
        </button>
      ))}
    </fieldset>
  );
}

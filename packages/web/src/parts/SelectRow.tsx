/** A row with a word and a choice among a few. */
export function SelectRow({
  label,
  value,
  options,
  put,
}: {
  label: string;
  value: string;
  /** Value and words of each. */
  options: readonly (readonly [string, string])[];
  put: (value: string) => void;
}) {
  return (
    <label class="row">
      <span>{label}</span>
      <select value={value} onChange={(event) => put(event.currentTarget.value)}>
        {options.map(([v, words]) => (
          <option key={v} value={v}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

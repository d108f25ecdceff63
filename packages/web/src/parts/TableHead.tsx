/** Heads of a table's columns. */
export function TableHead({ of }: { of: readonly string[] }) {
  return (
    <thead>
      <tr>
        {of.map((word) => (
          <th key={word} scope="col">
            {word}
          </th>
        ))}
      </tr>
    </thead>
  );
}

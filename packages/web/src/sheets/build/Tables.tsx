import { narrow } from '../../app/state';
import { TableHead } from '../../parts/TableHead';
import { b } from '../../text/build';

interface Props {
  title: string;
  heads: readonly string[];
  rows: readonly (readonly string[])[];
}

/** More columns than this are not read beside each other on a phone. */
const MOST_COLUMNS = 4;

/** A table that is read by value; on a phone row by row, elsewhere, where it is wider than the sheet it is moved sideways by itself. */
export function Table({ title, heads, rows }: Props) {
  if (narrow.value && heads.length > MOST_COLUMNS)
    return (
      <section class="build-rows" aria-label={title}>
        {rows.map(([name, ...cells]) => (
          <div key={[name, ...cells].join('|')}>
            <p>
              <strong>{name}</strong>
            </p>
            <Facts rows={cells.map((cell, i) => [heads[i + 1], cell] as const)} />
          </div>
        ))}
      </section>
    );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is moved with the arrow keys
    <section class="build-table" tabIndex={0} aria-label={b.hold.table(title)}>
      <table>
        <TableHead of={heads} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.join('|')}>
              {row.map((cell, i) =>
                i === 0 ? (
                  <th key={heads[i]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={heads[i]}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function Facts({ rows }: { rows: readonly (readonly [string, string])[] }) {
  return (
    <dl class="build-facts">
      {rows.map(([word, value]) => (
        <div key={word}>
          <dt>{word}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

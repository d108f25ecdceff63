import { Chip } from './Chip';
import type { Field } from './field';

export interface FieldRow {
  id: string;
  name: string;
  fields: readonly { field: Field; word?: string }[];
}

/** Things that have no place on the drawing, each with its chips. */
export function FieldRows({ rows }: { rows: readonly FieldRow[] }) {
  return (
    <ol>
      {rows.map((row) => (
        <li key={row.id}>
          <span class="ring ring-empty" aria-hidden="true">
            ·
          </span>
          <span class="schedule-name">{row.name}</span>
          <span class="schedule-chips">
            {row.fields.map(({ field, word }) => (
              <Chip key={field.id} field={field} {...(word === undefined ? {} : { word })} />
            ))}
          </span>
        </li>
      ))}
    </ol>
  );
}

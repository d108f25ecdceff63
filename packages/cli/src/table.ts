/** A cell: text, set to the left, or to the right where it is a value. */
export interface Column {
  title: string;
  right?: boolean;
}

/** Characters as a terminal counts them. */
const width = (text: string): number => Array.from(text).length;

/** An aligned table: a head, a rule, rows. Two spaces between the columns. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const widths = columns.map((column, i) =>
    Math.max(width(column.title), ...rows.map((row) => width(row[i] ?? ''))),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => {
        const gap = ' '.repeat(Math.max(0, widths[i] - width(cell)));
        return columns[i].right ? gap + cell : cell + gap;
      })
      .join('  ')
      .trimEnd();
  return [
    line(columns.map((column) => column.title)),
    widths.map((n) => '─'.repeat(n)).join('  '),
    ...rows.map((row) => line(columns.map((_, i) => row[i] ?? ''))),
    '',
  ].join('\n');
}

/** Names to the left, values to the right: a short list of answers. */
export function answers(rows: readonly (readonly [name: string, value: string, note?: string])[]): string {
  const names = Math.max(0, ...rows.map(([name]) => width(name)));
  const values = Math.max(0, ...rows.map(([, value]) => width(value)));
  return rows
    .map(([name, value, note]) =>
      `${name}${' '.repeat(names - width(name))}  ${' '.repeat(values - width(value))}${value}${note ? `  ${note}` : ''}`.trimEnd(),
    )
    .concat('')
    .join('\n');
}

/** Breaks text at spaces so that no line passes `columns`; later lines are set in by `indent`. */
export function wrap(text: string, columns: number, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && width(line) + 1 + width(word) > columns) {
      lines.push(line);
      line = indent + word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(line);
  return lines.join('\n');
}

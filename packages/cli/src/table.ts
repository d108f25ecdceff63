/** A cell: text, set to the left, or to the right where it is a value. */
export interface Column {
  title: string;
  right?: boolean;
  /** Long cells go on in further lines where the table would be too wide. */
  wrap?: boolean;
}

/** A column that is broken is no narrower than this. */
const NARROWEST = 12;

/** Characters as a terminal counts them. */
const width = (text: string): number => Array.from(text).length;

/**
 * An aligned table: a head, a rule, rows. Two spaces between the columns.
 *
 * @param most characters that it may be wide, as far as its columns can be broken; without limit when left out
 */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  most = Number.POSITIVE_INFINITY,
): string {
  const widths = fitted(columns, rows, most);
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
    ...rows.flatMap((row) => brokenRow(row, columns, widths).map(line)),
    '',
  ].join('\n');
}

/** Widths of the columns: as wide as their cells, the widest of those that can be broken made narrower to fit. */
function fitted(columns: readonly Column[], rows: readonly (readonly string[])[], most: number): number[] {
  const widths = columns.map((column, i) =>
    Math.max(width(column.title), ...rows.map((row) => width(row[i] ?? ''))),
  );
  const total = (): number => widths.reduce((sum, n) => sum + n, 0) + 2 * (widths.length - 1);
  while (total() > most) {
    let widest = -1;
    columns.forEach((column, i) => {
      if (column.wrap && widths[i] > NARROWEST && !(widths[widest] >= widths[i])) widest = i;
    });
    if (widest < 0) break;
    widths[widest]--;
  }
  return widths;
}

/** The lines of one row. */
function brokenRow(
  row: readonly string[],
  columns: readonly Column[],
  widths: readonly number[],
): string[][] {
  const cells = columns.map((column, i) => {
    const text = row[i] ?? '';
    return column.wrap && width(text) > widths[i] ? wrap(text, widths[i], '  ').split('\n') : [text];
  });
  const lines = Math.max(1, ...cells.map((cell) => cell.length));
  return Array.from({ length: lines }, (_, k) => cells.map((cell) => cell[k] ?? ''));
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

/**
 * A small plot of lines in characters: a column a value, a row a step of the scale; the later line in front.
 *
 * @param lines values of equal length and the sign each is drawn with
 * @param label writes a value of the scale
 * @param ticks values of the scale that are written beside it, its ends among them; else its ends and middle
 */
export function textPlot(
  lines: readonly { readonly values: readonly number[]; readonly sign: string }[],
  rows: number,
  label: (value: number) => string,
  ticks?: readonly number[],
): string {
  const all = lines.flatMap((line) => line.values.filter(Number.isFinite));
  if (all.length === 0) return '';
  const low = Math.min(...all, ...(ticks ?? []));
  const high = Math.max(...all, ...(ticks ?? []), low + 1e-9);
  const width = Math.max(...lines.map((line) => line.values.length));
  const grid = Array.from({ length: rows }, () => new Array<string>(width).fill(' '));
  for (const { values, sign } of lines)
    values.forEach((value, i) => {
      if (!Number.isFinite(value)) return;
      const row = Math.round(((high - value) / (high - low)) * (rows - 1));
      grid[row][i] = sign;
    });
  const at = ticks ?? [0, 0.5, 1].map((share) => high - (high - low) * share);
  const labels = grid.map(() => '');
  for (const value of at) {
    const row = ((high - value) / (high - low)) * (rows - 1);
    // a mark between two rows would be written at a wrong one
    if (ticks || Number.isInteger(row)) labels[Math.round(row)] = label(value);
  }
  const gutter = Math.max(...labels.map((l) => l.length));
  return grid
    .map((row, r) => `${labels[r].padStart(gutter)} │${row.join('').trimEnd()}`)
    .concat(`${' '.repeat(gutter)} └${'─'.repeat(width)}`, '')
    .join('\n');
}

/** Means of a list over equal stretches, so that it fits a width. */
export function shrink(values: readonly number[], width: number): number[] {
  if (values.length <= width) return [...values];
  return Array.from({ length: width }, (_, k) => {
    const from = Math.floor((k * values.length) / width);
    const to = Math.max(from + 1, Math.floor(((k + 1) * values.length) / width));
    const part = values.slice(from, to);
    return part.reduce((a, b) => a + b, 0) / part.length;
  });
}

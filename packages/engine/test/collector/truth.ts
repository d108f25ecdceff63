import truth from '../truth/collector.json';

/** One row of the truth file by name; the test that reads it knows its shape. */
// biome-ignore lint/suspicious/noExplicitAny: rows differ in shape
export function row(name: string): any {
  const found = truth.rows.find((r) => r.name === name);
  if (!found) throw new Error(`no truth row ${name}`);
  return found;
}

/** A pure step from one version of the file to the next. */
export type Migration = (file: Record<string, unknown>) => Record<string, unknown>;

/**
 * Steps by the version that they start from. There is one version so far, so there is nothing to step over;
 * a change of shape adds the step here and a frozen old file beside its test.
 */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

/**
 * Takes a parsed file to the wanted version.
 *
 * @returns the file at that version; the input is not changed
 * @throws {RangeError} when a step is missing
 */
export function migrate(
  file: Record<string, unknown>,
  from: number,
  to: number,
  steps: Readonly<Record<number, Migration>> = MIGRATIONS,
): Record<string, unknown> {
  let current = file;
  for (let version = from; version < to; version++) {
    const step = steps[version];
    if (step === undefined) throw new RangeError(`no migration from version ${version}`);
    current = { ...step(current), schemaVersion: version + 1 };
  }
  return current;
}

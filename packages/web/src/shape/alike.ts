/** The one value that all share, or null where they differ. */
export function alike<T>(values: readonly T[]): T | null {
  const [first] = values;
  return values.length > 0 && values.every((v) => v === first) ? first : null;
}

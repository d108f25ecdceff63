/** Metric sizes by outside diameter; those with `id` by bore. */
const INCH_OF_METRIC: Readonly<Record<string, string>> = {
  '13id': '1/2',
  '19id': '3/4',
  '25id': '1',
  '16': '3/8',
  '20': '1/2',
  '25': '3/4',
  '32': '1',
  '40': '1-1/4',
  '50': '1-1/2',
  '63': '2',
  '75': '2-1/2',
  '90': '3',
  '110': '4',
};

/** The inch size that serves as a metric one: `50` → `1-1/2`. An inch size stays; an unknown one gives undefined. */
export function inchSizeOf(nominal: string): string | undefined {
  if (Object.hasOwn(INCH_OF_METRIC, nominal)) return INCH_OF_METRIC[nominal];
  return inchesOf(nominal) <= 12 ? nominal : undefined;
}

/** The metric size by outside diameter that serves as an inch one: `1-1/2` → `50`. */
export function metricSizeOf(inch: string): string | undefined {
  return Object.keys(INCH_OF_METRIC).find((size) => /^\d+$/.test(size) && INCH_OF_METRIC[size] === inch);
}

/** A nominal inch size as a number to compare sizes by: `1-1/2` → 1.5; NaN when it is none. */
export function inchesOf(nominal: string): number {
  const parts = /^(?:(\d+)-)?(\d+)(?:\/(\d+))?$/.exec(nominal);
  if (!parts) return Number.NaN;
  return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3] ?? 1);
}

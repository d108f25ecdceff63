/** Common year 2001, on which typical years are laid; its first of January is a Monday. */
export const NOMINAL_YEAR = 2001;
export const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
export const YEAR_DAYS = 365;
export const YEAR_HOURS = YEAR_DAYS * 24;

/** Month of each day of the nominal year. */
export const MONTH_OF_DAY: readonly number[] = MONTH_DAYS.flatMap((days, month) =>
  new Array<number>(days).fill(month),
);

/**
 * Daily values between twelve nodes at mid-month, along straight lines round the year.
 */
export function daily(nodes: readonly number[]): Float64Array {
  const middle: number[] = [];
  let start = 0;
  for (const days of MONTH_DAYS) {
    middle.push(start + days / 2);
    start += days;
  }
  return Float64Array.from({ length: YEAR_DAYS }, (_, day) => {
    const t = day + 0.5;
    let k = 11;
    for (let m = 0; m < 12; m++) if (t >= middle[m]) k = m;
    if (t < middle[0]) k = 11;
    const from = middle[k] - (t < middle[0] ? YEAR_DAYS : 0);
    const to = k === 11 ? middle[0] + (t < middle[0] ? 0 : YEAR_DAYS) : middle[k + 1];
    const share = (t - from) / (to - from);
    return nodes[k] * (1 - share) + nodes[(k + 1) % 12] * share;
  });
}

/** Mean of each month of daily values. */
export function monthMeans(values: ArrayLike<number>): number[] {
  const sums = new Array<number>(12).fill(0);
  for (let day = 0; day < YEAR_DAYS; day++) sums[MONTH_OF_DAY[day]] += values[day];
  return sums.map((sum, month) => sum / MONTH_DAYS[month]);
}

/** Nodes whose straight lines have the given monthly means: no step where months meet, no mean lost. */
export function nodesFor(means: readonly number[]): number[] {
  const nodes = [...means];
  for (let round = 0; round < 60; round++) {
    const got = monthMeans(daily(nodes));
    for (let m = 0; m < 12; m++) nodes[m] += means[m] - got[m];
  }
  return nodes;
}

/** Mean of daily values by month. */
export function meanByMonth(values: Float64Array): number[] {
  const sums = new Array<number>(12).fill(0);
  values.forEach((v, d) => {
    sums[MONTH_OF_DAY[d]] += v / MONTH_DAYS[MONTH_OF_DAY[d]];
  });
  return sums;
}

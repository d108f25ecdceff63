import { MONTH_NAMES } from './month-names';
import type { SeasonChange, SeasonFirst, SeasonValues } from './values';

/** A month with fewer days at the wish is not reached [d]; judgement. */
const FEW_DAYS = 5;

/**
 * Before any panel: what nothing, a cover, a felled tree bring; and months that nothing of these reaches. Where a cover
 * is in use, nothing and the panel alone are those of the year that was run without it.
 */
export function firstAnswer(
  values: SeasonValues,
  changes: readonly SeasonChange[],
  swimMonths: readonly boolean[],
): SeasonFirst {
  const months = values.months.filter((m) => swimMonths[m.month - 1] && m.days > 0).map((m) => m.month);
  const own = values.months.map((m) => m.swimDays);
  const cover = changes.find((c) => c.kind === 'cover') ?? null;
  const felled = changes.filter((c) => c.kind === 'felled').sort(byDays)[0] ?? null;
  const nothing = cover?.present ? cover.swimDaysBefore.without : own.map((d) => d.without);
  const collector = cover?.present ? cover.swimDaysBefore.with : own.map((d) => d.with);
  const best = own.map((d, m) => Math.max(d.with, cover?.swimDays.with[m] ?? 0));
  const unreachable = months.filter((m) => best[m - 1] < FEW_DAYS);
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  const lines = [
    `Left alone the water reaches the wish on ${days(sum(nothing))} of the year`,
    ...(cover ? [`with ${cover.present ? 'the' : 'a'} cover on ${sum(cover.swimDays.without)}`] : []),
    ...(felled && felled.swimDaysAdded.without > 0
      ? [
          `${cover?.present ? 'with the cover and ' : ''}without ${felled.name.replace(/^Without /, '')} on ${sum(felled.swimDays.without)}`,
        ]
      : []),
    `with the panel on ${sum(collector)}`,
    ...(cover ? [`with both on ${sum(cover.swimDays.with)}`] : []),
  ];
  const never =
    unreachable.length === 0
      ? ''
      : unreachable.length === months.length
        ? ' In no month does it become usual.'
        : ` Not in ${runs(unreachable)}, whatever of these is done.`;
  return {
    months,
    nothing,
    cover: cover?.swimDays.without ?? null,
    felled: felled ? { id: felled.id, name: felled.name, swimDays: felled.swimDays.without } : null,
    collector,
    collectorAndCover: cover?.swimDays.with ?? null,
    unreachable,
    saying: `${lines.join(', ')}.${never}`,
  };
}

function byDays(a: SeasonChange, b: SeasonChange): number {
  return b.swimDaysAdded.without - a.swimDaysAdded.without;
}

function days(n: number): string {
  return n === 1 ? '1 day' : `${n} days`;
}

/** @example runs([1, 2, 3, 12]) // 'January to March and December' */
function runs(months: readonly number[]): string {
  const out: string[] = [];
  for (let i = 0; i < months.length; i++) {
    const start = i;
    while (i + 1 < months.length && months[i + 1] === months[i] + 1) i++;
    const [a, b] = [MONTH_NAMES[months[start] - 1], MONTH_NAMES[months[i] - 1]];
    out.push(a === b ? a : `${a} to ${b}`);
  }
  return out.length > 1 ? `${out.slice(0, -1).join(', ')} and ${out[out.length - 1]}` : out[0];
}

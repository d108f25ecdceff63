import type { Item, Point, Sheet } from '@sunlap/drawing/display';
import { formatQuantity } from '@sunlap/project/units/format';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { SeasonValues } from './values';

const WIDTH = 960;
const HEIGHT = 420;
const LEFT = 56;
const RIGHT = 16;
const TOP = 34;
const BOTTOM = 40;
const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * The year of the water: daily bands with the collector (filled) and without it (line), the wish across.
 *
 * @param from first day shown, ISO date; the whole series when left out
 */
export function seasonChart(values: SeasonValues, system: UnitSystem, from?: string, to?: string): Sheet {
  const shownDays = inOrder(values.days.date, from, to);
  // one day has a width, too
  const keep = shownDays.length === 1 ? [shownDays[0], shownDays[0]] : shownDays;
  const items: Item[] = [];
  const shown = keep.flatMap((d) => [
    values.days.with.low[d],
    values.days.with.high[d],
    values.days.without.low[d],
    values.days.without.high[d],
  ]);
  const ticks = temperatureTicks(
    Math.min(values.wish_C, ...shown) - 1,
    Math.max(values.wish_C, ...shown) + 1,
    system,
  );
  const [low, high] = [ticks[0], ticks[ticks.length - 1]];
  const x = (k: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * k) / Math.max(1, keep.length - 1);
  const y = (t: number): number => HEIGHT - BOTTOM - ((HEIGHT - TOP - BOTTOM) * (t - low)) / (high - low);
  const words = (t: number): string => formatQuantity(t, 'temperature', system).text;
  for (const t of ticks) {
    items.push({
      kind: 'line',
      layer: 'grid',
      from: [LEFT, y(t)],
      to: [WIDTH - RIGHT, y(t)],
      ink: 'hair',
      width: 0.7,
    });
    items.push({
      kind: 'text',
      layer: 'text',
      at: [LEFT - 8, y(t) + 4],
      text: words(t),
      size: 11,
      ink: 'soft',
      anchor: 'end',
    });
  }
  for (const { k, text } of dayMarks(shownDays.map((d) => values.days.date[d]))) {
    items.push({
      kind: 'line',
      layer: 'grid',
      from: [x(k), TOP],
      to: [x(k), HEIGHT - BOTTOM],
      ink: 'grid',
      width: 0.7,
    });
    items.push({
      kind: 'text',
      layer: 'text',
      at: [x(k) + 4, HEIGHT - BOTTOM + 16],
      text,
      size: 11,
      ink: 'soft',
    });
  }
  const along = (list: readonly number[]): Point[] => keep.map((d, k) => [x(k), y(list[d])] as const);
  if (keep.length > 1) {
    items.push({
      kind: 'polyline',
      layer: 'water',
      points: [...along(values.days.with.high), ...along(values.days.with.low).reverse()],
      closed: true,
      ink: 'hair',
      width: 0.3,
      fillHeat: 1,
      fillOpacity: 0.45,
    });
    items.push({
      kind: 'polyline',
      layer: 'built',
      points: along(values.days.with.mean),
      ink: 'ink',
      width: 1.4,
    });
    items.push({
      kind: 'polyline',
      layer: 'ghost',
      points: along(values.days.without.mean),
      ink: 'soft',
      width: 1.2,
      dash: [5, 3],
    });
  }
  items.push({
    kind: 'line',
    layer: 'dimension',
    from: [LEFT, y(values.wish_C)],
    to: [WIDTH - RIGHT, y(values.wish_C)],
    ink: 'flag',
    width: 1,
    dash: [2, 3],
  });
  const note = (text: string, at: Point, anchor: 'start' | 'end'): void => {
    items.push({ kind: 'text', layer: 'text', at, text, size: 12, ink: 'ink', anchor, halo: 'sheet' });
  };
  note(`wish ${words(values.wish_C)}`, [WIDTH - RIGHT, y(values.wish_C) - 5], 'end');
  note('with the collector: daily band and mean · without: dashed', [LEFT, TOP - 14], 'start');
  return { width: WIDTH, height: HEIGHT, items, anchors: [] };
}

/** Is a day of a typical year within two dates, whatever their years? Over New Year when they are turned round. */
export function inSpan(date: string, from?: string, to?: string): boolean {
  const day = date.slice(5);
  const a = from?.slice(-5) ?? '01-01';
  const b = to?.slice(-5) ?? '12-31';
  return a <= b ? day >= a && day <= b : day >= a || day <= b;
}

/**
 * Days of a typical year within two dates, in order from the first: over New Year where they are turned round.
 *
 * @returns places in `dates`
 * @example inOrder(['2001-01-01', …], '11-01', '02-28') // 304, 305, … 364, 0, 1, … 58
 */
export function inOrder(dates: readonly string[], from?: string, to?: string): number[] {
  const kept = dates.flatMap((date, d) => (inSpan(date, from, to) ? [d] : []));
  if (from === undefined || to === undefined || from.slice(-5) <= to.slice(-5)) return kept;
  const first = kept.findIndex((d) => dates[d].slice(5) >= from.slice(-5));
  return first <= 0 ? kept : [...kept.slice(first), ...kept.slice(0, first)];
}

/**
 * Marks of a scale of temperature, at whole tens of °F or fives of °C, from at or under the least to at or over the
 * most.
 *
 * @returns [°C]
 * @example temperatureTicks(14, 27, 'metric') // 10, 15, 20, 25, 30
 */
export function temperatureTicks(least_C: number, most_C: number, system: UnitSystem): number[] {
  const [scale, offset, step] = system === 'us' ? [1.8, 32, 10] : [1, 0, 5];
  const first = Math.floor((least_C * scale + offset) / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil((most_C * scale + offset) / step - 1e-9));
  return Array.from({ length: last - first + 1 }, (_, i) => ((first + i) * step - offset) / scale);
}

/** So few days are marked by the week; more by the first of each month. */
const FEW_DAYS = 45;

/** Where the days of a chart are marked, and with what. */
function dayMarks(dates: readonly string[]): { k: number; text: string }[] {
  const month = (date: string): string => NAMES[Number(date.slice(5, 7)) - 1];
  return dates.flatMap((date, k) =>
    dates.length <= FEW_DAYS
      ? k % 7 === 0
        ? [{ k, text: dayWords(date) }]
        : []
      : date.slice(8) === '01'
        ? [{ k, text: month(date) }]
        : [],
  );
}

/** A day of a typical year, `Jun 9`. */
export function dayWords(date: string): string {
  return `${NAMES[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(8, 10))}`;
}

/**
 * What the chart says, for ears.
 *
 * @param part the days shown, with their sums; the whole year when left out
 */
export function seasonChartWords(
  values: SeasonValues,
  system: UnitSystem,
  part?: { from: string; to: string; days: number; swimDays: SeasonValues['year']['swimDays'] } | null,
): string {
  const { swimDays } = part ?? values.year;
  const wish = formatQuantity(values.wish_C, 'temperature', system).text;
  const when = part ? `From ${dayWords(part.from)} to ${dayWords(part.to)} the` : 'The';
  return `${when} afternoon's water reaches ${wish} on ${swimDays.with} days with the collector and ${swimDays.without} without it.`;
}

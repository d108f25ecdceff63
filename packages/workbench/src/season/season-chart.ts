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
  const keep = values.days.date.flatMap((date, d) => (inSpan(date, from, to) ? [d] : []));
  const items: Item[] = [];
  const shown = keep.flatMap((d) => [
    values.days.with.low[d],
    values.days.with.high[d],
    values.days.without.low[d],
    values.days.without.high[d],
  ]);
  const low = Math.floor((Math.min(values.wish_C, ...shown) - 1) / 5) * 5;
  const high = Math.ceil((Math.max(values.wish_C, ...shown) + 1) / 5) * 5;
  const x = (k: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * k) / Math.max(1, keep.length - 1);
  const y = (t: number): number => HEIGHT - BOTTOM - ((HEIGHT - TOP - BOTTOM) * (t - low)) / (high - low);
  const words = (t: number): string => formatQuantity(t, 'temperature', system).text;
  for (let t = low; t <= high; t += 5) {
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
  keep.forEach((d, k) => {
    const date = values.days.date[d];
    if (date.slice(8) !== '01') return;
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
      text: NAMES[Number(date.slice(5, 7)) - 1],
      size: 11,
      ink: 'soft',
    });
  });
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

/** What the chart says, for ears. */
export function seasonChartWords(values: SeasonValues, system: UnitSystem): string {
  const { swimDays } = values.year;
  const wish = formatQuantity(values.wish_C, 'temperature', system).text;
  return `The afternoon's water reaches ${wish} on ${swimDays.with} days with the collector and ${swimDays.without} without it.`;
}

import { scaleLinear } from 'd3-scale';
import type { Item, Point, Sheet } from './display';
import { temperatureGrid, wishLine } from './temperatureAxis';

export interface AheadPlotInput {
  /** At the end of each hour [°C]; share of the hour with water through the collector. */
  readonly hours: readonly {
    readonly water_C: number;
    readonly low_C: number;
    readonly high_C: number;
    readonly without_C: number;
    readonly run: number;
  }[];
  readonly wish_C: number;
  /** Places of midnights among the hours, and the name of the day that begins there. */
  readonly days: readonly { readonly at: number; readonly text: string }[];
  /** Hour at which the wish is reached. */
  readonly reached: number | null;
}

export interface AheadPlotFrame {
  readonly width: number;
  readonly height: number;
  readonly temperatureText: (value_C: number) => string;
  readonly ticks_C: (low: number, high: number) => readonly number[];
  readonly words: { readonly wish: string; readonly without: string; readonly valve: string };
}

const MARGIN = { left: 48, right: 14, top: 18, bottom: 46 };

/** Water hour by hour with its band, in the colour of its warmth; the hours with the valve open along the foot. */
export function aheadPlot(input: AheadPlotInput, frame: AheadPlotFrame): Sheet {
  const { hours, wish_C } = input;
  const { width, height } = frame;
  const n = hours.length;
  const all = hours.flatMap((h) => [h.low_C, h.high_C, h.without_C]).concat(wish_C);
  const [low, high] = [Math.min(...all) - 0.5, Math.max(...all) + 0.8];
  const x = scaleLinear([0, Math.max(1, n)], [MARGIN.left, width - MARGIN.right]);
  const y = scaleLinear([low, high], [height - MARGIN.bottom, MARGIN.top]);
  const [x0, x1, y0] = [MARGIN.left, width - MARGIN.right, height - MARGIN.bottom];
  const axis = { x0, x1, y };
  const soon = input.reached !== null && x(input.reached + 1) < x0 + 110;
  const items: Item[] = temperatureGrid(axis, frame.ticks_C(low, high), frame.temperatureText);
  input.days.forEach(({ at, text }, i) => {
    const next = input.days[i + 1]?.at ?? n;
    items.push(
      { kind: 'line', layer: 'grid', from: [x(at), MARGIN.top], to: [x(at), y0 + 6], ink: 'hair', width: 1 },
      {
        kind: 'text',
        layer: 'text',
        at: [(x(at) + x(next)) / 2, height - 8],
        text,
        size: 12,
        ink: 'soft',
        anchor: 'middle',
      },
    );
  });
  const heat = scaleLinear([Math.min(low, wish_C - 10), wish_C + 3], [0, 1]).clamp(true);
  const end = (i: number): number => x(i + 1);
  for (let i = 0; i + 1 < n; i++)
    items.push({
      kind: 'polyline',
      layer: 'water',
      closed: true,
      points: [
        [end(i), y(hours[i].high_C)],
        // a little under its neighbour: no seam
        [end(i + 1) + (i + 2 < n ? 0.6 : 0), y(hours[i + 1].high_C)],
        [end(i + 1) + (i + 2 < n ? 0.6 : 0), y(hours[i + 1].low_C)],
        [end(i), y(hours[i].low_C)],
      ],
      ink: 'ink',
      width: 0,
      fillHeat: heat(hours[i].water_C),
    });
  const line = (of: (h: AheadPlotInput['hours'][number]) => number): Point[] =>
    hours.map((h, i): Point => [end(i), y(of(h))]);
  items.push(
    // each on a casing of the sheet's own colour, to be told from the band it crosses
    { kind: 'polyline', layer: 'built', points: line((h) => h.without_C), ink: 'sheet', width: 3.2 },
    { kind: 'polyline', layer: 'built', points: line((h) => h.water_C), ink: 'sheet', width: 4 },
    {
      kind: 'polyline',
      layer: 'built',
      points: line((h) => h.without_C),
      ink: 'soft',
      width: 1.3,
      dash: [1.5, 3],
    },
    { kind: 'polyline', layer: 'built', points: line((h) => h.water_C), ink: 'ink', width: 1.8 },
    // the mark of reaching it soon would stand in the word
    ...wishLine(axis, wish_C, frame.words.wish, soon ? x(input.reached! + 1) + 14 : undefined),
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x1, y0], ink: 'ink', width: 1.1 },
  );
  const wordWidth = 6.4 * frame.words.without.length;
  const clear = clearest(hours, (h, i): Crowd => {
    const [from, to, baseline] = [end(i) - wordWidth, end(i), y(h.without_C) + 16];
    const under = hours.filter((_, k) => end(k) >= from && end(k) <= to);
    return {
      outside: from < x0 || to > x1 || baseline > y0 - 3,
      // the line and the words over it
      onWish: baseline > y(wish_C) - 24 && baseline < y(wish_C) + 16,
      inBand: under.some((k) => y(k.low_C) > baseline - 12),
      onLine: under.some((k) => y(k.without_C) > baseline - 12),
    };
  });
  if (clear !== null)
    items.push({
      kind: 'text',
      layer: 'text',
      at: [end(clear), y(hours[clear].without_C) + 16],
      text: frame.words.without,
      size: 12,
      ink: 'ink',
      anchor: 'end',
      halo: 'sheet',
    });
  items.push(...valve(input, x, y0 + 15, frame.words.valve));
  if (input.reached !== null && hours[input.reached] !== undefined)
    items.push({
      kind: 'circle',
      layer: 'flag',
      centre: [end(input.reached), y(hours[input.reached].water_C)],
      radius: 6,
      ink: 'ink',
      width: 2,
      fill: 'sheet',
    });
  return { width, height, items, anchors: [] };
}

/** What a word ending at an hour would stand in. */
interface Crowd {
  readonly outside: boolean;
  readonly onWish: boolean;
  readonly inBand: boolean;
  readonly onLine: boolean;
}

/** The hour under which a word stands clearest, the latest of equals; null of no hours. */
function clearest(hours: AheadPlotInput['hours'], crowdAt: (h: (typeof hours)[number], i: number) => Crowd) {
  let best: number | null = null;
  let least = Infinity;
  hours.forEach((h, i) => {
    const c = crowdAt(h, i);
    const crowd = (c.outside ? 8 : 0) + (c.onWish ? 4 : 0) + (c.onLine ? 2 : 0) + (c.inBand ? 1 : 0);
    if (crowd <= least) [best, least] = [i, crowd];
  });
  return best;
}

/** Bars along the foot while the valve is open; the word stands in the first gap that is wide enough for it. */
function valve(input: AheadPlotInput, x: (i: number) => number, at: number, word: string): Item[] {
  const runs: [number, number][] = [];
  for (let i = 0; i < input.hours.length; i++) {
    if (!(input.hours[i].run > 0)) continue;
    const from = i;
    while (i < input.hours.length && input.hours[i].run > 0) i++;
    runs.push([from, i]);
  }
  const items = runs.map(
    ([from, to]): Item => ({
      kind: 'line',
      layer: 'built',
      from: [x(from), at],
      to: [x(to), at],
      ink: 'ink',
      width: 7,
    }),
  );
  const width = 6 * word.length + 12;
  const gap = runs.find(([, to], i) => x(runs[i + 1]?.[0] ?? input.hours.length) - x(to) >= width);
  if (gap !== undefined)
    items.push({
      kind: 'text',
      layer: 'text',
      at: [x(gap[1]) + 6, at + 4],
      text: word,
      size: 11,
      ink: 'soft',
    });
  return items;
}

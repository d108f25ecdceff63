import { scaleLinear } from 'd3-scale';
import type { Item, Point, Sheet } from './display';
import { temperatureGrid, wishLine } from './temperatureAxis';

/** Daily lowest, mean and highest of the water [°C]. */
export interface DayBand {
  readonly low: readonly number[];
  readonly mean: readonly number[];
  readonly high: readonly number[];
}

export interface SeasonBandsInput {
  readonly with: DayBand;
  readonly without: DayBand;
  readonly ghost?: DayBand;
  readonly wish_C: number;
  /** First day of each month within the series, and its letter. */
  readonly months: readonly { readonly at: number; readonly text: string }[];
}

export interface SeasonBandsFrame {
  readonly width: number;
  readonly height: number;
  readonly temperatureText: (value_C: number) => string;
  /** Temperatures of the axis [°C]. */
  readonly ticks_C: (low: number, high: number) => readonly number[];
  readonly words: { readonly with: string; readonly without: string; readonly wish: string };
}

const MARGIN = { left: 48, right: 14, top: 16, bottom: 22 };
/** Days drawn as one piece of the band. */
const PIECE = 4;

/**
 * Water through the year as daily bands: with the collector in the colour of its temperature, without it as an
 * open band with a dotted line, the wish as a dashed line.
 */
export function seasonBands(input: SeasonBandsInput, frame: SeasonBandsFrame): Sheet {
  const { width, height } = frame;
  const n = input.with.mean.length;
  const all = [...input.with.low, ...input.without.low, ...input.with.high, input.wish_C].filter(
    Number.isFinite,
  );
  const [low, high] = [Math.min(...all) - 1, Math.max(...all) + 1.5];
  const x = scaleLinear([0, Math.max(1, n - 1)], [MARGIN.left, width - MARGIN.right]);
  const y = scaleLinear([low, high], [height - MARGIN.bottom, MARGIN.top]);
  const [x0, x1] = [MARGIN.left, width - MARGIN.right];
  const [y0, y1] = [height - MARGIN.bottom, MARGIN.top];
  const axis = { x0, x1, y };
  const items: Item[] = temperatureGrid(axis, frame.ticks_C(low, high), frame.temperatureText);
  input.months.forEach(({ at, text }, m) => {
    const next = input.months[m + 1]?.at ?? n;
    items.push(
      { kind: 'line', layer: 'grid', from: [x(at), y0], to: [x(at), y0 + 5], ink: 'soft', width: 0.9 },
      {
        kind: 'text',
        layer: 'text',
        at: [(x(at) + x(Math.min(n - 1, next))) / 2, y0 + 16],
        text,
        size: 11.5,
        ink: 'soft',
        anchor: 'middle',
      },
    );
  });
  const outline = (band: DayBand, from: number, to: number): Point[] => {
    const up: Point[] = [];
    const down: Point[] = [];
    for (let d = from; d <= to; d++) {
      up.push([x(d), y(band.high[d])]);
      down.unshift([x(d), y(band.low[d])]);
    }
    return [...up, ...down];
  };
  const mean = (band: DayBand): Point[] => band.mean.map((t, d): Point => [x(d), y(t)]);
  if (n > 1) {
    items.push({
      kind: 'polyline',
      layer: 'ghost',
      closed: true,
      points: outline(input.without, 0, n - 1),
      ink: 'soft',
      width: 0.8,
      fill: 'hair',
      fillOpacity: 0.35,
    });
    const heat = scaleLinear([Math.min(low + 1, input.wish_C - 16), input.wish_C + 4], [0, 1]).clamp(true);
    for (let d = 0; d < n - 1; d += PIECE) {
      const to = Math.min(n - 1, d + PIECE);
      items.push({
        kind: 'polyline',
        layer: 'water',
        closed: true,
        points: outline(input.with, d, to),
        ink: 'ink',
        width: 0,
        fillHeat: heat(input.with.mean[Math.floor((d + to) / 2)]),
      });
    }
    items.push(
      {
        kind: 'polyline',
        layer: 'built',
        points: mean(input.without),
        ink: 'soft',
        width: 1.2,
        dash: [1.5, 3],
      },
      { kind: 'polyline', layer: 'built', points: mean(input.with), ink: 'ink', width: 1.3 },
    );
    if (input.ghost !== undefined && input.ghost.mean.length === n)
      items.push({
        kind: 'polyline',
        layer: 'built',
        points: mean(input.ghost),
        ink: 'ink',
        width: 1.1,
        dash: [6, 4],
      });
    items.push(...labels(input, frame, x, y));
  }
  items.push(
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x1, y0], ink: 'ink', width: 1.1 },
    { kind: 'line', layer: 'dimension', from: [x0, y0], to: [x0, y1 - 6], ink: 'ink', width: 1.1 },
    ...wishLine(axis, input.wish_C, frame.words.wish),
  );
  return { width, height, items, anchors: [{ id: 'wish', x: x0 + 40, y: y(input.wish_C) }] };
}

/** Names of the two bands where they lie farthest apart. */
function labels(
  input: SeasonBandsInput,
  frame: SeasonBandsFrame,
  x: (d: number) => number,
  y: (t: number) => number,
): Item[] {
  let best = Math.floor(input.with.mean.length / 2);
  let most = -1;
  const n = input.with.mean.length;
  for (let d = Math.floor(n * 0.12); d < n * 0.88; d++) {
    const apart = input.with.low[d] - input.without.high[d];
    if (apart > most) [best, most] = [d, apart];
  }
  const text = (at: Point, words: string): Item => ({
    kind: 'text',
    layer: 'text',
    at,
    text: words,
    size: 12,
    weight: 550,
    ink: 'ink',
    anchor: 'middle',
    halo: 'sheet',
  });
  return [
    text([x(best), y(input.with.high[best]) - 8], frame.words.with),
    text([x(best), y(input.without.low[best]) + 16], frame.words.without),
  ];
}

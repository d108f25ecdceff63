import { scaleLinear } from 'd3-scale';
import type { Item, Sheet } from './display';

/** One month of a climate: mean high and low [°C], sun on the level [kWh/m² a day], the shelf's where it differs. */
export interface ClimateBar {
  readonly high_C: number;
  readonly low_C: number;
  readonly sun: number;
  readonly ghost: { readonly high_C: number; readonly low_C: number } | null;
}

export interface ClimateBarsFrame {
  readonly width: number;
  readonly height: number;
  readonly months: readonly string[];
  readonly temperatureText: (value_C: number) => string;
  /** Word at the foot of the sun's bars, with the largest of them. */
  readonly sunText: (largest: string) => string;
}

const MARGIN = { left: 6, right: 6, top: 16, bottom: 18 };
const SUN_PX = 26;

/** Twelve upright bars from low to high with their figures on them, and the sun of each month under them. */
export function climateBars(bars: readonly ClimateBar[], frame: ClimateBarsFrame): Sheet {
  const { width, height } = frame;
  const all = bars.flatMap((b) => [b.high_C, b.low_C, ...(b.ghost ? [b.ghost.high_C, b.ghost.low_C] : [])]);
  const foot = height - MARGIN.bottom - SUN_PX - 20;
  const y = scaleLinear([Math.min(...all), Math.max(...all) + 1e-6], [foot, MARGIN.top]);
  const most = Math.max(1e-9, ...bars.map((b) => b.sun));
  const slot = (width - MARGIN.left - MARGIN.right) / 12;
  const items: Item[] = [];
  const text = (x: number, at: number, words: string, soft = false): Item => ({
    kind: 'text',
    layer: 'text',
    at: [x, at],
    text: words,
    size: 11,
    ink: soft ? 'soft' : 'ink',
    anchor: 'middle',
    halo: 'sheet',
  });
  bars.forEach((bar, m) => {
    const x = MARGIN.left + (m + 0.5) * slot;
    const half = Math.min(6, slot * 0.24);
    const box = (low: number, high: number): [number, number][] => [
      [x - half, y(low)],
      [x + half, y(low)],
      [x + half, y(high)],
      [x - half, y(high)],
    ];
    if (bar.ghost)
      items.push({
        kind: 'polyline',
        layer: 'ghost',
        closed: true,
        points: box(bar.ghost.low_C, bar.ghost.high_C).map(([px, py]) => [px + (px < x ? -3 : 3), py]),
        ink: 'soft',
        width: 1,
        dash: [3, 3],
      });
    items.push(
      {
        kind: 'polyline',
        layer: 'built',
        closed: true,
        points: box(bar.low_C, bar.high_C),
        ink: 'ink',
        width: 1.3,
        fill: 'ink',
        fillOpacity: 0.12,
      },
      text(x, y(bar.high_C) - 5, frame.temperatureText(bar.high_C)),
      text(x, y(bar.low_C) + 13, frame.temperatureText(bar.low_C), true),
      {
        kind: 'line',
        layer: 'water',
        from: [x, height - MARGIN.bottom],
        to: [x, height - MARGIN.bottom - (SUN_PX - 6) * (bar.sun / most)],
        ink: 'ink',
        width: Math.max(2, half),
        cap: 'butt',
      },
      text(x, height - 5, frame.months[m], true),
    );
  });
  items.push(
    {
      kind: 'line',
      layer: 'dimension',
      from: [MARGIN.left, height - MARGIN.bottom],
      to: [width - MARGIN.right, height - MARGIN.bottom],
      ink: 'hair',
      width: 1,
    },
    {
      kind: 'text',
      layer: 'text',
      at: [MARGIN.left, height - MARGIN.bottom - SUN_PX + 2],
      text: frame.sunText(most.toFixed(1)),
      size: 10.5,
      ink: 'soft',
      anchor: 'start',
      halo: 'sheet',
    },
  );
  return { width, height, items, anchors: [] };
}

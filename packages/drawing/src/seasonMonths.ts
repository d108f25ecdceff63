import { scaleLinear } from 'd3-scale';
import type { Item, Point, Sheet } from './display';

/** One cause of heat in the pool, with what it brings in each month, losses negative. */
export interface MonthPart {
  readonly id: string;
  readonly name: string;
  readonly values: readonly number[];
}

export interface SeasonMonthsFrame {
  readonly width: number;
  readonly height: number;
  readonly months: readonly string[];
  readonly valueText: (value: number) => string;
  readonly ticks: (low: number, high: number) => readonly number[];
}

const MARGIN = { left: 48, right: 8, top: 8, bottom: 20 };
/** Grounds of the parts, so that neighbours can be told apart without colour. */
const GROUNDS = [0.08, 0.85, 0.5, 0.25, 0.65, 0.38, 0.16];

/** Where heat comes from (up) and goes to (down), by month: stacked, told apart by ground and by hatching. */
export function seasonMonths(parts: readonly MonthPart[], frame: SeasonMonthsFrame): Sheet {
  const { width, height } = frame;
  const up = new Array<number>(12).fill(0);
  const down = new Array<number>(12).fill(0);
  for (const part of parts)
    part.values.forEach((v, m) => {
      if (v > 0) up[m] += v;
      else down[m] += v;
    });
  const [low, high] = [Math.min(-1e-9, ...down), Math.max(1e-9, ...up)];
  const y = scaleLinear([low * 1.05, high * 1.05], [height - MARGIN.bottom, MARGIN.top]);
  const slot = (width - MARGIN.left - MARGIN.right) / 12;
  const items: Item[] = [];
  for (const t of frame.ticks(low, high))
    items.push(
      {
        kind: 'line',
        layer: 'grid',
        from: [MARGIN.left, y(t)],
        to: [width - MARGIN.right, y(t)],
        ink: 'grid',
        width: 1,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [MARGIN.left - 7, y(t) + 4],
        text: frame.valueText(t),
        size: 11,
        ink: 'soft',
        anchor: 'end',
      },
    );
  for (let m = 0; m < 12; m++) {
    let [top, bottom] = [0, 0];
    const x0 = MARGIN.left + m * slot + slot * 0.14;
    const x1 = MARGIN.left + (m + 1) * slot - slot * 0.14;
    parts.forEach((part, i) => {
      const v = part.values[m];
      if (!(Math.abs(v) > (high - low) * 0.002)) return;
      const from = v > 0 ? top : bottom;
      if (v > 0) top += v;
      else bottom += v;
      items.push({
        kind: 'polyline',
        layer: 'water',
        closed: true,
        points: [
          [x0, y(from)],
          [x1, y(from)],
          [x1, y(from + v)],
          [x0, y(from + v)],
        ],
        ink: 'ink',
        width: 0.8,
        fill: 'ink',
        fillOpacity: GROUNDS[i % GROUNDS.length],
      });
    });
    items.push({
      kind: 'text',
      layer: 'text',
      at: [(x0 + x1) / 2, height - 5],
      text: frame.months[m],
      size: 11,
      ink: 'soft',
      anchor: 'middle',
    });
  }
  items.push({
    kind: 'line',
    layer: 'dimension',
    from: [MARGIN.left, y(0)],
    to: [width - MARGIN.right, y(0)],
    ink: 'ink',
    width: 1.2,
  });
  return { width, height, items, anchors: [] };
}

/** The ground of a part, for the key beside the drawing. */
export function partGround(i: number): number {
  return GROUNDS[i % GROUNDS.length];
}

/** Where hours and months stand on `seasonHours`, for hands that pull at them. */
export function hoursPlace({ width, height }: { width: number; height: number }) {
  const scale = scaleLinear([4, 22], [height - MARGIN.bottom, MARGIN.top]).clamp(true);
  const slot = (width - MARGIN.left - MARGIN.right) / 12;
  return {
    left: MARGIN.left,
    right: MARGIN.right,
    x: (month: number): number => MARGIN.left + (month + 0.5) * slot,
    y: (hour: number): number => scale(hour),
    /** −1 beside the months. */
    month: (x: number): number => {
      const m = Math.floor((x - MARGIN.left) / slot);
      return m >= 0 && m < 12 ? m : -1;
    },
    hour: (y: number): number => scale.invert(y),
  };
}

/** Hours from … to of each month, as upright bars over the hours of the day; what is wanted beside what is planned. */
export function seasonHours(
  worth: readonly ({ readonly from_h: number; readonly to_h: number } | null)[],
  planned: readonly ({ readonly from_h: number; readonly to_h: number } | null)[],
  frame: Pick<SeasonMonthsFrame, 'width' | 'height' | 'months'> & {
    readonly hourText?: (hour: number) => string;
  },
): Sheet {
  const { width, height } = frame;
  const { y } = hoursPlace(frame);
  const slot = (width - MARGIN.left - MARGIN.right) / 12;
  const items: Item[] = [];
  for (const h of [6, 9, 12, 15, 18, 21])
    items.push(
      {
        kind: 'line',
        layer: 'grid',
        from: [MARGIN.left, y(h)],
        to: [width - MARGIN.right, y(h)],
        ink: 'grid',
        width: 1,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [MARGIN.left - 7, y(h) + 4],
        text: frame.hourText?.(h) ?? `${h}:00`,
        size: 11,
        ink: 'soft',
        anchor: 'end',
      },
    );
  for (let m = 0; m < 12; m++) {
    const x0 = MARGIN.left + m * slot;
    const w = worth[m];
    const p = planned[m];
    const bar = (from: number, to: number, a: number, b: number): Point[] => [
      [x0 + slot * a, y(from)],
      [x0 + slot * b, y(from)],
      [x0 + slot * b, y(to)],
      [x0 + slot * a, y(to)],
    ];
    if (w !== null && w !== undefined)
      items.push({
        kind: 'polyline',
        layer: 'water',
        closed: true,
        points: bar(w.from_h, w.to_h, 0.16, 0.84),
        ink: 'ink',
        width: 0,
        fill: 'ink',
        fillOpacity: 0.25,
      });
    if (p !== null && p !== undefined)
      items.push({
        kind: 'polyline',
        layer: 'built',
        closed: true,
        points: bar(p.from_h, p.to_h, 0.28, 0.72),
        ink: 'ink',
        width: 1.4,
      });
    items.push({
      kind: 'text',
      layer: 'text',
      at: [x0 + slot / 2, height - 5],
      text: frame.months[m],
      size: 11,
      ink: 'soft',
      anchor: 'middle',
    });
  }
  return { width, height, items, anchors: [] };
}

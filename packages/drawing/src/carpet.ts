import type { Item, Point, Sheet } from './display';

/** Sunlit share by day of the year and hour of the day; −1 where the sun is down. */
export interface CarpetInput {
  /** Columns, evenly through the year. */
  readonly columns: number;
  /** Rows, evenly through the day from midnight. */
  readonly rows: number;
  /** share[column × rows + row] */
  readonly share: ArrayLike<number>;
  /** The moment looked at: part of the year and of the day, 0…1. */
  readonly now: { readonly day: number; readonly hour: number } | null;
}

export interface CarpetFrame {
  readonly width: number;
  readonly height: number;
  readonly dark: boolean;
  readonly months: readonly string[];
  readonly hourText: (hour: number) => string;
}

const MARGIN = { left: 34, right: 8, top: 6, bottom: 20 };
const LEVELS = 5;

/** Where a part of the year and of the day lies on the carpet, and the other way round. */
export function carpetPlace(frame: Pick<CarpetFrame, 'width' | 'height'>) {
  const [w, h] = [frame.width - MARGIN.left - MARGIN.right, frame.height - MARGIN.top - MARGIN.bottom];
  return {
    at: (day: number, hour: number): Point => [MARGIN.left + day * w, MARGIN.top + (1 - hour) * h],
    back: (x: number, y: number) => ({
      day: Math.min(1, Math.max(0, (x - MARGIN.left) / w)),
      hour: Math.min(1, Math.max(0, 1 - (y - MARGIN.top) / h)),
    }),
  };
}

/**
 * Year carpet: day across, hour up. The darker, the more of the thing lies in shade; where the sun is down the
 * ground is plain. Equal neighbours are joined, so that it stays small.
 */
export function yearCarpet(input: CarpetInput, frame: CarpetFrame): Sheet {
  const { at } = carpetPlace(frame);
  const items: Item[] = [];
  // whole pixels: no seams between neighbours
  const whole = ([x, y]: Point): Point => [Math.round(x), Math.round(y)];
  const box = (x0: number, x1: number, y0: number, y1: number): Point[] =>
    [at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)].map(whole);
  items.push({
    kind: 'polyline',
    layer: 'grid',
    closed: true,
    points: box(0, 1, 0, 1),
    ink: 'hair',
    width: 0,
    fill: 'hair',
  });
  const level = (share: number): number => (share < 0 ? -1 : Math.round(share * (LEVELS - 1)));
  for (let c = 0; c < input.columns; c++) {
    const [x0, x1] = [c / input.columns, (c + 1) / input.columns];
    for (let r = 0; r < input.rows; ) {
      const here = level(input.share[c * input.rows + r]);
      let end = r + 1;
      while (end < input.rows && level(input.share[c * input.rows + end]) === here) end++;
      if (here >= 0) {
        const points = box(x0, x1, r / input.rows, end / input.rows);
        const lit = here / (LEVELS - 1);
        items.push({
          kind: 'polyline',
          layer: 'grid',
          closed: true,
          points,
          ink: 'hair',
          width: 0,
          fill: 'sheet',
        });
        const ink = frame.dark ? lit : 1 - lit;
        if (ink > 0)
          items.push({
            kind: 'polyline',
            layer: 'grid',
            closed: true,
            points,
            ink: 'ink',
            width: 0,
            fill: 'ink',
            fillOpacity: Math.round(ink * 72) / 100,
          });
      }
      r = end;
    }
  }
  for (let m = 0; m < 12; m++) {
    const [x, y] = at((m + 0.5) / 12, 0);
    items.push({
      kind: 'text',
      layer: 'text',
      at: [x, y + 15],
      text: frame.months[m],
      size: 11,
      ink: 'soft',
      anchor: 'middle',
    });
    if (m > 0)
      items.push({
        kind: 'line',
        layer: 'dimension',
        from: at(m / 12, 0),
        to: [at(m / 12, 0)[0], y + 4],
        ink: 'soft',
        width: 0.8,
      });
  }
  for (const h of [0, 6, 12, 18, 24]) {
    const [x, y] = at(0, h / 24);
    items.push(
      {
        kind: 'text',
        layer: 'text',
        at: [x - 6, y + (h === 24 ? 8 : 4)],
        text: frame.hourText(h),
        size: 11,
        ink: 'soft',
        anchor: 'end',
      },
      { kind: 'line', layer: 'dimension', from: [x - 3, y], to: [x, y], ink: 'soft', width: 0.8 },
    );
  }
  items.push({
    kind: 'polyline',
    layer: 'dimension',
    closed: true,
    points: box(0, 1, 0, 1),
    ink: 'ink',
    width: 1,
  });
  if (input.now !== null) {
    const [x, y] = at(input.now.day, input.now.hour);
    items.push(
      {
        kind: 'line',
        layer: 'dimension',
        from: [x, at(0, 1)[1]],
        to: [x, at(0, 0)[1]],
        ink: 'ink',
        width: 0.9,
      },
      {
        kind: 'line',
        layer: 'dimension',
        from: [at(0, 0)[0], y],
        to: [at(1, 0)[0], y],
        ink: 'ink',
        width: 0.9,
      },
      { kind: 'circle', layer: 'flag', centre: [x, y], radius: 5, ink: 'ink', width: 2, fill: 'sheet' },
    );
  }
  return { width: frame.width, height: frame.height, items, anchors: [] };
}

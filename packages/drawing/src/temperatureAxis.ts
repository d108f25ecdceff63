import type { Item } from './display';

/** Where a plot of temperatures stands on its sheet. */
export interface TemperatureAxis {
  readonly x0: number;
  readonly x1: number;
  /** Height on the sheet of a temperature [°C]. */
  readonly y: (value_C: number) => number;
}

/** A line across the plot for each temperature of the axis, with its figure before it. */
export function temperatureGrid(
  { x0, x1, y }: TemperatureAxis,
  ticks_C: readonly number[],
  text: (value_C: number) => string,
): Item[] {
  return ticks_C.flatMap((t): Item[] => [
    { kind: 'line', layer: 'grid', from: [x0, y(t)], to: [x1, y(t)], ink: 'grid', width: 1 },
    {
      kind: 'text',
      layer: 'text',
      at: [x0 - 7, y(t) + 4],
      text: text(t),
      size: 11,
      ink: 'soft',
      anchor: 'end',
    },
  ]);
}

/** The wish as a dashed line across the plot, with its word at the left, or from `at` on where that is taken. */
export function wishLine(
  { x0, x1, y }: TemperatureAxis,
  wish_C: number,
  word: string,
  at: number = x0 + 8,
): Item[] {
  return [
    {
      kind: 'line',
      layer: 'dimension',
      from: [x0, y(wish_C)],
      to: [x1, y(wish_C)],
      ink: 'ink',
      width: 1.1,
      dash: [9, 5],
    },
    {
      kind: 'text',
      layer: 'text',
      at: [at, y(wish_C) - 6],
      text: word,
      size: 12,
      weight: 550,
      ink: 'ink',
      halo: 'sheet',
    },
  ];
}

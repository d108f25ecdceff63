import type { YardView } from '@sunlap/drawing/yardPlan';

const LEAST = 1.5;
const MOST = 400;

/** The view with a point of the sheet held still: `px`, `py` from its middle [px], y down. */
export function zoomed(view: YardView, by: number, px = 0, py = 0): YardView {
  const scale = Math.min(MOST, Math.max(LEAST, view.scale * by));
  const k = 1 / view.scale - 1 / scale;
  return { scale, x_m: view.x_m + px * k, y_m: view.y_m - py * k };
}

/** The ground pushed by so many pixels, y down. */
export const pushed = (view: YardView, dx: number, dy: number): YardView => ({
  ...view,
  x_m: view.x_m - dx / view.scale,
  y_m: view.y_m + dy / view.scale,
});

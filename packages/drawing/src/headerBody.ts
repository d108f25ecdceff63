import type { Item, Point } from './display';
import type { PlanHeader, Uv } from './panelPlan';

const LEAST = 2.2;
const MOST = 13;

/** Width of a header's water on the sheet: in proportion to its flow, never so thin that it is lost. */
export function flowWidth(flow_m3s: number, full_m3s: number): number {
  const share = full_m3s > 0 ? Math.min(Math.abs(flow_m3s) / full_m3s, 1) : 0;
  return LEAST + (MOST - LEAST) * (Number.isFinite(share) ? share : 0);
}

/** Nested headers are drawn one outside the other, though in truth they lie above or close beside each other. */
export function offsetOutward(p: Point, header: { rank: number; outward: Uv }, at: (q: Uv) => Point): Point {
  const base = at([0, 0]);
  const tip = at(header.outward);
  const [x, y] = [tip[0] - base[0], tip[1] - base[1]];
  const l = Math.hypot(x, y) || 1;
  const k = 5 + header.rank * 12;
  return [p[0] + (x / l) * k, p[1] + (y / l) * k];
}

/**
 * A header as its outline in ink, filled with its water, as wide at each place as what flows there: it is seen to
 * thin out towards the end that is not fed.
 */
export function headerBody(
  header: PlanHeader,
  at: (q: Uv) => Point,
  data: { flow_m3s: readonly number[]; heat: number } | undefined,
  full_m3s: number,
): Item[] {
  const a = offsetOutward(at(header.first), header, at);
  const b = offsetOutward(at(header.last), header, at);
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const l = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [-dy / l, dx / l];
  const flows = data === undefined || data.flow_m3s.length === 0 ? [0] : data.flow_m3s;
  const n = flows.length;
  const left: Point[] = [];
  const right: Point[] = [];
  const put = (t: number, flow: number) => {
    const w = flowWidth(flow, full_m3s) / 2 + 1;
    left.push([a[0] + dx * t + nx * w, a[1] + dy * t + ny * w]);
    right.push([a[0] + dx * t - nx * w, a[1] + dy * t - ny * w]);
  };
  put(0, flows[0]);
  for (const [i, flow] of flows.entries()) put((i + 0.5) / n, flow);
  put(1, flows[n - 1]);
  return [
    {
      kind: 'polyline',
      layer: 'built',
      closed: true,
      points: [...left, ...right.reverse()],
      ink: 'ink',
      width: 1.3,
      ...(data === undefined ? { fill: 'sheet' as const } : { fillHeat: data.heat }),
      id: `${header.section}/${header.bank}/${header.header}`,
    },
  ];
}

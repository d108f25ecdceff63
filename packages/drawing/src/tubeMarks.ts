import type { HeatStop, Item, Point } from './display';

const mix = (a: Point, b: Point, t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];

function outline(from: Point, to: Point, width: number, dash?: readonly number[]): Item[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const l = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / l) * (width / 2), (dx / l) * (width / 2)];
  const side = (s: number): Item => ({
    kind: 'line',
    layer: 'water',
    from: [from[0] + nx * s, from[1] + ny * s],
    to: [to[0] + nx * s, to[1] + ny * s],
    ink: 'soft',
    width: 0.9,
    ...(dash === undefined ? {} : { dash }),
  });
  return [side(1), side(-1)];
}

/** A tube that is stopped: hollow, crossed at both ends. */
export function blockedMarks(from: Point, to: Point, width: number): Item[] {
  const s = Math.max(3, width * 0.7);
  const cross = (p: Point): Item[] =>
    [1, -1].map((k) => ({
      kind: 'line',
      layer: 'built',
      from: [p[0] - s, p[1] - s * k],
      to: [p[0] + s, p[1] + s * k],
      ink: 'ink',
      width: 1.5,
    }));
  return [...outline(from, to, width), ...cross(mix(from, to, 0.03)), ...cross(mix(from, to, 0.97))];
}

/** Air in a tube as bubbles: all along a dry one, in the upper half of an outfall, a few where some may stay. */
export function airMarks(from: Point, to: Point, width: number, how: 'all' | 'half' | 'some'): Item[] {
  const bubbles = { all: 9, half: 5, some: 1 }[how];
  const start = how === 'all' ? 0.06 : how === 'half' ? 0.5 : 0.94;
  const step = how === 'all' ? 0.11 : 0.11;
  const out: Item[] = how === 'all' ? outline(from, to, width, [3, 3]) : [];
  for (let i = 0; i < bubbles; i++)
    out.push({
      kind: 'circle',
      layer: 'built',
      centre: mix(from, to, start + i * step),
      radius: Math.max(2, Math.min(width * 0.42, 3.4)),
      ink: 'ink',
      width: 1,
      fill: 'sheet',
    });
  return out;
}

/**
 * The share of the flow as a bar on the tube itself: the even share ends in the middle of the tube. Less than even
 * is hollow, more is solid: length first, fill second, no colour.
 */
export function shareBar(from: Point, to: Point, width: number, share: number): Item[] {
  const t = Math.max(0.004, Math.min(share / 2, 1));
  const end = mix(from, to, t);
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const l = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / l) * (width / 2), (dx / l) * (width / 2)];
  const corners: Point[] = [
    [from[0] + nx, from[1] + ny],
    [end[0] + nx, end[1] + ny],
    [end[0] - nx, end[1] - ny],
    [from[0] - nx, from[1] - ny],
  ];
  return [
    { kind: 'line', layer: 'grid', from, to, ink: 'hair', width: 1 },
    {
      kind: 'polyline',
      layer: 'water',
      closed: true,
      points: corners,
      ink: 'ink',
      width: 1,
      fill: share < 0.995 ? 'sheet' : 'ink',
    },
  ];
}

/** A flat coil between its two ends as a spiral coloured along its length. */
export function coilTube(
  from: Point,
  to: Point,
  coil: { inner_m: number; outer_m: number; turns: number },
  scale: number,
  stops: readonly HeatStop[],
  look: string,
): Item[] {
  const centre = mix(from, to, 0.5);
  const [r1, r0] = [(coil.outer_m / 2) * scale, (coil.inner_m / 2) * scale];
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  const drawn = Math.max(2, Math.min(coil.turns, Math.floor((r1 - r0) / 3.2)));
  const pieces = 40;
  const width = Math.max(1.2, Math.min(((r1 - r0) / drawn) * 0.62, 6));
  const heatAt = (t: number) => {
    const last = stops[stops.length - 1];
    const i = stops.findIndex((s) => s.at >= t);
    if (i <= 0) return i === 0 ? stops[0].heat : last.heat;
    const [p, q] = [stops[i - 1], stops[i]];
    return p.heat + ((q.heat - p.heat) * (t - p.at)) / (q.at - p.at || 1);
  };
  const on = (t: number): Point => {
    const angle = start + t * drawn * 2 * Math.PI;
    const radius = r1 - (r1 - r0) * t;
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];
  };
  const out: Item[] = [];
  const stopped = look === 'blocked' || look === 'unfilled' || look === 'airBound';
  for (let i = 0; i < pieces; i++) {
    const points: Point[] = [];
    for (let k = 0; k <= 14; k++) points.push(on((i + k / 14) / pieces));
    out.push(
      stopped
        ? { kind: 'polyline', layer: 'water', points, ink: 'soft', width: 0.9, dash: [3, 3] }
        : { kind: 'waterPath', layer: 'water', points, width, heat: heatAt((i + 0.5) / pieces) },
    );
  }
  const inner = on(1);
  out.push({ kind: 'polyline', layer: 'built', points: [inner, to], ink: 'ink', width: 1.4 });
  if (look === 'blocked') out.push(...blockedMarks(from, to, 4).slice(2));
  return out;
}

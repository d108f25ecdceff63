import { arrowHead } from './dimension';
import type { Item, Point, Sheet } from './display';

/** North, where the panel looks, and where the sun stands. */
export function compassRose(
  input: { facing_deg: number; sunAzimuth_deg: number | null },
  size: number,
): Sheet {
  const c = size / 2;
  const r = c - 15;
  const on = (bearing_deg: number, radius: number): Point => {
    const a = (bearing_deg * Math.PI) / 180;
    return [c + radius * Math.sin(a), c - radius * Math.cos(a)];
  };
  const items: Item[] = [
    { kind: 'circle', layer: 'dimension', centre: [c, c], radius: r, ink: 'soft', width: 0.9 },
  ];
  for (let b = 0; b < 360; b += 15)
    items.push({
      kind: 'line',
      layer: 'dimension',
      from: on(b, r - (b % 90 === 0 ? 7 : 3.5)),
      to: on(b, r),
      ink: 'soft',
      width: 0.9,
    });
  for (const [b, letter] of [
    [0, 'N'],
    [90, 'E'],
    [180, 'S'],
    [270, 'W'],
  ] as const) {
    const p = on(b, r + 9);
    items.push({
      kind: 'text',
      layer: 'text',
      at: [p[0], p[1] + 4],
      text: letter,
      size: 11,
      weight: b === 0 ? 680 : 400,
      ink: b === 0 ? 'ink' : 'soft',
      anchor: 'middle',
    });
  }
  const f = input.facing_deg;
  const corner = (along: number, across: number): Point => {
    const [a, b] = [on(f, along), on(f + 90, across)];
    return [a[0] + b[0] - c, a[1] + b[1] - c];
  };
  const [d, w] = [r * 0.2, r * 0.5];
  items.push(
    {
      kind: 'polyline',
      layer: 'built',
      closed: true,
      points: [corner(d, w), corner(d, -w), corner(-d, -w), corner(-d, w)],
      ink: 'ink',
      width: 1.3,
      fill: 'sheet',
    },
    ...[-0.33, 0, 0.33].map(
      (k): Item => ({
        kind: 'line',
        layer: 'built',
        from: corner(d * k * 2, w),
        to: corner(d * k * 2, -w),
        ink: 'soft',
        width: 0.8,
      }),
    ),
    { kind: 'line', layer: 'built', from: corner(d, 0), to: on(f, r - 12), ink: 'ink', width: 1.3 },
    arrowHead(on(f, r - 8), [on(f, 2)[0] - c, on(f, 2)[1] - c], 8),
  );
  if (input.sunAzimuth_deg !== null) {
    const p = on(input.sunAzimuth_deg, r);
    items.push({
      kind: 'circle',
      layer: 'flag',
      centre: p,
      radius: 4.5,
      ink: 'ink',
      width: 1.3,
      fill: 'sheet',
    });
  }
  return {
    width: size,
    height: size,
    items,
    anchors: [{ id: 'facing', ...{ x: on(f, r)[0], y: on(f, r)[1] } }],
  };
}

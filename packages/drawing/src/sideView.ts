import { arrowHead } from './dimension';
import type { Anchor, Item, Point, Sheet } from './display';

export interface SideInput {
  tilt_deg: number;
  /** Up the slope [m]. */
  reach_m: number;
  lowestHeight_m: number;
  mounting: 'ground' | 'rack' | 'roof';
  /** Of the sun in the plane of the drawing, from the horizontal on the side that the panel looks to; null at night. */
  sun_deg: number | null;
}

/** The panel from its side: tilt, height over the pool's water, what it stands on, and the sun. */
export function sideView(
  input: SideInput,
  frame: { width: number; height: number; words: { water: string } },
): Sheet {
  const items: Item[] = [];
  const anchors: Anchor[] = [];
  const tilt = (input.tilt_deg * Math.PI) / 180;
  const pad = { left: 16, right: 14, top: 16, bottom: 26 };
  const [w, h] = [frame.width - pad.left - pad.right, frame.height - pad.top - pad.bottom];
  const poolPart = 0.3;
  const run = input.reach_m * Math.cos(tilt);
  const low = Math.min(input.lowestHeight_m, 0);
  const high = Math.max(input.lowestHeight_m + input.reach_m * Math.sin(tilt), 0.6);
  const scale = Math.min((w * (1 - poolPart)) / Math.max(run, 0.4), (h * 0.82) / Math.max(high - low, 0.4));
  const ground = frame.height - pad.bottom;
  const zero = ground + low * scale;
  const x0 = pad.left + w * poolPart + 8;
  const foot: Point = [x0, zero - input.lowestHeight_m * scale];
  const head: Point = [x0 + run * scale, foot[1] - input.reach_m * Math.sin(tilt) * scale];
  // water
  items.push(
    {
      kind: 'line',
      layer: 'built',
      from: [pad.left, zero],
      to: [pad.left + w * poolPart - 10, zero],
      ink: 'ink',
      width: 1.2,
    },
    ...[4, 8, 12].map(
      (d, i): Item => ({
        kind: 'line',
        layer: 'built',
        from: [pad.left + 5 + i * 7, zero + d],
        to: [pad.left + w * poolPart - 15 - i * 7, zero + d],
        ink: 'soft',
        width: 0.9,
      }),
    ),
    {
      kind: 'text',
      layer: 'text',
      at: [pad.left, zero - 6],
      text: frame.words.water,
      size: 10.5,
      ink: 'soft',
    },
  );
  // what it stands on
  const deck = input.mounting === 'ground' ? Math.max(foot[1], zero) + 0 : zero;
  if (input.mounting === 'ground') {
    items.push({
      kind: 'polyline',
      layer: 'built',
      points: [
        [x0 - 14, foot[1] + 5],
        [foot[0], foot[1] + 5],
        [head[0], head[1] + 5],
        [head[0] + 12, head[1] + 5],
      ],
      ink: 'soft',
      width: 1,
    });
    for (let i = 0; i <= 7; i++) {
      const t = i / 7;
      const p: Point = [foot[0] + (head[0] - foot[0]) * t, foot[1] + (head[1] - foot[1]) * t + 5];
      items.push({
        kind: 'line',
        layer: 'built',
        from: p,
        to: [p[0] - 5, p[1] + 6],
        ink: 'soft',
        width: 0.8,
      });
    }
  } else {
    items.push({
      kind: 'line',
      layer: 'built',
      from: [x0 - 10, deck],
      to: [frame.width - pad.right, deck],
      ink: 'soft',
      width: 1,
    });
    for (const t of input.mounting === 'roof' ? [0.02, 0.98] : [0.06, 0.5, 0.94]) {
      const p: Point = [foot[0] + (head[0] - foot[0]) * t, foot[1] + (head[1] - foot[1]) * t];
      items.push({
        kind: 'line',
        layer: 'built',
        from: p,
        to: [p[0], deck],
        ink: input.mounting === 'roof' ? 'soft' : 'ink',
        width: input.mounting === 'roof' ? 3 : 1.2,
      });
    }
  }
  items.push(
    { kind: 'line', layer: 'built', from: foot, to: head, ink: 'ink', width: 4.5, cap: 'round' },
    {
      kind: 'line',
      layer: 'dimension',
      from: foot,
      to: [foot[0] + Math.min(run * scale, 120) * 0.9 + 14, foot[1]],
      ink: 'soft',
      width: 0.9,
    },
  );
  const arc: Point[] = [];
  const radius = Math.min(run * scale * 0.55, 76);
  for (let i = 0; i <= 14; i++) {
    const a = (tilt * i) / 14;
    arc.push([foot[0] + radius * Math.cos(a), foot[1] - radius * Math.sin(a)]);
  }
  items.push({ kind: 'polyline', layer: 'dimension', points: arc, ink: 'soft', width: 0.9 });
  anchors.push(
    { id: 'tilt', x: foot[0] + radius + 8, y: foot[1] + (input.tilt_deg < 8 ? 20 : 0) },
    { id: 'lowestHeight', x: x0 - 14, y: (foot[1] + zero) / 2 },
    { id: 'panel', x: (foot[0] + head[0]) / 2, y: (foot[1] + head[1]) / 2 },
  );
  if (input.sun_deg !== null) {
    const s = (input.sun_deg * Math.PI) / 180;
    const mid: Point = [(foot[0] + head[0]) / 2, (foot[1] + head[1]) / 2];
    const dir: Point = [-Math.cos(s), -Math.sin(s)];
    const reach = Math.min(
      (mid[1] - pad.top - 8) / Math.max(Math.sin(s), 0.05),
      dir[0] < 0
        ? (mid[0] - pad.left - 8) / Math.max(-dir[0], 0.05)
        : (frame.width - pad.right - 8 - mid[0]) / Math.max(dir[0], 0.05),
    );
    const sun: Point = [mid[0] + dir[0] * reach, mid[1] + dir[1] * reach];
    items.push(
      {
        kind: 'line',
        layer: 'dimension',
        from: sun,
        to: [mid[0] + dir[0] * 9, mid[1] + dir[1] * 9],
        ink: 'soft',
        width: 0.9,
        dash: [7, 3, 1.5, 3],
      },
      arrowHead([mid[0] + dir[0] * 6, mid[1] + dir[1] * 6], [-dir[0], -dir[1]], 8),
      { kind: 'circle', layer: 'built', centre: sun, radius: 6.5, ink: 'ink', width: 1.3, fill: 'sheet' },
    );
    for (let i = 0; i < 8; i++) {
      const a = (i * Math.PI) / 4;
      items.push({
        kind: 'line',
        layer: 'built',
        from: [sun[0] + Math.cos(a) * 9, sun[1] + Math.sin(a) * 9],
        to: [sun[0] + Math.cos(a) * 12, sun[1] + Math.sin(a) * 12],
        ink: 'ink',
        width: 1.2,
      });
    }
  }
  return { width: frame.width, height: frame.height, items, anchors };
}

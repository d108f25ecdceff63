import type { PumpCurve } from '@sunlap/engine/hydraulics/network-types';
import type { PumpPower } from '@sunlap/engine/hydraulics/pump';
import { shelfCurve } from '@sunlap/engine/hydraulics/pump-shelf';
import type { Pump } from '@sunlap/project/schema/loop';
import type { PumpShelf } from './tables';

/** Motor and wet end together where nobody knows better; common practice 30–45 %, from memory. */
const WIRE_TO_WATER = 0.38;

/** A pump's curve and power, ready for the engine. */
export interface PumpData {
  readonly curve: PumpCurve;
  readonly power: PumpPower;
  readonly driveLoad_W: number;
  /** Flow at the end of the known curve [m³/s]; outside it the answer is a guess. */
  readonly lastFlow_m3s: number;
}

/**
 * The pump of a loop. Points that do not fall are sorted by flow and the rising ones dropped, so that a curve
 * always exists; `check` tells the person about them.
 */
export function pumpData(pump: Pump, shelf: PumpShelf): PumpData {
  const driveLoad_W = pump.driveLoad_W ?? 0;
  if (pump.curve.kind === 'shelf') {
    const row = shelf(pump.curve.shelf);
    return {
      curve: shelfCurve(row, pump.curve.measured),
      power: { kind: 'efficiency', wireToWater: pump.efficiency ?? row.wireToWater },
      driveLoad_W,
      lastFlow_m3s: row.mostFlow_m3s,
    };
  }
  const points = fallingPoints(pump.curve.points);
  const flow_m3s = points.map((p) => p.flow_m3s);
  const withPower = points.filter((p) => p.power_W !== undefined);
  return {
    curve: { kind: 'points', flow_m3s, head_m: points.map((p) => p.head_m) },
    power:
      withPower.length >= 2
        ? {
            kind: 'points',
            flow_m3s: withPower.map((p) => p.flow_m3s),
            power_W: withPower.map((p) => p.power_W!),
          }
        : { kind: 'efficiency', wireToWater: pump.efficiency ?? WIRE_TO_WATER },
    driveLoad_W,
    lastFlow_m3s: flow_m3s[flow_m3s.length - 1],
  };
}

type Point = Extract<Pump['curve'], { kind: 'points' }>['points'][number];

/** Points by rising flow whose head falls; at least two. */
export function fallingPoints(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a.flow_m3s - b.flow_m3s);
  const out: Point[] = [];
  for (const p of sorted) {
    const last = out[out.length - 1];
    if (last && !(p.flow_m3s > last.flow_m3s)) continue;
    // of a rise, the higher head stays: it is nearer the true shut-off
    while (out.length > 0 && p.head_m >= out[out.length - 1].head_m) out.pop();
    out.push(p);
  }
  if (out.length >= 2) return out;
  const top = out[0] ?? { flow_m3s: 0, head_m: 1 };
  return [
    { ...top, flow_m3s: 0 },
    { flow_m3s: Math.max(top.flow_m3s, 1e-3) * 2, head_m: 0 },
  ].map((p, i) => (i === 0 ? { ...p, head_m: Math.max(p.head_m, 0.1) } : p));
}

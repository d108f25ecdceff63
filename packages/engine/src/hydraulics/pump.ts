import { DomainError } from '../numeric/errors';
import { checkKnots, hermite, interpolateLinear, intervalOf, monotoneSlopes } from '../numeric/interpolation';
import type { PumpCurve } from './network-types';

/** Head and its slope in flow, filled in place. */
export interface PumpHead {
  /** head [m] */
  value: number;
  /** dH/dQ [s/m²], ≤ 0 */
  slope: number;
}

/** A curve made ready for evaluation at full speed. */
export interface PreparedPump {
  readonly shutOffHead_m: number;
  /** flow that spans the curve: last point, or where a parabola meets zero head [m³/s] */
  readonly span_m3s: number;
  /** head at full speed, any flow, unchecked */
  head(flow_m3s: number, out: PumpHead): void;
}

/**
 * Makes a pump curve ready. Between points the monotone cubic of Fritsch & Carlson. Below the first point an
 * even parabola in Q; for flow backwards through a running pump head goes on rising by the mirrored
 * parabola. Above the last point a straight line at least as steep as 2·(H0 − Hn)/Qn.
 *
 * @param curve points or parabola at full speed
 * @throws {DomainError} unless flows rise from ≥ 0, heads fall, and the first head is positive
 * @example preparePump({ kind: 'parabola', shutOffHead_m: 20, coefficient_s2m5: 5e5 })
 */
export function preparePump(curve: PumpCurve): PreparedPump {
  if (curve.kind === 'parabola') return prepareParabola(curve.shutOffHead_m, curve.coefficient_s2m5);
  const flows = Float64Array.from(curve.flow_m3s);
  const heads = Float64Array.from(curve.head_m);
  checkKnots(flows, heads);
  if (!(flows[0]! >= 0)) throw new DomainError('first flow of the pump curve', flows[0], '[0, ∞) m³/s');
  if (!(heads[0]! > 0)) throw new DomainError('first head of the pump curve', heads[0], '(0, ∞) m');
  for (let i = 1; i < heads.length; i++) {
    if (!(heads[i]! < heads[i - 1]!))
      throw new DomainError('head of the pump curve', heads[i], `< ${heads[i - 1]} m`);
  }
  const slopes = monotoneSlopes(flows, heads);
  const last = flows.length - 1;
  const first = flows[0]!;
  // even parabola through the first point with the cubic's slope there; flat when the point is at Q = 0
  const bend = first > 0 ? -slopes[0]! / (2 * first) : 0;
  const shutOff = heads[0]! + bend * first * first;
  const start = first > 0 ? 0 : slopes[0]!;
  const back = (shutOff - heads[last]!) / flows[last]! ** 2;
  const tail = Math.min(slopes[last]!, (-2 * (shutOff - heads[last]!)) / flows[last]!);
  return {
    shutOffHead_m: shutOff,
    span_m3s: flows[last]!,
    head(q, out) {
      if (q < 0) {
        out.value = shutOff + start * q + back * q * q;
        out.slope = start + 2 * back * q;
      } else if (q < first) {
        out.value = shutOff - bend * q * q;
        out.slope = -2 * bend * q;
      } else if (q > flows[last]!) {
        out.value = heads[last]! + tail * (q - flows[last]!);
        out.slope = tail;
      } else {
        const i = intervalOf(flows, q);
        hermite(q, flows[i]!, flows[i + 1]!, heads[i]!, heads[i + 1]!, slopes[i]!, slopes[i + 1]!, out);
      }
    },
  };
}

function prepareParabola(shutOff: number, coefficient: number): PreparedPump {
  if (!(shutOff > 0 && shutOff < Infinity)) throw new DomainError('shut-off head', shutOff, '(0, ∞) m');
  if (!(coefficient > 0 && coefficient < Infinity))
    throw new DomainError('coefficient of the pump curve', coefficient, '(0, ∞) s²/m⁵');
  return {
    shutOffHead_m: shutOff,
    span_m3s: Math.sqrt(shutOff / coefficient),
    head(q, out) {
      out.value = shutOff - coefficient * q * Math.abs(q);
      out.slope = -2 * coefficient * Math.abs(q);
    },
  };
}

/** A pump that turns slower than this has stopped: its head would be 10⁻¹⁸ of the curve's, and Q/s leave all numbers [–]. */
export const LEAST_PUMP_SPEED = 1e-9;

/**
 * Head at any speed by the affinity laws, H = s²·H₁(Q/s). A stopped pump has no head.
 *
 * @param pump     prepared curve
 * @param speed    over the curve's speed [–], ≥ 0
 * @param flow_m3s [m³/s], finite
 * @returns head [m]
 * @throws {DomainError} outside those ranges
 * @example // at half speed a pump of 20 m shut-off gives 5 m
 */
export function pumpHead(pump: PreparedPump, speed: number, flow_m3s: number): number {
  if (!(speed >= 0 && speed < Infinity)) throw new DomainError('pump speed', speed, '[0, ∞)');
  if (!Number.isFinite(flow_m3s)) throw new DomainError('flow', flow_m3s, 'finite');
  if (speed < LEAST_PUMP_SPEED) return 0;
  const out = { value: 0, slope: 0 };
  pump.head(flow_m3s / speed, out);
  return out.value * speed * speed;
}

/** Electric power of a pump: either points of power, or an efficiency, each with a fixed drive load. */
export type PumpPower =
  | { readonly kind: 'points'; readonly flow_m3s: readonly number[]; readonly power_W: readonly number[] }
  | { readonly kind: 'efficiency'; readonly wireToWater: number };

/**
 * Electric power. Points scale by the affinity laws, P = s³·P₁(Q/s), an efficiency gives ρ g Q H/η; the
 * drive load does not fall with speed, which is why the cube law alone promises too much at low speed.
 *
 * @param power        power at full speed
 * @param driveLoad_W  fixed load of drive and controls while running [W], ≥ 0
 * @param speed        [–], ≥ 0
 * @param flow_m3s     [m³/s], ≥ 0
 * @param head_m       pump's head at that flow and speed [m]
 * @param density_kgm3 [kg/m³], > 0
 * @param gravity_ms2  [m/s²]
 * @returns [W]; 0 when stopped
 * @throws {DomainError} outside those ranges
 * @example pumpPower({ kind: 'efficiency', wireToWater: 0.4 }, 20, 1, 0.003, 12, 1000, 9.80665) // 902.6
 */
export function pumpPower(
  power: PumpPower,
  driveLoad_W: number,
  speed: number,
  flow_m3s: number,
  head_m: number,
  density_kgm3: number,
  gravity_ms2: number,
): number {
  if (!(speed >= 0 && speed < Infinity)) throw new DomainError('pump speed', speed, '[0, ∞)');
  if (!(flow_m3s >= 0 && flow_m3s < Infinity)) throw new DomainError('flow', flow_m3s, '[0, ∞) m³/s');
  if (!(driveLoad_W >= 0 && driveLoad_W < Infinity))
    throw new DomainError('drive load', driveLoad_W, '[0, ∞) W');
  if (speed < LEAST_PUMP_SPEED) return 0;
  if (power.kind === 'points')
    return driveLoad_W + speed ** 3 * interpolateLinear(power.flow_m3s, power.power_W, flow_m3s / speed);
  if (!(power.wireToWater > 0 && power.wireToWater <= 1))
    throw new DomainError('wire-to-water efficiency', power.wireToWater, '(0, 1]');
  return driveLoad_W + (density_kgm3 * gravity_ms2 * flow_m3s * Math.max(0, head_m)) / power.wireToWater;
}

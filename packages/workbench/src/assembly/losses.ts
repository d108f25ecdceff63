import { FITTING_LOSS, reducerLoss, sizedFittingLoss } from '@sunlap/engine/hydraulics/fitting-loss';
import { valveKv } from '@sunlap/engine/hydraulics/valve';
import type { CheckValve, PipeRun, Valve } from '@sunlap/project/schema/path';
import type { Tables } from './tables';

/**
 * Loss of a joint in line on its own pipe's velocity head. A tap's tee has nothing flowing in its branch: Crane's plain
 * tee, though Idelchik's form has nothing at all there.
 */
export const inLineLoss = (kind: 'coupling' | 'union' | 'tapTee', bore_m: number): number =>
  kind === 'tapTee' ? sizedFittingLoss('teeRun', bore_m) : FITTING_LOSS[kind];

/** Loss of one fitting on its own pipe's velocity head. */
function fittingLoss(kind: NonNullable<PipeRun['fittings']>[number]['kind'], bore_m: number): number {
  switch (kind) {
    case 'reducer':
    case 'expander':
      // counted from the bores on both sides, wherever two pipes meet
      return 0;
    case 'entrance':
      return FITTING_LOSS.entranceSharp;
    case 'coupling':
    case 'union':
    case 'exit':
      return FITTING_LOSS[kind];
    default:
      return sizedFittingLoss(kind, bore_m);
  }
}

/**
 * Sum of loss coefficients of a pipe run on its own velocity head [–].
 *
 * @param before_m bore of the pipe upstream [m]; null at a mouth
 * @param skipExit true for the last pipe before an outlet, whose mouth counts the exit
 */
export function runLoss(run: PipeRun, bore_m: number, before_m: number | null, skipExit: boolean): number {
  let k = run.extraK ?? 0;
  if (run.fittings) {
    for (const f of run.fittings)
      if (!(skipExit && f.kind === 'exit')) k += fittingLoss(f.kind, bore_m) * f.count;
  }
  if (before_m !== null && Math.abs(before_m - bore_m) > 1e-4) {
    const onSmaller = reducerLoss(before_m, bore_m);
    // carried from the smaller pipe's velocity head to this pipe's
    k += before_m < bore_m ? onSmaller * (bore_m / before_m) ** 4 : onSmaller;
  }
  return k;
}

/**
 * Kv from a loss coefficient: Kv [m³/h] = 3600·A·√(2·10⁵/(1000·K)).
 *
 * @example kvFromLoss(1, 0.04) // 63.98
 */
export function kvFromLoss(coefficient: number, bore_m: number): number {
  return 3600 * (Math.PI / 4) * bore_m * bore_m * Math.sqrt(200 / coefficient);
}

/** Inverse of {@link kvFromLoss}. */
export function lossFromKv(kv_m3h: number, bore_m: number): number {
  const full = kvFromLoss(1, bore_m) / kv_m3h;
  return full * full;
}

/** Kv of a valve as it stands, by its own points, else by those of its type [m³/h]. */
export function standingKv_m3h(valve: Valve, bore_m: number, tables: Tables): number {
  const kvs_m3h = valve.kv_m3h ?? tables.openKv_m3h(valve.type, valve.pipe, bore_m);
  const own = valve.characteristic && risingPoints(valve.characteristic);
  if (own)
    return valveKv(
      { kvs_m3h, opening: own.map((p) => p.opening), share: own.map((p) => p.kvShare) },
      valve.opening,
    );
  const usual = tables.characteristic(valve.type);
  return valveKv(
    usual ? { kvs_m3h, opening: usual.opening, share: usual.kvShare } : { kvs_m3h },
    valve.opening,
  );
}

type CharacteristicPoint = NonNullable<Valve['characteristic']>[number];

/** Points of a characteristic by rising opening, from shut to wide open, whatever order they were typed in. */
function risingPoints(points: readonly CharacteristicPoint[]): CharacteristicPoint[] {
  const out: CharacteristicPoint[] = [{ opening: 0, kvShare: 0 }];
  for (const p of [...points].sort((a, b) => a.opening - b.opening)) {
    if (p.opening > out[out.length - 1].opening) out.push(p);
  }
  if (out[out.length - 1].opening < 1) out.push({ opening: 1, kvShare: 1 });
  return out;
}

/** Loss coefficient of an open check valve on its bore [–]. */
export function checkValveLoss(valve: CheckValve, bore_m: number, tables: Tables): number {
  return lossFromKv(valve.kv_m3h ?? tables.openKv_m3h('check', valve.pipe, bore_m), bore_m);
}

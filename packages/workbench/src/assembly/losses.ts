import { FITTING_LOSS, reducerLoss } from '@sunlap/engine/hydraulics/fitting-loss';
import { valveKv } from '@sunlap/engine/hydraulics/valve';
import type { CheckValve, PipeRun, Valve } from '@sunlap/project/schema/path';
import type { Tables } from './tables';

/** A tee that the water passes straight, on the pipe's own velocity head: 20·f_T at 1 in, Crane TP-410, from memory. */
const TEE_RUN_LOSS = 0.46;

/**
 * Joints in line, on their own pipe's velocity head. A tap's tee has nothing flowing in its branch: Crane's plain tee,
 * though Idelchik's form has nothing at all there.
 */
export const IN_LINE_LOSS = {
  coupling: FITTING_LOSS.coupling,
  union: FITTING_LOSS.union,
  tapTee: TEE_RUN_LOSS,
} as const;

/** On the pipe's own velocity head. Tees without a split of flow, couplings: Crane TP-410, from memory. */
const FITTING_K: Record<NonNullable<PipeRun['fittings']>[number]['kind'], number> = {
  elbow90: FITTING_LOSS.elbow90,
  elbow45: FITTING_LOSS.elbow45,
  sweep90: FITTING_LOSS.sweep90,
  teeRun: TEE_RUN_LOSS,
  teeBranch: 1.38,
  // reducers are counted from the bores on both sides, wherever two pipes meet
  reducer: 0,
  expander: 0,
  coupling: FITTING_LOSS.coupling,
  union: FITTING_LOSS.union,
  entrance: FITTING_LOSS.entranceSharp,
  exit: FITTING_LOSS.exit,
};

/**
 * Sum of loss coefficients of a pipe run on its own velocity head [–].
 *
 * @param before_m bore of the pipe upstream [m]; null at a mouth
 * @param skipExit true for the last pipe before an outlet, whose mouth counts the exit
 */
export function runLoss(run: PipeRun, bore_m: number, before_m: number | null, skipExit: boolean): number {
  let k = run.extraK ?? 0;
  if (run.fittings) {
    for (const f of run.fittings) if (!(skipExit && f.kind === 'exit')) k += FITTING_K[f.kind] * f.count;
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

/** Kv of a valve as it stands [m³/h]. */
export function standingKv_m3h(valve: Valve, bore_m: number, tables: Tables): number {
  const kvs_m3h = valve.kv_m3h ?? tables.openKv_m3h(valve.type, valve.pipe, bore_m);
  const points = valve.characteristic && risingPoints(valve.characteristic);
  return valveKv(
    points
      ? { kvs_m3h, opening: points.map((p) => p.opening), share: points.map((p) => p.kvShare) }
      : { kvs_m3h },
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

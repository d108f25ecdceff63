import {
  combiningTee,
  dividingTee,
  type SplitTeeSet,
  type TeeCoefficients,
  type TeeShape,
} from './tee-coefficients';

/**
 * Heads lost in a tee, seen from run leg 1, per velocity head of the header at unit mass flow, with their
 * derivatives. Outward: H at the leg's end = H at leg 1's end − value. Filled in place.
 */
export interface TeeHeads {
  /** towards the branch */
  branch: number;
  /** ∂branch/∂s1, ∂branch/∂s2 */
  branch1: number;
  branch2: number;
  /** towards run leg 2 */
  run: number;
  run1: number;
  run2: number;
}

const k: TeeCoefficients = { branch: 0, branchSlope: 0, run: 0, runSlope: 0 };
const at1: TeeCoefficients = { branch: 0, branchSlope: 0, run: 0, runSlope: 0 };

/**
 * Heads in a tee for every sign state of its leg flows. The branch flow is what the run legs leave over,
 * s_b = −(s1 + s2), so the sign pattern is always one of the six that exist.
 *
 * One run leg combined: the set's coefficients, mirrored when flow reverses. Both run legs into the branch,
 * on the branch's velocity head, x a run leg's share: K = a²[Kdb(1) − Kdr(1)(1−x)² − 2x(1−x)]. The branch
 * into both: K = a²[Kcb(1) − Kcr(1)(1−x)²]. No source has coefficients in this form for these two; these are
 * continuous with their neighbours. A capped run end is s2 = 0, and then r = 1.
 *
 * Heads relative to leg 1, not to the combined leg, because the combined leg changes from state to state and
 * the differences do not jump.
 *
 * @param set   which coefficients
 * @param shape of the tee
 * @param s1    mass flow from run leg 1 into the tee (any unit)
 * @param s2    the same from run leg 2
 * @param out   receives heads in units of flow²
 */
export function teeHeads(set: SplitTeeSet, shape: TeeShape, s1: number, s2: number, out: TeeHeads): void {
  const sb = -(s1 + s2);
  if (s1 > 0 && s2 > 0) bothIn(set, shape, s1, s2, out);
  else if (s1 < 0 && s2 < 0) bothOut(set, shape, s1, s2, out);
  else if (s1 === 0 && s2 === 0) {
    out.branch = out.branch1 = out.branch2 = 0;
    out.run = out.run1 = out.run2 = 0;
  } else {
    // one run leg carries the combined flow: the larger
    const leg1 = Math.abs(s1) >= Math.abs(s2);
    const c = leg1 ? s1 : s2;
    const other = leg1 ? s2 : s1;
    const r = Math.min(1, Math.max(0, 1 + other / c));
    if (sb <= 0) dividingTee(set, shape, r, k);
    else combiningTee(set, shape, r, k);
    // dividing: H falls from the combined leg by K; combining: it rises against the flow by K
    const sign = sb <= 0 ? c * c : -c * c;
    const slope = sb <= 0 ? 1 : -1;
    const branch = sign * k.branch;
    const run = sign * k.run;
    // K(r)·c², r = 1 + other/c: ∂/∂c = 2Kc − K'·other, ∂/∂other = K'·c
    const branchC = slope * (2 * k.branch * c - k.branchSlope * other);
    const branchO = slope * k.branchSlope * c;
    const runC = slope * (2 * k.run * c - k.runSlope * other);
    const runO = slope * k.runSlope * c;
    if (leg1) {
      out.branch = branch;
      out.branch1 = branchC;
      out.branch2 = branchO;
      out.run = run;
      out.run1 = runC;
      out.run2 = runO;
    } else {
      out.branch = branch - run;
      out.branch1 = branchO - runO;
      out.branch2 = branchC - runC;
      out.run = -run;
      out.run1 = -runO;
      out.run2 = -runC;
    }
  }
}

function bothIn(set: SplitTeeSet, shape: TeeShape, s1: number, s2: number, out: TeeHeads): void {
  dividingTee(set, shape, 1, at1);
  const sum = s1 + s2;
  out.branch = at1.branch * sum * sum - at1.run * s2 * s2 - 2 * s1 * s2;
  out.branch1 = 2 * at1.branch * sum - 2 * s2;
  out.branch2 = 2 * at1.branch * sum - 2 * at1.run * s2 - 2 * s1;
  out.run = at1.run * (s1 * s1 - s2 * s2);
  out.run1 = 2 * at1.run * s1;
  out.run2 = -2 * at1.run * s2;
}

function bothOut(set: SplitTeeSet, shape: TeeShape, s1: number, s2: number, out: TeeHeads): void {
  combiningTee(set, shape, 1, at1);
  const sum = s1 + s2;
  out.branch = -(at1.branch * sum * sum - at1.run * s2 * s2);
  out.branch1 = -2 * at1.branch * sum;
  out.branch2 = -2 * at1.branch * sum + 2 * at1.run * s2;
  out.run = at1.run * (s2 * s2 - s1 * s1);
  out.run1 = -2 * at1.run * s1;
  out.run2 = 2 * at1.run * s2;
}

/** Which leg carries the combined flow: 0 branch, 1 run leg 1, 2 run leg 2. */
export function combinedLeg(s1: number, s2: number): 0 | 1 | 2 {
  if (s1 * s2 > 0) return 0;
  return Math.abs(s1) >= Math.abs(s2) ? 1 : 2;
}

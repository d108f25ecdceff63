import { DomainError } from '../numeric/errors';
import { ramp, smoothstep, smoothstepSlope } from '../numeric/interpolation';

/** Sets whose coefficients depend on the split. */
export type SplitTeeSet = 'default' | 'gardel' | 'ideal';

/** What the coefficients need to know of a tee, worked out once. */
export interface TeeShape {
  /** branch area / header area [–] */
  readonly a: number;
  /** 1/a² */
  readonly inverseSquare: number;
  /** dividing branch: H, on w² */
  readonly h: number;
  /** dividing branch: G = 1 + g·r² */
  readonly g: number;
  /** dividing run: share of the form for large a */
  readonly runHigh: number;
  /** combining branch: share of C's form for large a */
  readonly cHigh: number;
}

/** Coefficients of branch and run with their slopes in r; filled in place. */
export interface TeeCoefficients {
  branch: number;
  branchSlope: number;
  run: number;
  runSlope: number;
}

/**
 * Shape of a 90° sharp tee, with the windows that bridge the breaks of the published default set: C from low
 * to high over a 0.30–0.45, the run factor over a 0.35–0.45, H over diameter ratio 2/3–1, G over a 2/3 ± 0.05.
 *
 * @param areaRatio branch area / header area [–], > 0
 * @throws {DomainError} outside that range
 */
export function teeShape(areaRatio: number): TeeShape {
  const a = areaRatio;
  if (!(a > 0 && a < Infinity)) throw new DomainError('area ratio of a tee', a, '(0, ∞)');
  return {
    a,
    inverseSquare: 1 / (a * a),
    h: 1 - 0.7 * ramp(Math.sqrt(a), 2 / 3, 1),
    g: 0.3 * ramp(a, 2 / 3 - 0.05, 2 / 3 + 0.05),
    runHigh: ramp(a, 0.35, 0.45),
    cHigh: ramp(a, 0.3, 0.45),
  };
}

/**
 * Coefficients of total pressure for water leaving through the branch, on the velocity head of the combined
 * leg. Default: Idelchik's form as published in Crane TP-410 (2009); Gardel 1957 (from memory); ideal momentum.
 *
 * @param set   which set
 * @param shape from {@link teeShape}
 * @param r     branch flow / combined flow [–], 0…1, unchecked
 * @param out   receives the coefficients
 * @example // default, a 0.149234, r 0.5: branch 12.22548, run 0.1
 */
export function dividingTee(set: SplitTeeSet, shape: TeeShape, r: number, out: TeeCoefficients): void {
  const { a, inverseSquare } = shape;
  const s = 1 - r;
  if (set === 'default') {
    const body = 1 + shape.h * inverseSquare * r * r;
    const g = 1 + shape.g * r * r;
    out.branch = g * body;
    out.branchSlope = 2 * r * (shape.g * body + g * shape.h * inverseSquare);
    const low = 0.4 * r * r;
    const factor = r <= 0.5 ? 2 : 0.3;
    const high = factor * (2 * r - 1) * r * r;
    out.run = low + shape.runHigh * (high - low);
    const lowSlope = 0.8 * r;
    out.runSlope = lowSlope + shape.runHigh * (factor * (6 * r * r - 2 * r) - lowSlope);
  } else if (set === 'gardel') {
    const k2 = 1 + (0.4 - 0.1 * a) * inverseSquare;
    const k1 = (0.4 * (1 + a)) / a;
    out.branch = 0.95 * s * s + k2 * r * r + k1 * r * s;
    out.branchSlope = -1.9 * s + 2 * k2 * r + k1 * (1 - 2 * r);
    out.run = 0.03 * s * s + 0.35 * r * r - 0.2 * r * s;
    out.runSlope = -0.06 * s + 0.7 * r - 0.2 * (1 - 2 * r);
  } else {
    out.branch = 1 + 0.5 * inverseSquare * r * r;
    out.branchSlope = inverseSquare * r;
    out.run = 0;
    out.runSlope = 0;
  }
}

/**
 * Coefficients of total pressure for water entering through the branch, as {@link dividingTee}. Negative ones
 * are real: the faster stream drags the slower.
 *
 * @param set   which set
 * @param shape from {@link teeShape}
 * @param r     branch flow / combined flow [–], 0…1, unchecked
 * @param out   receives the coefficients
 * @example // default, a 0.149234, r 0.5: branch 11.72548, run 0.525
 */
export function combiningTee(set: SplitTeeSet, shape: TeeShape, r: number, out: TeeCoefficients): void {
  const { a, inverseSquare } = shape;
  const s = 1 - r;
  if (set === 'default') {
    const body = 1 + inverseSquare * r * r - 2 * s * s;
    const bodySlope = 2 * inverseSquare * r + 4 * s;
    const c = combiningFactor(shape, r, out);
    out.branchSlope = out.branchSlope * body + c * bodySlope;
    out.branch = c * body;
    out.run = 1.55 * r - r * r;
    out.runSlope = 1.55 - 2 * r;
  } else if (set === 'gardel') {
    const k2 = 1.2 - 0.8 * (1 - inverseSquare);
    const k1 = 2 - a;
    out.branch = -0.92 * s * s + k2 * r * r + k1 * r * s;
    out.branchSlope = 1.84 * s + 2 * k2 * r + k1 * (1 - 2 * r);
    const run2 = 0.62 + 0.38 * (1 - a);
    out.run = 0.03 * s * s + run2 * r * r + k1 * r * s;
    out.runSlope = -0.06 * s + 2 * run2 * r + k1 * (1 - 2 * r);
  } else {
    out.branch = 1 + inverseSquare * r * r - 2 * s * s;
    out.branchSlope = 2 * inverseSquare * r + 4 * s;
    out.run = 2 * r - r * r;
    out.runSlope = 2 - 2 * r;
  }
}

/** C of the default set; its slope is left in `out.branchSlope`. */
function combiningFactor(shape: TeeShape, r: number, out: TeeCoefficients): number {
  const start = smoothstep(r / 0.05);
  const later = smoothstep((r - 0.35) / 0.1);
  const early = 0.9 * (1 - r);
  const high = early + later * (0.55 - early);
  const highSlope = -0.9 * (1 - later) + (smoothstepSlope((r - 0.35) / 0.1) / 0.1) * (0.55 - early);
  const settled = shape.cHigh * (high - 1);
  out.branchSlope = (smoothstepSlope(r / 0.05) / 0.05) * settled + start * shape.cHigh * highSlope;
  return 1 + start * settled;
}

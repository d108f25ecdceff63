import { DomainError } from '../numeric/errors';
import { askedDrainingFall, leastDrainingFall, type SpanKind, spanShape } from './sag';

/** Run of pipe that should empty itself. */
export interface DrainRun {
  readonly id: string;
  /** what it is, so that a finding can say which way the fall runs */
  readonly part: 'tube' | 'header' | 'pipe';
  readonly length_m: number;
  readonly bore_m: number;
  /** fall per length towards the end where water can leave; negative runs away from it [m/m] */
  readonly fall: number;
  /** clear span between supports [m] */
  readonly span_m: number;
  /** sag over that span [m] */
  readonly sag_m: number;
  readonly spanKind: SpanKind;
  /** air can enter at the high end or above it */
  readonly airAbove: boolean;
  /** the low end leads to the pool or to an open drain */
  readonly wayOpen: boolean;
  /** alike runs, counted together; 1 when left out */
  readonly count?: number;
}

export type DrainVerdict = 'drains' | 'doubtful' | 'holds';
export type DrainCause = 'none' | 'noWay' | 'noAir' | 'level' | 'awayFromDrain' | 'sag';

export interface DrainFinding {
  readonly id: string;
  readonly part: DrainRun['part'];
  readonly verdict: DrainVerdict;
  readonly cause: DrainCause;
  readonly fall: number;
  /** fall from which a straight pipe drains [m/m] */
  readonly least: number;
  /** fall to build to [m/m] */
  readonly asked: number;
  /** water that stays in all runs of this kind [m³] */
  readonly stays_m3: number;
}

/** Which way a panel's fall empties: tubes, headers, both, or nothing. */
export type FallDirection = 'both' | 'tubesOnly' | 'headersOnly' | 'neither';

export interface DrainReport {
  readonly verdict: DrainVerdict;
  readonly direction: FallDirection;
  readonly findings: readonly DrainFinding[];
  readonly staysInTubes_m3: number;
  readonly staysInHeaders_m3: number;
  readonly staysInPipes_m3: number;
}

/** Part of a circle filled to a depth [m²]; the whole circle from depth = bore on. */
function wettedArea(depth: number, bore: number): number {
  if (depth <= 0) return 0;
  const r = bore / 2;
  if (depth >= bore) return Math.PI * r * r;
  const φ = Math.acos(1 - depth / r);
  return r * r * (φ - Math.sin(φ) * Math.cos(φ));
}

/**
 * Water left standing in one run after it has drained as far as it can: from the low end upward, every point
 * stands full to the highest invert between it and the way out. Films and drops are not counted.
 *
 * @param run its length, bore, fall, spans and sag
 * @returns [m³]
 * @throws {DomainError} when a length is not positive, or sag or fall is not finite
 * @example standingWater({ ...halfInchTube, fall: 0, sag_m: 0.0017, span_m: 0.762 }) // 4e-5 over 3.05 m
 */
export function standingWater(run: DrainRun): number {
  checkRun(run);
  const spans = Math.max(1, Math.round(run.length_m / run.span_m));
  const perSpan = 40;
  const steps = spans * perSpan;
  const dx = run.length_m / steps;
  let highest = -Infinity;
  let volume = 0;
  // From the way out upward, at mid-steps; the support points between spans are lips.
  for (let i = 0; i < steps; i++) {
    const x = (i + 0.5) * dx;
    if (i % perSpan === 0) highest = Math.max(highest, run.fall * i * dx);
    const invert = run.fall * x - run.sag_m * spanShape(((i % perSpan) + 0.5) / perSpan, run.spanKind);
    highest = Math.max(highest, invert);
    volume += wettedArea(highest - invert, run.bore_m) * dx;
  }
  return volume;
}

function checkRun(run: DrainRun): void {
  for (const [name, value] of [
    ['length', run.length_m],
    ['bore', run.bore_m],
    ['span', run.span_m],
  ] as const)
    if (!(value > 0 && value < Infinity)) throw new DomainError(name, value, '(0, ∞) m');
  if (!(run.sag_m >= 0 && run.sag_m < Infinity)) throw new DomainError('sag', run.sag_m, '[0, ∞) m');
  if (!Number.isFinite(run.fall)) throw new DomainError('fall', run.fall, 'finite');
}

/** Judges one run; `heightError` as in `askedDrainingFall`. */
function judgeRun(run: DrainRun, heightError: number): DrainFinding {
  checkRun(run);
  const least = leastDrainingFall(run.sag_m, run.span_m, run.spanKind);
  const asked = askedDrainingFall(run.sag_m, run.span_m, heightError);
  const full = (Math.PI / 4) * run.bore_m ** 2 * run.length_m;
  const cause: DrainCause = !run.wayOpen
    ? 'noWay'
    : !run.airAbove
      ? 'noAir'
      : run.fall < 0
        ? 'awayFromDrain'
        : run.fall === 0
          ? 'level'
          : run.fall < asked
            ? 'sag'
            : 'none';
  const verdict: DrainVerdict =
    cause === 'none' ? 'drains' : cause === 'sag' && run.fall >= least ? 'doubtful' : 'holds';
  const one = cause === 'noWay' || cause === 'noAir' ? full : verdict === 'drains' ? 0 : standingWater(run);
  const { id, part, fall } = run;
  return { id, part, verdict, cause, fall, least, asked, stays_m3: one * (run.count ?? 1) };
}

/**
 * Whether a panel and its pipes empty themselves, by the rule: fall at least 4 × sag/span beyond the height
 * error of the supports; air can enter above; a way to the pool or to a drain is open; headers fall too. Fall
 * across the tubes empties headers, not tubes: `direction` says which.
 *
 * @param runs        every tube, header and pipe that should empty, alike ones counted together
 * @param heightError of a support, either way [m], ≥ 0
 * @throws {DomainError} when a run has no length, or the error is negative
 * @example judgeDrain([tubes, headers], 0.002).direction // 'headersOnly'
 */
export function judgeDrain(runs: readonly DrainRun[], heightError: number): DrainReport {
  const findings = runs.map((run) => judgeRun(run, heightError));
  const rank: Record<DrainVerdict, number> = { drains: 0, doubtful: 1, holds: 2 };
  const verdict = findings.reduce<DrainVerdict>(
    (worst, f) => (rank[f.verdict] > rank[worst] ? f.verdict : worst),
    'drains',
  );
  const falls = (part: DrainRun['part']) =>
    findings.filter((f) => f.part === part).every((f) => f.fall > 0 && f.fall >= f.least);
  const stays = (part: DrainRun['part']) =>
    findings.filter((f) => f.part === part).reduce((sum, f) => sum + f.stays_m3, 0);
  return {
    verdict,
    direction: falls('tube')
      ? falls('header')
        ? 'both'
        : 'tubesOnly'
      : falls('header')
        ? 'headersOnly'
        : 'neither',
    findings,
    staysInTubes_m3: stays('tube'),
    staysInHeaders_m3: stays('header'),
    staysInPipes_m3: stays('pipe'),
  };
}

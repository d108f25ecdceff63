import type { PoolState } from '../pool/step';
import { type CollectorRun, type CollectorStanding, emptyRun, type SeasonCollector } from './collector';
import { type CollectorLine, emptyStepHeat, type LineRoom, lineRoom, type StepHeat } from './pool-line';
import type { ValveState } from './run-plan';

/** Both pools, the valve, and what stands behind it. */
export interface Pools {
  with: PoolState;
  without: PoolState;
  readonly valve: ValveState;
  readonly stores: readonly Store[];
}

/** Water that stands while the valve is shut: in the panel first, then in the pipes to and from it. */
export interface Store {
  readonly holds_JK: number;
  readonly standing: (step: number, out: CollectorStanding) => void;
  /** Mean temperature of what it holds [°C], and the time at which it was that [steps since the run began]. */
  stored_C: number;
  known: number;
  /** At the start of the year, and at its end [°C]. */
  start_C: number;
  end_C: number;
}

/** What a collector holds: panel, then pipes. */
export function storesOf(collector: SeasonCollector | null): Store[] {
  if (!collector) return [];
  const parts = collector.pipes ? [collector, collector.pipes] : [collector];
  return parts.map((part) => ({
    holds_JK: part.holds_JK,
    standing: (step, out) => part.standing(step, out),
    stored_C: Number.NaN,
    known: -Infinity,
    start_C: Number.NaN,
    end_C: Number.NaN,
  }));
}

/** What a step works in; filled anew each time. */
export interface Work {
  readonly heat: StepHeat;
  readonly run: CollectorRun;
  readonly standing: CollectorStanding;
  readonly line: CollectorLine;
  /** Share of the step in which it ran, rests between one flush and the next counted [–]. */
  working: number;
  readonly room: LineRoom;
}

export function newWork(): Work {
  return {
    heat: emptyStepHeat(),
    run: emptyRun(),
    standing: { standing_C: 0, tau_s: 1 },
    line: { heat_J: 0, slope_JK: 0 },
    working: 0,
    room: lineRoom(),
  };
}

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
  /** Step in which water last ran. */
  stoppedAt: number;
}

/** Water that stands while the valve is shut: in the panel first, then in the pipes to and from it. */
export interface Store {
  readonly holds_JK: number;
  readonly standing: (step: number, out: CollectorStanding) => void;
  /** Mean temperature of what it held when the water stopped, at the start of the year, and at its end [°C]. */
  stored_C: number;
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
  readonly room: LineRoom;
}

export function newWork(): Work {
  return {
    heat: emptyStepHeat(),
    run: emptyRun(),
    standing: { standing_C: 0, tau_s: 1 },
    line: { heat_J: 0, slope_JK: 0 },
    room: lineRoom(),
  };
}

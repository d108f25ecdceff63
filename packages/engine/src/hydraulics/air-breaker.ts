import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';
import type { PreparedAir } from './air-states';
import type { AirSolution } from './air-types';
import type { SolveOptions } from './network-types';
import { pumpedFlow, withPumpSpeed } from './start-speed';

/** The loop with the breaker held in one of its states. */
export interface BreakerPoint {
  /** whether it can stay so by itself */
  readonly holds: boolean;
  readonly flow_m3s: number;
  /** gauge pressure at the breaker [Pa]; open: what a full down-leg would have there */
  readonly pressure_Pa: number;
  readonly solution: AirSolution;
}

export interface BreakerReport {
  /** 'either': it stays as it was, until something changes it */
  readonly state: 'closed' | 'open' | 'either';
  readonly closed: BreakerPoint;
  readonly open: BreakerPoint;
  /** suction left before it opens [Pa]; negative when it cannot stay closed */
  readonly margin_Pa: number;
  /** speed under which it opens; null when it stays closed, or opens, at every speed looked at */
  readonly opensBelowSpeed: number | null;
}

/**
 * Both operating points of a vacuum breaker. Closed, the pipe below it is a full siphon that gives back the
 * lift; open, gauge pressure there is zero, the down-leg runs part-full, and the pump carries the whole lift.
 * Less flow loses less head on the way down, so that suction at the breaker grows as the pump turns down: there
 * is a speed under which it opens.
 *
 * @param air       network and layout; left at the speed it had
 * @param space     place of the space whose inlet is the breaker
 * @param pumps     places of the pump links that turn together
 * @param mostSpeed the highest speed looked at, > 0
 * @param solve     options of the network solver
 * @throws {DomainError} when the space has no inlet, or the speed is not positive
 */
export function studyBreaker(
  air: PreparedAir,
  space: number,
  pumps: readonly number[],
  mostSpeed: number,
  solve: SolveOptions = {},
): BreakerReport {
  const inlet = air.layout.spaces[space]?.inlet;
  if (!inlet) throw new DomainError('space of a vacuum breaker', space, 'one with an air inlet');
  if (!(mostSpeed > 0 && mostSpeed < Infinity)) throw new DomainError('highest speed', mostSpeed, '(0, ∞)');
  const network = air.description;

  const around = air.solve({ solve }).memory.open;
  const held = (open: boolean): BreakerPoint => {
    const before = { open: around.map((other, s) => (s === space ? open : other)) };
    const solution = air.solve({ solve, before, hold: true });
    const pressure_Pa = solution.spaces[space]!.inletPressure_Pa!;
    return {
      holds: solution.converged && (open ? pressure_Pa < 0 : pressure_Pa >= -inlet.openPressure_Pa),
      flow_m3s: pumpedFlow(air.description, pumps, solution.solution),
      pressure_Pa,
      solution,
    };
  };
  const margin = (speed: number): number => {
    air.update(withPumpSpeed(network, pumps, speed));
    return held(false).pressure_Pa + inlet.openPressure_Pa;
  };

  const closed = held(false);
  const open = held(true);
  const opensBelowSpeed = highestCrossing(margin, mostSpeed);
  air.update(network);
  return {
    state: closed.holds ? (open.holds ? 'either' : 'closed') : 'open',
    closed,
    open,
    margin_Pa: closed.pressure_Pa + inlet.openPressure_Pa,
    opensBelowSpeed,
  };
}

/** The highest speed at which the margin turns from negative to positive; null when there is none. */
function highestCrossing(margin: (speed: number) => number, mostSpeed: number): number | null {
  const steps = 12;
  if (margin(mostSpeed) < 0) return null;
  for (let k = steps - 1; k >= 1; k--) {
    const speed = (mostSpeed * k) / steps;
    if (margin(speed) >= 0) continue;
    return findRoot(margin, speed, (mostSpeed * (k + 1)) / steps, 1e-4 * mostSpeed).root;
  }
  return null;
}

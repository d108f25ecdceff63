import { DomainError } from '../numeric/errors';
import { STANDING } from './air-changes';
import type { PreparedAir } from './air-states';
import type { AirCause, AirGuess, AirMemory, AirSolution } from './air-types';
import type { SolveOptions } from './network-types';
import { pumpedFlow, withPumpSpeed } from './start-speed';

export interface StartOptions {
  /** places of the pump links that turn together */
  readonly pumps: readonly number[];
  /** highest speed looked at; above the pump's own, to say how much stronger one would have to be */
  readonly mostSpeed: number;
  /** share of the mean tube flow that every tube should carry [–], 0…1 */
  readonly share: number;
  /** speeds looked at between 0 and the highest; 10 when left out */
  readonly speeds?: number;
  /** how exactly a speed is found, over the highest; 0.005 when left out */
  readonly resolution?: number;
  readonly solve?: SolveOptions;
  /** whether a running state is acceptable in other respects, e.g. its lowest pressure; yes when left out */
  readonly acceptable?: (solution: AirSolution) => boolean;
}

/** When one path comes alive. */
export interface PathStart {
  readonly path: string;
  /** least speed at which all its tubes carry water after a start from empty; null when none does it */
  readonly aliveAtSpeed: number | null;
  /** pumped flow then [m³/s] */
  readonly aliveAtFlow_m3s: number | null;
  /** least speed at which it also rids itself of the air it started with; null when none does it */
  readonly clearsAtSpeed: number | null;
  /** pumped flow then [m³/s] */
  readonly clearsAtFlow_m3s: number | null;
  /** speed down to which it keeps running once it does; null when it never ran */
  readonly runsDownToSpeed: number | null;
  /** pumped flow then [m³/s] */
  readonly runsDownToFlow_m3s: number | null;
  /** what keeps it from starting at the highest speed; 'none' when it starts */
  readonly cause: AirCause;
  /** head lacking to its worst tube's crown at the highest speed [m] */
  readonly missingLift_m: number;
}

export interface StartReport {
  readonly paths: readonly PathStart[];
  /** least speed at which every path comes alive from empty, and no trapped air stays in any */
  readonly leastStartSpeed: number | null;
  /** least speed at which every path keeps running, turned down from the highest */
  readonly leastRunSpeed: number | null;
  /** 'start': turned down from what a start at the highest speed filled; 'filled': from a loop filled some other way */
  readonly runsFrom: 'start' | 'filled';
  /** least pumped flow, after a start from empty, at which every tube carries the share of the mean */
  readonly leastFlowAllTubes_m3s: number | null;
  readonly leastSpeedAllTubes: number | null;
  /** false: some state along the way was not found, and its speed was counted as not enough */
  readonly converged: boolean;
  /** network solutions it took */
  readonly solves: number;
}

interface Trial {
  readonly flow_m3s: number;
  readonly alive: ReadonlySet<string>;
  /** alive, and no space that air cannot leave holds any */
  readonly clear: ReadonlySet<string>;
  readonly leastShare: number;
  readonly solution: AirSolution;
}

/**
 * Will it fill? Starting and running are two checks. From empty, every space that can hold air holds it, and no
 * siphon helps: water must be lifted over each crown, and the head lost through the paths already running is
 * all there is to lift it into the next. A path that runs clears itself of air when its down-leg is fast enough,
 * and is a siphon from then on. Turned down afterwards, what is full may stay full at speeds that could not have
 * started it.
 *
 * Speeds are looked at in equal steps and then halved between the last that fails and the first that does not.
 * A path that is alive at some speed, and starved again at a higher one because another started beside it,
 * counts as alive from its first speed on.
 *
 * @param air     network and layout; left at the speed it had
 * @param options pumps, highest speed, share
 * @throws {DomainError} for a speed that is not positive or a share outside 0…1
 */
export function studyStart(air: PreparedAir, options: StartOptions): StartReport {
  const { pumps, mostSpeed, share, speeds = 10, resolution = 0.005, solve = {}, acceptable } = options;
  if (!(mostSpeed > 0 && mostSpeed < Infinity)) throw new DomainError('highest speed', mostSpeed, '(0, ∞)');
  if (!(share >= 0 && share <= 1)) throw new DomainError('share', share, '[0, 1]');
  if (!(Number.isInteger(speeds) && speeds >= 1)) throw new DomainError('speeds', speeds, '1, 2, …');
  if (!(resolution > 0 && resolution < 1)) throw new DomainError('resolution', resolution, '(0, 1)');
  const network = air.description;
  const names = [
    ...new Set(air.layout.tubes.flatMap(({ path, mark }) => (mark === undefined ? [path] : []))),
  ];
  let solves = 0;
  let converged = true;

  const attempt = (speed: number, before: 'empty' | 'full' | AirMemory, guess?: AirGuess | null): Trial => {
    air.update(withPumpSpeed(network, pumps, speed));
    const solution = air.solve({ solve, before, ...(guess ? { guess } : {}) });
    solves += solution.solves;
    converged &&= solution.converged;
    const flow_m3s = pumpedFlow(network, pumps, solution.solution);
    return { flow_m3s, solution, ...tubesAlive(air, solution) };
  };
  const starts = new Map<number, Trial>();
  const started = (speed: number): Trial => {
    const known = starts.get(speed);
    if (known) return known;
    const nearest = [...starts.keys()].sort((a, b) => Math.abs(a - speed) - Math.abs(b - speed))[0];
    const trial = attempt(speed, 'empty', nearest === undefined ? null : starts.get(nearest)!.solution.first);
    starts.set(speed, trial);
    return trial;
  };
  const grid = Array.from({ length: speeds }, (_, k) => (mostSpeed * (k + 1)) / speeds);

  /** Least speed at which a start from empty gives something. */
  const leastStart = (enough: (trial: Trial) => boolean): number | null => {
    const first = grid.findIndex((speed) => enough(started(speed)));
    if (first < 0) return null;
    let low = first === 0 ? 0 : grid[first - 1]!;
    let high = grid[first]!;
    while (high - low > resolution * mostSpeed) {
      const middle = (low + high) / 2;
      if (enough(started(middle))) high = middle;
      else low = middle;
    }
    return high;
  };

  const all = (trial: Trial) => names.every((name) => trial.alive.has(name));
  const allClear = (trial: Trial) => names.every((name) => trial.clear.has(name));
  const top = started(mostSpeed);
  const runsFrom = allClear(top) ? 'start' : 'filled';

  // turning down: each step remembers the one before
  const running: { readonly speed: number; readonly trial: Trial }[] = [];
  let memory: AirMemory | 'full' = runsFrom === 'start' ? top.solution.memory : 'full';
  for (const speed of [...grid].reverse()) {
    const trial = attempt(speed, memory);
    running.push({ speed, trial });
    memory = trial.solution.memory;
  }
  const leastRun = (enough: (trial: Trial) => boolean): { speed: number; trial: Trial } | null => {
    const lost = running.findIndex(({ trial }) => !enough(trial));
    if (lost === 0) return null;
    let kept = running[lost < 0 ? running.length - 1 : lost - 1]!;
    let low = lost < 0 ? 0 : running[lost]!.speed;
    while (kept.speed - low > resolution * mostSpeed) {
      const speed = (kept.speed + low) / 2;
      const trial = attempt(speed, kept.trial.solution.memory);
      if (enough(trial)) kept = { speed, trial };
      else low = speed;
    }
    return kept;
  };

  const paths = names.map((path): PathStart => {
    const has = (trial: Trial) => trial.alive.has(path);
    const speed = leastStart(has);
    const clear = leastStart((trial) => trial.clear.has(path));
    const run = leastRun(has);
    return {
      path,
      aliveAtSpeed: speed,
      aliveAtFlow_m3s: speed === null ? null : started(speed).flow_m3s,
      clearsAtSpeed: clear,
      clearsAtFlow_m3s: clear === null ? null : started(clear).flow_m3s,
      runsDownToSpeed: run?.speed ?? null,
      runsDownToFlow_m3s: run?.trial.flow_m3s ?? null,
      ...(clear === null ? whyDry(air, path, top.solution) : { cause: 'none', missingLift_m: 0 }),
    };
  });
  const even = leastStart((trial) => all(trial) && trial.leastShare >= share);
  const report: StartReport = {
    paths,
    leastStartSpeed: leastStart(allClear),
    leastRunSpeed:
      leastRun((trial) => all(trial) && (acceptable === undefined || acceptable(trial.solution)))?.speed ??
      null,
    runsFrom,
    leastFlowAllTubes_m3s: even === null ? null : started(even).flow_m3s,
    leastSpeedAllTubes: even,
    converged,
    solves,
  };
  air.update(network);
  return report;
}

/** Paths whose every tube carries water, and the least flow over the mean, over tubes that can flow. */
function tubesAlive(air: PreparedAir, solution: AirSolution): Pick<Trial, 'alive' | 'clear' | 'leastShare'> {
  const alive = new Set(air.layout.tubes.map((tube) => tube.path));
  if (!solution.converged) return { alive: new Set(), clear: new Set(), leastShare: 0 };
  let least = Infinity;
  let sum = 0;
  let count = 0;
  for (const tube of air.layout.tubes) {
    if (tube.mark !== undefined) continue;
    const flow = (tube.discharge === 'to' ? 1 : -1) * solution.solution.flow_kgs[tube.link]!;
    least = Math.min(least, flow);
    sum += flow;
    count++;
    if (!(flow > STANDING)) alive.delete(tube.path);
  }
  const clear = new Set(alive);
  for (const { path, space } of air.layout.tubes)
    if (space !== null && solution.spaces[space]!.open && air.layout.spaces[space]!.inlet === null)
      clear.delete(path);
  return { alive, clear, leastShare: sum > 0 ? (least * count) / sum : 0 };
}

function whyDry(
  air: PreparedAir,
  path: string,
  solution: AirSolution,
): Pick<PathStart, 'cause' | 'missingLift_m'> {
  let worst: Pick<PathStart, 'cause' | 'missingLift_m'> = { cause: 'none', missingLift_m: -1 };
  for (const [t, tube] of air.layout.tubes.entries()) {
    if (tube.path !== path) continue;
    const { cause, missingLift_m } = solution.tubes[t]!;
    if (cause !== 'none' && missingLift_m > worst.missingLift_m) worst = { cause, missingLift_m };
  }
  return { cause: worst.cause, missingLift_m: Math.max(0, worst.missingLift_m) };
}

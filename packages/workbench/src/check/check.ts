import { type Notice, rankNotices, type Severity } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { type FlowStudyOptions, studyFlow } from '../flow/flow';
import { type SolvedFlow, solveFlow } from '../flow/flow-basic';
import { type Say, sayIn } from '../flow/say';
import { createLoopSolver } from '../flow/solver';
import { hotNotices } from '../heat/heat-notices';
import { hottestAir_C } from '../heat/hottest-air';
import { hottestDry_C } from '../heat/hottest-dry';
import type { Answer } from '../results';
import { asItStands } from '../state/standing';
import { leakThrough } from './leak';

export interface CheckValues {
  /** Notices by rank. */
  counts: Record<Severity, number>;
  /** What dry tubes reach at a calm, clear midsummer noon [°C]. */
  hottestDry_C: number;
  /** What is pumped out through a leak while nobody is there. */
  leak: { volume_m3: number; levelFall_m: number; downTo: string | null; endless: boolean };
}

export type CheckAnswer = Answer<CheckValues>;

/**
 * Everything a project says that does not fit together, and everything in its running that the person should
 * know: structure, tubes, air, pressures, suction, start-up, drains, heat without water.
 *
 * @example check(project).notices[0].message
 */
export function check(given: Project, options: FlowStudyOptions = {}): CheckAnswer {
  const project = asItStands(given);
  const solver = options.solver ?? createLoopSolver();
  const solved = solveFlow(project, { ...options, solver });
  const study = studyFlow(project, solved, { ...options, solver });
  const say = sayIn(project.units);
  const hot = hottestDry_C(project, hottestAir_C(project), options.tables);
  const leak = leakOf(project, solved);
  const notices = rankNotices([
    ...study.notices,
    ...hotNotices(project, { flow: solved }, { dryStanding_C: hot }, say),
    ...leakNotices(project, leak, say),
  ]);
  const counts: Record<Severity, number> = { safety: 0, damage: 0, heat: 0, unsure: 0, info: 0 };
  for (const n of notices) counts[n.severity]++;
  return {
    result: { counts, hottestDry_C: hot, leak },
    solver: study.solver,
    band: study.band,
    notices,
    complete: study.complete,
  };
}

function leakOf(project: Project, solved: SolvedFlow): CheckValues['leak'] {
  // of a running pump those that draw; of a stopped one all count as open
  const { volume_m3, levelFall_m, downTo, endless } = leakThrough(project, (i) => {
    const flow = solved.solution.network.flow_kgs[solved.assembled.suctions[i].first];
    return !(solved.speed > 0) || flow > 1e-9;
  });
  return { volume_m3, levelFall_m, downTo, endless };
}

function leakNotices(project: Project, leak: CheckValues['leak'], say: Say): Notice[] {
  if (leak.downTo === null) return [];
  const suction = project.loop.suctions.find((s) => s.id === leak.downTo);
  const name = suction?.name ?? leak.downTo;
  const deep = suction?.kind !== 'skimmer';
  return [
    {
      code: 'leak-would-pump-out',
      severity: deep || leak.endless ? 'damage' : 'info',
      path: leak.endless ? '/pool/automaticMakeUp' : '/loop/suctions',
      message: leak.endless
        ? `If the collector leaks while nobody is there, automatic make-up keeps feeding the leak without end.`
        : `If the collector leaks while nobody is there, the pump lowers the pool by ${say(leak.levelFall_m, 'length')} (${say(leak.volume_m3, 'volume')}), down to ${name}, and then runs dry: nothing stops it.`,
      remedy:
        deep || leak.endless
          ? 'Run the collector only while someone is there, and shut automatic make-up meanwhile.'
          : 'Look at the panel before leaving it to run.',
    },
  ];
}

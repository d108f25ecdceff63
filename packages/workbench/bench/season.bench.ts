import { waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { createRandom } from '@sunlap/engine/numeric/random';
import { drain } from '@sunlap/engine/season/year';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { STANDARD_TABLES } from '../src/assembly/standard-tables';
import { solveFlow } from '../src/flow/flow-basic';
import { createLoopSolver } from '../src/flow/solver';
import { loopFlows } from '../src/season/loop-flows';
import { panelLayout, panelSetup, responseStep_K } from '../src/season/panel-setup';
import { seasonSteps } from '../src/season/season';
import { createSeasonCache, type StudyOptions, studyYear } from '../src/season/study';

interface Process {
  memoryUsage(): { heapUsed: number; arrayBuffers: number };
  cpuUsage(): { user: number; system: number };
  getBuiltinModule?(name: string): unknown;
}
const node = (globalThis as { process?: Process }).process;

/** Time this process has worked, so that a busy machine does not count [ms]. */
function worked(): number {
  if (!node) return performance.now();
  const { user, system } = node.cpuUsage();
  return (user + system) / 1000;
}

/** Times of repeated calls, sorted [ms]. */
function times(rounds: number, work: (round: number) => void): number[] {
  const out: number[] = [];
  for (let k = 0; k < rounds; k++) {
    const start = worked();
    work(k);
    out.push(worked() - start);
  }
  return out.sort((a, b) => a - b);
}

function print(name: string, sorted: readonly number[]): void {
  const middle = sorted[Math.floor(sorted.length / 2)];
  console.log(`  ${name.padEnd(58)} ${sorted[0].toFixed(0)} least, ${middle.toFixed(0)} median ms`);
}

/** 8760 hours with 240 tubes, pool with and without the collector: at most 300 ms on one core, under 150 MB. */
export default function bench(): void {
  const project = startProject({ ...usualAnswers('us'), tubes: 60, passes: 4 });
  const cache = createSeasonCache();
  const run = (over: StudyOptions = {}, p = project) => drain(studyYear(p, { cache, ...over }));
  print(
    'first year: weather made, sun, views, everything',
    times(1, () => run()),
  );
  for (let k = 0; k < 4; k++) run();
  print(
    'again, nothing changed but the habits',
    times(9, (k) => run({}, { ...project, season: { ...project.season, mains_C: 12 + k / 10 } })),
  );
  print(
    'another tilt: flows and panel anew',
    times(15, (k) => {
      const { placement } = project.collector;
      const tilted = { ...project.collector, placement: { ...placement, tilt_deg: 20 + k / 10 } };
      run({}, { ...project, collector: tilted });
    }),
  );
  print(
    'no collector',
    times(9, (k) =>
      run({ change: { bare: true } }, { ...project, season: { ...project.season, mains_C: 15 + k / 10 } }),
    ),
  );
  flowError('240 tubes', project);
  flowError('45 tubes that turn from laminar', startProject({ ...usualAnswers('us'), tubes: 45, passes: 1 }));
  memory(project);
}

const MOMENTS = 60;

/** Flows as the year reads them against the loop solved again, at water temperatures that are no nodes. */
function flowError(name: string, project: Project): void {
  const flows = loopFlows(project);
  const parts = project.collector.sections.map(() => 0);
  const { response, kinds } = panelSetup(
    project,
    flows,
    panelLayout(project, flows, STANDARD_TABLES),
    parts,
  )!;
  const ordinary = new Float64Array(kinds.length).fill(1);
  const read = { effective: ordinary.slice(), inner_mKW: ordinary.slice(), capacity_WK: 0 };
  const tubes = flows.assembled.banks.flatMap((bank) => bank?.units ?? []);
  const solver = createLoopSolver();
  const random = createRandom(3);
  const step = responseStep_K(flows);
  let whole = 0;
  let mean = 0;
  let single = 0;
  for (let k = 0; k < MOMENTS; k++) {
    const water_C = 4 + 34 * random();
    const again = solveFlow(project, { solver, water_C });
    const full = again.solution.network.flow_kgs;
    const low = Math.floor(water_C / step) * step;
    const [a, b] = [flows.at(low), flows.at(low + step)];
    response.read(water_C, ordinary, read);
    const total = read.capacity_WK / waterHeatCapacity(water_C);
    whole = Math.max(whole, Math.abs(total / full[again.assembled.collectorLink] - 1));
    let off = 0;
    let size = 0;
    for (const link of tubes) {
      const gap = Math.abs(a[link] + ((water_C - low) / step) * (b[link] - a[link]) - full[link]);
      off += gap;
      size += Math.abs(full[link]);
      single = Math.max(single, gap / Math.abs(full[link]));
    }
    mean = Math.max(mean, off / size);
  }
  const percent = (x: number): string => `${(100 * x).toFixed(3)} %`;
  console.log(
    `  flows, ${name}: ${flows.nodes()} nodes; off at ${MOMENTS} random moments at most ${percent(whole)} in all, ` +
      `${percent(mean)} on the mean of the tubes, ${percent(single)} in the worst of them`,
  );
}

/** Most memory met between the pieces of the full study with its bands. */
function memory(project: Project): void {
  const v8 = node?.getBuiltinModule?.('node:v8') as { setFlagsFromString(f: string): void } | undefined;
  const vm = node?.getBuiltinModule?.('node:vm') as { runInNewContext(code: string): unknown } | undefined;
  if (!node || !v8 || !vm) return;
  v8.setFlagsFromString('--expose-gc');
  const collect = vm.runInNewContext('gc') as () => void;
  const held = (): number => {
    const { heapUsed, arrayBuffers } = node.memoryUsage();
    return (heapUsed + arrayBuffers) / 1e6;
  };
  collect();
  const before = held();
  let most = before;
  let live = before;
  let pieces = 0;
  const work = seasonSteps(project, { cache: createSeasonCache() });
  for (let next = work.next(); !next.done; next = work.next()) {
    most = Math.max(most, held());
    if (pieces++ % 60 === 0) {
      collect();
      live = Math.max(live, held());
    }
  }
  const text = (x: number): string => `${x.toFixed(0)} MB`;
  console.log(
    `  memory of the full study with its bands: at most ${text(live)} live, ${text(most)} with garbage ` +
      `(${text(before)} of it before)`,
  );
}

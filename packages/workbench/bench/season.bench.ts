import { drain } from '@sunlap/engine/season/year';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { createSeasonCache, type StudyOptions, studyYear } from '../src/season/study';

interface Process {
  memoryUsage(): { heapUsed: number; arrayBuffers: number };
  cpuUsage(): { user: number; system: number };
}
const node = (globalThis as { process?: Process; gc?: () => void }).process;
const collect = (globalThis as { gc?: () => void }).gc;

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

/** 8760 hours with 240 tubes, pool with and without the collector: at most 300 ms on one core. */
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
    times(9, () => run()),
  );
  print(
    'another tilt: flows and panel anew',
    times(9, (k) => {
      const { placement } = project.collector;
      run(
        {},
        {
          ...project,
          collector: { ...project.collector, placement: { ...placement, tilt_deg: 20 + k / 10 } },
        },
      );
    }),
  );
  print(
    'no collector',
    times(9, () => run({ change: { bare: true } })),
  );
  if (!node) return;
  collect?.();
  const { heapUsed, arrayBuffers } = node.memoryUsage();
  const left = collect ? 'kept after collection' : 'garbage included';
  console.log(`  memory ${((heapUsed + arrayBuffers) / 1e6).toFixed(0)} MB, ${left}`);
}

import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Path } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { panelGeometry } from '../assembly/geometry';
import { givenPathEnd_m } from '../assembly/heights';
import { inletHeight_m } from '../assembly/plumbing-places';
import type { Tables } from '../assembly/tables';
import { elementsOf } from '../flow/notices-loop';
import type { Say } from '../flow/say';

/** Heights that differ by less are the same to a person with a tape measure [m]. */
const SAME_HEIGHT_M = 0.1;

/** Heights of pipe ends that do not fit what they lead to, and pipes too short for their climb. */
export function heightNotices(project: Project, tables: Tables, say: Say): Notice[] {
  const { loop, collector } = project;
  const geometry = panelGeometry(collector, tables.sizes);
  const out: Notice[] = [];
  const meets = (path: Path, pointer: string, height: number | null, what: string): void => {
    const given = givenPathEnd_m(path);
    if (given === undefined || height === null || Math.abs(given - height) <= SAME_HEIGHT_M) return;
    let last = path.length - 1;
    while (last > 0 && path[last].kind !== 'pipe') last--;
    out.push({
      code: 'heights-disagree',
      severity: 'unsure',
      path: `${pointer}/${last}`,
      message: `The pipe ends ${say(given, 'length')} over the water and ${what} lies at ${say(height, 'length')}: ${say(Math.abs(given - height), 'length')} apart. The latter is taken.`,
      remedy: 'Measure both from the pool’s water and correct one.',
    });
  };
  meets(loop.toPump, '/loop/toPump', loop.pump.height_m, 'the pump');
  if (loop.filter) meets(loop.toFilter, '/loop/toFilter', loop.filter.height_m ?? null, 'the filter');
  if (collector.plumbing.before === undefined) {
    meets(
      loop.feed,
      '/loop/feed',
      inletHeight_m(collector.plumbing, collector, geometry),
      'the collector’s inlet',
    );
  }
  loop.outlets.forEach((o, i) => {
    meets(o.path, `/loop/outlets/${i}/path`, o.height_m, 'its outlet');
    if (o.kind === 'underWater' && o.height_m > (project.pool.waterLevel_m ?? 0)) {
      out.push({
        code: 'outlet-not-under-water',
        severity: 'unsure',
        path: `/loop/outlets/${i}/height_m`,
        message: `${o.name ?? o.id} is called under water and lies ${say(o.height_m, 'length')} over it; it is taken as under water.`,
        remedy: 'Correct its height or call it over water.',
      });
    }
    if (o.kind === 'overWater' && o.height_m < (project.pool.waterLevel_m ?? 0)) {
      out.push({
        code: 'outlet-not-over-water',
        severity: 'unsure',
        path: `/loop/outlets/${i}/height_m`,
        message: `${o.name ?? o.id} is called over water and lies ${say(-o.height_m, 'length')} under it; it is taken as under water.`,
        remedy: 'Correct its height or call it under water.',
      });
    }
  });
  const paths: [Path, string][] = [
    [loop.toPump, '/loop/toPump'],
    [loop.toFilter, '/loop/toFilter'],
    [loop.toBypass, '/loop/toBypass'],
    [loop.feed, '/loop/feed'],
    [loop.return, '/loop/return'],
    [loop.toPool, '/loop/toPool'],
  ];
  for (const [path, pointer] of paths) {
    for (const { element, pointer: at } of elementsOf(path, pointer)) {
      if (element.kind !== 'pipe' || !element.profile) continue;
      const past = element.profile.find((p) => p.at_m > element.length_m);
      if (past) {
        out.push({
          code: 'profile-beyond-pipe',
          severity: 'unsure',
          path: `${at}/profile`,
          message: `A height is given ${say(past.at_m, 'length')} along a pipe of ${say(element.length_m, 'length')}; it is left out.`,
        });
      }
      const sorted = [...element.profile].sort((a, b) => a.at_m - b.at_m);
      for (let i = 1; i < sorted.length; i++) {
        const climb = Math.abs(sorted[i].height_m - sorted[i - 1].height_m);
        if (climb <= sorted[i].at_m - sorted[i - 1].at_m + 0.05) continue;
        out.push({
          code: 'pipe-too-short-for-climb',
          severity: 'unsure',
          path: `${at}/profile`,
          message: `The pipe climbs ${say(climb, 'length')} within ${say(sorted[i].at_m - sorted[i - 1].at_m, 'length')} of its length.`,
          remedy: 'Correct the heights or the distances.',
        });
        break;
      }
    }
  }
  return out;
}

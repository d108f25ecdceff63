import type { Project } from '@sunlap/project/schema/project';
import { type SunAnswer, sun } from '@sunlap/workbench/sun/sun';
import { LOWEST_SUN_deg, treeHeight } from '@sunlap/workbench/sun/tree-height';
import type { Arguments } from '../args';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { timeAtSite, timeOf } from '../dates';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { reportAnswer } from '../report-answer';
import { quantityOf, shower, sunHeight, systemOf } from '../show';
import { answers, table } from '../table';

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** Sun and shadows as people read them. */
export function sunText(answer: SunAnswer): string {
  const { result } = answer;
  return [
    answers([
      ['time at the site', result.at.replace('T', ' ')],
      ['sun', sunHeight(result.elevation_deg), `azimuth ${result.azimuth_deg.toFixed(1)}°`],
      ['sunrise', result.sunrise ?? '—'],
      ['highest at', result.noon],
      ['sunset', result.sunset ?? '—'],
      ['day', `${result.dayLength_h.toFixed(1)} h`],
      [
        'on the collector',
        `${result.incidence_deg.toFixed(0)}° off square`,
        result.incidence_deg > 90 ? 'it shines on the rear' : '',
      ],
      [
        'a pole throws',
        result.poleShadow_m === null ? '—' : `${result.poleShadow_m.toFixed(2)} of its height`,
      ],
    ]),
    table(
      [{ title: '' }, { title: 'in the sun', right: true }, { title: 'sky seen', right: true }],
      [
        ['pool', percent(result.pool.sunlit), percent(result.pool.sky)],
        ['collector', percent(result.collector.sunlit), percent(result.collector.sky)],
        ...(result.parts.length > 1
          ? result.parts.map((p, i) => [`  part ${i + 1}`, percent(p.sunlit), percent(p.sky)])
          : []),
      ],
    ),
  ].join('\n');
}

/** Height from the shadow that was asked for; null when none was. */
function heightOf(args: Arguments, project: Project, elevation_deg: number) {
  const shadow_m = quantityOf(args, 'shadow', 'length', project.units);
  const name = args.text('tree');
  if (shadow_m === undefined) {
    if (name !== undefined)
      throw new WrongInput('--tree: expected --shadow beside it, the length of its shadow');
    return null;
  }
  const trees = (project.yard?.obstacles ?? []).flatMap((o) => (o.kind === 'tree' ? [o] : []));
  const tree = trees.find(
    (t) => name === t.id || (t.name !== undefined && name?.toLowerCase() === t.name.toLowerCase()),
  );
  if (name !== undefined && tree === undefined) {
    const known = trees.map((t) => t.name ?? t.id).join(', ');
    throw new WrongInput(`--tree ${name}: no tree of the yard has that name; there are: ${known || 'none'}`);
  }
  const crown = tree ?? { crownRadius_m: 0, crownBase_m: 0 };
  const found = treeHeight({ ...crown, shadow_m, elevation_deg });
  const show = shower(systemOf(args, project.units));
  const [length, height, low, high] = [shadow_m, found?.height_m, found?.low_m, found?.high_m].map((v) =>
    show(v, 'length'),
  );
  const what = tree === undefined ? 'something upright and narrow' : (tree.name ?? 'the tree');
  const text =
    found === null
      ? elevation_deg < LOWEST_SUN_deg
        ? 'The sun is too low to tell a height from a shadow.'
        : `No crown of that width and foot throws a shadow of only ${length}.`
      : `A shadow of ${length} is thrown by ${what} ${height} high, ${low} to ${high}.`;
  return { found, text };
}

/** The sun at one time and what it reaches. */
export const sunCommand: Command = {
  name: 'sun',
  usage: 'sun FILE --at 2026-04-12T15:00 [--shadow "24 ft" [--tree NAME]] [--json]',
  about: 'where the sun stands, and how much of pool and collector it reaches',
  options: {
    at: { value: '2026-04-12T15:00', about: 'local time at the site' },
    shadow: { value: '24 ft', about: 'shadow of a tree at that time: how high it stands' },
    tree: { value: 'NAME', about: 'the tree of the yard whose shadow it is, for its crown' },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const at = args.text('at');
    if (at === undefined)
      throw new WrongInput('--at is missing; expected a local time as --at 2026-04-12T15:00');
    timeOf(at, 'at');
    const project = await loadProject(io, args.words[0]);
    timeAtSite(at, 'at', project.site.timeZone);
    const answer = sun(project, at);
    const height = heightOf(args, project, answer.result.elevation_deg);
    if (height === null) return reportAnswer(answer, args, io, () => `${project.name}\n\n${sunText(answer)}`);
    const withTree = { ...answer, result: { ...answer.result, treeHeight: height.found } };
    return reportAnswer(withTree, args, io, () => `${project.name}\n\n${sunText(answer)}\n${height.text}\n`);
  },
};

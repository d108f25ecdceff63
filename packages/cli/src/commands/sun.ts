import { type SunAnswer, sun } from '@sunlap/workbench/sun/sun';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { timeAtSite, timeOf } from '../dates';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { reportAnswer } from '../report-answer';
import { sunHeight } from '../show';
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

/** The sun at one time and what it reaches. */
export const sunCommand: Command = {
  name: 'sun',
  usage: 'sun FILE --at 2026-04-12T15:00 [--json]',
  about: 'where the sun stands, and how much of pool and collector it reaches',
  options: {
    at: { value: '2026-04-12T15:00', about: 'local time at the site' },
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
    return reportAnswer(answer, args, io, () => `${project.name}\n\n${sunText(answer)}`);
  },
};

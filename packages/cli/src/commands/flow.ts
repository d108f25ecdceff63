import { flow } from '@sunlap/workbench/flow/flow';
import type { FlowAnswer, FlowValues, HeaderVerdict } from '@sunlap/workbench/results';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { loadProject } from '../load';
import { reportAnswer } from '../report-answer';
import { type Show, shareRange, shower, systemOf } from '../show';
import { answers, table } from '../table';

type Tube = FlowValues['collector']['banks'][number]['tubes'][number];

const VERDICT: Record<HeaderVerdict, string> = {
  bigEnough: 'big enough',
  marginal: 'marginal',
  tooSmall: 'too small',
};

/** The flow answer as people read it; with `every` a row a tube, else tubes alike in one row. */
export function flowText(answer: FlowAnswer, show: Show, every = false): string {
  const { result, band } = answer;
  const range = (key: string, kind: Parameters<Show>[1]): string =>
    band[key] ? `${show(band[key].low, kind)} to ${show(band[key].high, kind)}` : '';
  const runs = runsIn(result);
  const lines = [
    answers([
      ['through the pump', show(result.flow_m3s, 'flow'), range('flow_m3s', 'flow')],
      ['through the collector', show(result.collectorFlow_m3s, 'flow'), range('collectorFlow_m3s', 'flow')],
      ['pump head', show(result.pump.head_m, 'head')],
      ['pump power', show(result.pump.power_W, 'power')],
      ['collector loses', show(result.collector.headLoss_m, 'head'), range('headLoss_m', 'head')],
      [
        'lowest pressure',
        show(result.lowestPressure.absolute_Pa, 'pressure'),
        `absolute, at ${result.lowestPressure.at}`,
      ],
      ['pool turned over in', result.turnover_h === null ? '—' : `${result.turnover_h.toFixed(1)} h`],
      ['tubes without water', String(result.collector.tubesWithoutWater)],
      ['least flow that fills every tube', show(result.start.leastFlowAllTubes_m3s, 'flow')],
      ['least pump speed to start', percent(result.start.leastStartSpeed)],
      ['least pump speed to run', percent(result.start.leastRunSpeed)],
      ['first fill', show(result.firstFill.volume_m3, 'volume')],
    ]),
    table(
      [
        { title: 'section' },
        { title: 'pass' },
        { title: 'flow', right: true },
        { title: 'loses', right: true },
        { title: 'least–most of mean', right: true },
        { title: 'header' },
        { title: 'tubes' },
      ],
      result.collector.banks.map((bank) => [
        bank.section,
        bank.name,
        show(bank.flow_m3s, 'flow'),
        show(bank.headLoss_m, 'head'),
        runs(bank) ? shareRange(bank.leastOverMean, bank.mostOverMean) : '—',
        bank.headerVerdict === null ? '—' : VERDICT[bank.headerVerdict],
        states(bank.tubes),
      ]),
    ),
    every ? tubeTable(result, show) : foldedTubes(result, show),
  ];
  return lines.join('\n');
}

/** Of what does not flow, or cannot, nothing is judged. */
const runsIn =
  (result: FlowValues) =>
  (part: { flow_m3s: number }): boolean =>
    result.attainable && part.flow_m3s !== 0;

function tubeTable(result: FlowValues, show: Show): string {
  const runs = runsIn(result);
  return table(
    [
      { title: 'pass' },
      { title: 'tube', right: true },
      { title: 'flow', right: true },
      { title: 'speed', right: true },
      { title: 'Re', right: true },
      { title: 'state' },
      { title: 'air' },
    ],
    result.collector.banks.flatMap((bank) =>
      bank.tubes.map((tube) => [
        bank.id,
        String(tube.position),
        show(tube.flow_m3s, 'flow'),
        show(tube.velocity_ms, 'speed'),
        tube.reynolds.toFixed(0),
        tube.state,
        runs(tube) ? tube.air : '—',
      ]),
    ),
  );
}

/** Neighbours of the same state and air in one row, with the least and the most of them. */
function foldedTubes(result: FlowValues, show: Show): string {
  const runs = runsIn(result);
  const air = (tube: Tube): string => (runs(tube) ? tube.air : '—');
  const rows = result.collector.banks.flatMap((bank) => {
    const groups: Tube[][] = [];
    for (const tube of bank.tubes) {
      const last = groups.at(-1);
      if (last && last[0].state === tube.state && air(last[0]) === air(tube)) last.push(tube);
      else groups.push([tube]);
    }
    return groups.map((tubes) => [
      bank.id,
      tubes.length === 1
        ? `${tubes[0].position}`
        : `${tubes[0].position}–${tubes[tubes.length - 1].position}`,
      leastMost(
        tubes.map((t) => t.flow_m3s),
        (v) => show(v, 'flow'),
      ),
      leastMost(
        tubes.map((t) => t.velocity_ms),
        (v) => show(v, 'speed'),
      ),
      leastMost(
        tubes.map((t) => t.reynolds),
        (v) => v.toFixed(0),
      ),
      tubes[0].state,
      air(tubes[0]),
    ]);
  });
  const titles = table(
    [
      { title: 'pass' },
      { title: 'tubes', right: true },
      { title: 'flow', right: true },
      { title: 'speed', right: true },
      { title: 'Re', right: true },
      { title: 'state' },
      { title: 'air' },
    ],
    rows,
  );
  const count = result.collector.banks.reduce((n, bank) => n + bank.tubes.length, 0);
  return count === rows.length
    ? titles
    : `${titles}Tubes alike are in one row; --tubes gives a row to each.\n`;
}

/** Both ends where they are written differently. */
function leastMost(values: readonly number[], text: (value: number) => string): string {
  const [least, most] = [text(Math.min(...values)), text(Math.max(...values))];
  return least === most ? least : `${least} to ${most}`;
}

const percent = (share: number | null): string => (share === null ? '—' : `${(100 * share).toFixed(0)} %`);

function states(tubes: readonly { state: string }[]): string {
  const counts = new Map<string, number>();
  for (const tube of tubes) counts.set(tube.state, (counts.get(tube.state) ?? 0) + 1);
  return [...counts].map(([state, n]) => `${n} ${state}`).join(', ');
}

/** How the water splits over the tubes and what the pump delivers through it all. */
export const flowCommand: Command = {
  name: 'flow',
  usage: 'flow FILE [--tubes] [--json] [--units us|metric]',
  about: 'what each tube carries, what the pump delivers, whether it fills and drains',
  options: { tubes: { about: 'a row for every tube, not one for those alike' }, ...OUTPUT_OPTIONS },
  words: [1, 1],
  async run(args, io) {
    const project = await loadProject(io, args.words[0]);
    const show = shower(systemOf(args, project.units));
    const answer = flow(project);
    return reportAnswer(
      answer,
      args,
      io,
      () => `${project.name}\n\n${flowText(answer, show, args.on('tubes'))}`,
    );
  },
};

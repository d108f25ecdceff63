import { testDay } from '@sunlap/workbench/testday/test-day';
import type { TestDayAnswer, TestDayValues } from '@sunlap/workbench/testday/values';
import { verdictWords } from '@sunlap/workbench/testday/verdict-words';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { EXIT, WrongInput } from '../io';
import { loadProject } from '../load';
import { exitFor, noticesText } from '../notices';
import { writeOut } from '../output';
import { columnsOf } from '../report-answer';
import { type Show, shower, systemOf } from '../show';
import { answers, table, wrap } from '../table';

const EFFORT = { minutes: 'in minutes', hour: 'in an hour', purchase: 'for a purchase' } as const;
const METHOD = {
  pail: 'pail',
  meter: 'water meter',
  rotameter: 'flow meter',
  gauges: 'gauges and pump curve',
  front: 'warm front',
} as const;
const FINDING = { runs: 'runs', choked: 'runs weakly', blocked: 'blocked', airBound: 'air-bound' } as const;
/** Contributions under this share of the doubt are not listed in the table; the JSON has all. */
const LEAST_SHARE = 0.01;

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** The test day as people read it. */
export function testDayText(answer: TestDayAnswer, show: Show, columns: number): string {
  const v = answer.result;
  const within = (x: number | null, kind: Parameters<Show>[1]): string =>
    x === null ? '' : `± ${show(x, kind)}`;
  const between = (band: { low: number; high: number } | null): string =>
    band ? `${show(band.low, 'heatRate')} to ${show(band.high, 'heatRate')}` : '';
  const blocks = [
    answers([
      ['day', v.day.at.replace('T', ' '), v.day.name ?? ''],
      ['judged against', v.state.name ?? 'the heater as drawn', v.state.from ? `from ${v.state.from}` : ''],
      ['flow', show(v.flow_m3s, 'flow'), within(v.flowExpanded_m3s, 'flow')],
      [
        'the loop should give',
        show(v.expectedFlow_m3s, 'flow'),
        v.flowAt === 'pump' ? 'all of it' : 'to the collector',
      ],
      ['in', show(v.inlet_C, 'temperature')],
      ['out', show(v.outlet_C, 'temperature')],
      [
        'rise',
        show(v.rise_K, 'temperatureDifference', v.riseExpanded_K),
        v.riseExpanded_K === null ? '' : `± ${show(v.riseExpanded_K, 'temperatureDifference', v.rise_K)}`,
      ],
      ['heat measured', show(v.heat_W, 'heatRate'), between(v.heatBand_W)],
      ['heat expected', show(v.expected_W, 'heatRate'), between(v.expectedBand_W)],
      ['verdict', verdictWords(v)],
      [
        'the pool’s thermometer shows it after',
        v.poolShowsGain_s === null ? '—' : show(v.poolShowsGain_s, 'time'),
        v.poolShowsGain_s === null ? '' : 'of running',
      ],
    ]),
  ];
  if (v.flows.length > 1)
    blocks.push(
      table(
        [
          { title: 'flow by' },
          { title: 'found', right: true },
          { title: '±', right: true },
          { title: 'counts', right: true },
        ],
        v.flows.map((f) => [
          METHOD[f.method],
          show(f.flow_m3s, 'flow'),
          show(f.expandedUncertainty_m3s, 'flow'),
          percent(f.weight),
        ]),
      ),
    );
  const doubts = v.contributions.filter((c) => c.share >= LEAST_SHARE);
  if (doubts.length > 0)
    blocks.push(
      table(
        [{ title: 'doubt of the measured heat' }, { title: 'share', right: true }],
        doubts.map((c) => [c.label, percent(c.share)]),
      ),
    );
  if (v.advice.length > 0)
    blocks.push(
      `${v.advice
        .map((a) =>
          wrap(
            `${percent(a.shrink).padStart(5)} less doubt ${EFFORT[a.effort]}: ${a.message}`,
            columns,
            '      ',
          ),
        )
        .join('\n')}\n`,
    );
  if (v.tubes.length > 0) blocks.push(tubesText(v.tubes));
  return blocks.join('\n');
}

function tubesText(tubes: TestDayValues['tubes']): string {
  return table(
    [
      { title: 'pass' },
      { title: 'tube', right: true },
      { title: 'share', right: true },
      { title: 'between', right: true },
      { title: 'network', right: true },
      { title: 'found' },
    ],
    tubes.map((t) => [
      t.bank,
      String(t.tube),
      percent(t.share),
      `${(100 * t.lower).toFixed(0)}–${(100 * t.upper).toFixed(0)} %`,
      percent(t.networkShare),
      `${FINDING[t.finding]}${t.finding === 'runs' ? '' : ` (${percent(1 - t.runs)})`}`,
    ]),
  );
}

/** What a test day proves. */
export const testDayCommand: Command = {
  name: 'testday',
  usage: 'testday FILE [--day 2026-04-25] [--json]',
  about: 'what a day of measuring proves, against what was to be expected',
  options: {
    day: { value: 'ID', about: 'test day by its id; the latest when absent' },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const project = await loadProject(io, args.words[0]);
    const show = shower(systemOf(args, project.units));
    const asked = args.text('day');
    const answer = testDay(project, asked);
    if (answer === null) {
      const ids = project.testDays.map((d) => d.id);
      throw new WrongInput(
        asked === undefined || ids.length === 0
          ? `${args.words[0]}: /testDays: no test day; expected at least one`
          : `--day ${asked}: expected one of ${ids.join(', ')}`,
      );
    }
    const { result, solver, band, notices } = answer;
    if (args.on('json'))
      await writeOut(io, args, `${JSON.stringify({ result, solver, band, notices }, null, 2)}\n`);
    else {
      // what was measured stands, whatever became of the expectation
      await writeOut(
        io,
        args,
        `${project.name}\n\n${testDayText(answer, show, columnsOf(io))}\n${noticesText(notices, columnsOf(io))}`,
      );
      if (!solver.converged) io.err('sunlap: what to expect could not be worked out; see the notices.\n');
    }
    return solver.converged ? exitFor(notices, true) : EXIT.notConverged;
  },
};

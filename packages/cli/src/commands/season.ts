import { PRINT } from '@sunlap/drawing/palette';
import { toSvg } from '@sunlap/drawing/svg';
import { PART } from '@sunlap/engine/season/pool-line';
import { build } from '@sunlap/workbench/build/build';
import { season, seasonBasic } from '@sunlap/workbench/season/season';
import { inSpan, seasonChart, seasonChartWords } from '@sunlap/workbench/season/season-chart';
import type { SeasonAnswer, SeasonValues } from '@sunlap/workbench/season/values';
import type { Arguments } from '../args';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { dayOfYear } from '../dates';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { progressBar } from '../progress';
import { columnsOf, reportAnswer, reportFile } from '../report-answer';
import { type Show, shower, systemOf } from '../show';
import { answers, table, wrap } from '../table';
import { shrink, textPlot } from '../text-plot';
import { loadWeather } from '../weather-file';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const PLOT_ROWS = 11;

function dayOf(args: Arguments, name: string): string | undefined {
  const text = args.text(name);
  return text === undefined ? undefined : dayOfYear(text, name);
}

/** The year as people read it. */
export function seasonText(
  answer: SeasonAnswer,
  show: Show,
  columns: number,
  from?: string,
  to?: string,
): string {
  const { result, band } = answer;
  const { year } = result;
  const energy = (kWh: number): string => show(kWh * 3.6e6, 'energy');
  const range = (key: string, text: (v: number) => string): string =>
    band[key] ? `${text(band[key].low)} to ${text(band[key].high)}` : '';
  const whole = (v: number): string => `${Math.round(v)}`;
  const spanned = result.months.filter((m) => m.days > 0 && monthInSpan(m.month, from, to));
  const kept = result.days.date.flatMap((date, d) => (inSpan(date, from, to) ? [d] : []));
  const width = Math.max(24, Math.min(96, columns - 14));
  const line = (list: readonly number[], sign: string) => ({
    values: shrink(
      kept.map((d) => list[d]),
      width,
    ),
    sign,
  });
  const worth = result.worth;
  return [
    `Weather: ${result.place}\n`,
    answers([
      ['swimming days with the collector', whole(year.swimDays.with), range('swimDays.with', whole)],
      ['and without it', whole(year.swimDays.without), range('swimDays.without', whole)],
      ['collector into the pool in a year', energy(year.heat_kWh), range('heat_kWh', energy)],
      ['it runs', `${Math.round(year.runHours)} h`],
      ['extra pump energy', energy(year.extraPump_kWh)],
      ['of what warms the pool: its own sun', `${Math.round(100 * year.shares.sun)} %`],
      ['the collector', `${Math.round(100 * year.shares.collector)} %`],
      ['water that evaporates', show(year.evaporated_m3.with, 'volume')],
    ]),
    textPlot(
      [
        { values: new Array<number>(Math.min(width, kept.length)).fill(result.wish_C), sign: '·' },
        line(result.days.without.mean, '-'),
        line(result.days.with.mean, '█'),
      ],
      PLOT_ROWS,
      (t) => show(t, 'temperature'),
    ),
    'Water, days from left to right: █ with the collector, - without, · the wish\n',
    table(
      [
        { title: 'month' },
        { title: 'water', right: true },
        { title: 'without', right: true },
        { title: 'swim days', right: true },
        { title: 'without', right: true },
        { title: 'runs', right: true },
        { title: 'collector', right: true },
        { title: 'own sun', right: true },
        { title: 'evaporation', right: true },
        { title: 'worth opening' },
      ],
      spanned.map((m) => {
        const w = worth?.[m.month - 1];
        return [
          MONTHS[m.month - 1],
          show(m.pool_C.with?.mean, 'temperature'),
          show(m.pool_C.without?.mean, 'temperature'),
          whole(m.swimDays.with),
          whole(m.swimDays.without),
          `${Math.round(m.runHours)} h`,
          energy(m.heat_kWh),
          energy(m.heat.with.sun),
          energy(m.heat.with.evaporation),
          w && w.from_h !== null ? `${w.from_h} to ${w.to_h} h` : '—',
        ];
      }),
    ),
    ...(result.changes.length > 0
      ? [
          table(
            [
              { title: 'what would it bring?' },
              { title: 'swim days', right: true },
              { title: 'warmer', right: true },
              { title: 'collector', right: true },
            ],
            result.changes.map((c) => [
              c.name,
              signed(c.swimDaysAdded.with),
              show(c.warmer_K.with, 'temperatureDifference'),
              energy(c.collectorHeatAdded_kWh),
            ]),
          ),
        ]
      : []),
    ...(result.obstacles.length > 0
      ? [
          table(
            [
              { title: 'keeps off in a year' },
              { title: 'the pool', right: true },
              { title: 'the collector', right: true },
            ],
            result.obstacles.map((o) => [o.name, energy(o.year_kWh.pool), energy(o.year_kWh.collector)]),
          ),
        ]
      : []),
    ...[
      result.first?.saying,
      result.suction?.saying,
      result.money && `${result.money.saying} With ${result.money.inputs.join('; ')}.`,
    ]
      .filter((s) => s != null)
      .map((s) => `${wrap(s, columns)}\n`),
    'Hours are by the clock on the wall, summer time included.\n',
  ].join('\n');
}

function signed(n: number): string {
  return n > 0 ? `+${n}` : `${n}`;
}

function monthInSpan(month: number, from?: string, to?: string): boolean {
  const m = String(month).padStart(2, '0');
  for (let d = 1; d <= 31; d++) if (inSpan(`2001-${m}-${String(d).padStart(2, '0')}`, from, to)) return true;
  return false;
}

/** One row a day. */
export function seasonCsv(values: SeasonValues, from?: string, to?: string): string {
  const { days } = values;
  const rows = days.date.flatMap((date, d) =>
    inSpan(date, from, to)
      ? [
          [
            date,
            days.with.low[d],
            days.with.mean[d],
            days.with.high[d],
            days.without.low[d],
            days.without.mean[d],
            days.without.high[d],
          ].join(','),
        ]
      : [],
  );
  const head = 'date,with_low_C,with_mean_C,with_high_C,without_low_C,without_mean_C,without_high_C';
  const parts = Object.keys(PART);
  const months = values.months.map((m) =>
    [
      m.month,
      m.pool_C.with?.mean ?? '',
      m.pool_C.without?.mean ?? '',
      m.runHours,
      m.heat_kWh,
      m.swimDays.with,
      m.swimDays.without,
      ...parts.map((p) => m.heat.with[p as keyof typeof PART]),
    ].join(','),
  );
  const monthHead = `month,with_mean_C,without_mean_C,runHours,heat_kWh,swimDays_with,swimDays_without,${parts.map((p) => `${p}_kWh`).join(',')}`;
  return `${[head, ...rows, '', monthHead, ...months].join('\n')}\n`;
}

/** The year of the pool, with the collector and without it. */
export const seasonCommand: Command = {
  name: 'season',
  usage: 'season FILE [--weather FILE] [--from 04-01 --to 10-31] [--json|--csv|--svg]',
  about: 'the pool through the year, with the collector and without: swimming days, heat, what would help',
  options: {
    weather: { value: 'FILE', about: 'EPW, TMY3, TMY2, PVGIS, NSRDB instead of the project’s climate' },
    from: { value: '04-01', about: 'first day shown' },
    to: { value: '10-31', about: 'last day shown' },
    quick: { about: 'one run only: no bands, no comparisons, no money' },
    csv: { about: 'days and months as CSV' },
    svg: { about: 'the year as a drawing' },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const [from, to] = [dayOf(args, 'from'), dayOf(args, 'to')];
    if ([args.on('json'), args.on('csv'), args.on('svg')].filter(Boolean).length > 1)
      throw new WrongInput('more than one of --json, --csv, --svg; expected one');
    const project = await loadProject(io, args.words[0]);
    const system = systemOf(args, project.units);
    const path = args.text('weather');
    const weather = path === undefined ? undefined : await loadWeather(io, path);
    const once = args.on('quick') || args.on('csv') || args.on('svg');
    const given = { ...project, units: system };
    const options = { weather: weather?.series ?? null };
    const bar = progressBar(io);
    const answer = once
      ? seasonBasic(given, options)
      : season(given, {
          ...options,
          collectorPrice: build(given).result.shopTotal.cost,
          onProgress: ({ share, doing }) => bar.show(share, doing),
        });
    bar.clear();
    const full = { ...answer, notices: [...answer.notices, ...(weather?.notices ?? [])] };
    const { result } = full;
    if (args.on('csv')) return reportFile(seasonCsv(result, from, to), full, args, io);
    if (args.on('svg')) {
      const sheet = seasonChart(result, system, from, to);
      const svg = toSvg(sheet.items, {
        width: sheet.width,
        height: sheet.height,
        palette: PRINT,
        title: `${project.name}: the year of the pool`,
        description: seasonChartWords(result, system),
      });
      return reportFile(svg, full, args, io);
    }
    const columns = columnsOf(io);
    return reportAnswer(
      full,
      args,
      io,
      () => `${project.name}\n\n${seasonText(full, shower(system), columns, from, to)}`,
    );
  },
};

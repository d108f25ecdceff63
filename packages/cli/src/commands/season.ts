import { PRINT } from '@sunlap/drawing/palette';
import { toSvg } from '@sunlap/drawing/svg';
import { PART } from '@sunlap/engine/season/pool-line';
import { drain } from '@sunlap/engine/season/year';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import { build } from '@sunlap/workbench/build/build';
import type { Answer } from '@sunlap/workbench/results';
import { type PartOfYear, partOfYear } from '@sunlap/workbench/season/part-of-year';
import { season, seasonBasic } from '@sunlap/workbench/season/season';
import {
  dayWords,
  seasonChart,
  seasonChartWords,
  temperatureTicks,
} from '@sunlap/workbench/season/season-chart';
import { createSeasonCache, type SeasonCache, studyYear } from '@sunlap/workbench/season/study';
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
import { COLUMNS_OPTION, weatherAsked } from '../weather-file';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const PLOT_ROWS = 11;

/** About so many rows that each step of the scale is whole rows. */
const rowsFor = (steps: number): number => 1 + steps * Math.max(1, Math.round((PLOT_ROWS - 1) / steps));

function dayOf(args: Arguments, name: string): string | undefined {
  const text = args.text(name);
  return text === undefined ? undefined : dayOfYear(text, name);
}

/**
 * The year as people read it.
 *
 * @param part the days asked for; the whole year when null
 */
export function seasonText(
  answer: SeasonAnswer,
  show: Show,
  system: UnitSystem,
  columns: number,
  part: PartOfYear | null = null,
): string {
  const { result, band } = answer;
  const { year } = result;
  const energy = (kWh: number): string => show(kWh * 3.6e6, 'energy');
  const range = (key: string, text: (v: number) => string): string =>
    band[key] ? `${text(band[key].low)} to ${text(band[key].high)}` : '';
  const daily = part?.daily ?? result.days;
  const width = Math.max(24, Math.min(96, columns - 14));
  const line = (list: readonly number[], sign: string) => ({
    values: shrink(list, width),
    sign,
  });
  const shown = daily.with.mean.concat(daily.without.mean, result.wish_C);
  const ticks = temperatureTicks(Math.min(...shown), Math.max(...shown), system);
  return [
    `Weather: ${result.place}\n`,
    ...(part ? [partHead(part, show)] : [yearHead(year, show, energy, range)]),
    textPlot(
      [
        { values: new Array<number>(Math.min(width, daily.date.length)).fill(result.wish_C), sign: '·' },
        line(daily.without.mean, '-'),
        line(daily.with.mean, '█'),
      ],
      rowsFor(ticks.length - 1),
      (t) => show(t, 'temperature'),
      ticks,
    ),
    'Water, days from left to right: █ with the collector, - without, · the wish\n',
    monthTable(result, show, part),
    ...(part && result.obstacles.length + result.changes.length > 0
      ? ['What follows is of the whole year.\n']
      : []),
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

const whole = (v: number): string => `${Math.round(v)}`;

function yearHead(
  year: SeasonValues['year'],
  show: Show,
  energy: (kWh: number) => string,
  range: (key: string, text: (v: number) => string) => string,
): string {
  return answers([
    ['swimming days with the collector', whole(year.swimDays.with), range('swimDays.with', whole)],
    ['and without it', whole(year.swimDays.without), range('swimDays.without', whole)],
    ['collector into the pool in a year', energy(year.heat_kWh), range('heat_kWh', energy)],
    ['it runs', `${Math.round(year.runHours)} h`],
    ['extra pump energy', energy(year.extraPump_kWh)],
    ['of what warms the pool: its own sun', `${Math.round(100 * year.shares.sun)} %`],
    ['the collector', `${Math.round(100 * year.shares.collector)} %`],
    ['water that evaporates', show(year.evaporated_m3.with, 'volume')],
  ]);
}

function partHead(part: PartOfYear, show: Show): string {
  const water = (w: { low: number; high: number }): string =>
    `${show(w.low, 'temperature')} to ${show(w.high, 'temperature')}`;
  return answers([
    [
      part.days === 1 ? dayWords(part.from) : `${dayWords(part.from)} to ${dayWords(part.to)}`,
      `${part.days} ${part.days === 1 ? 'day' : 'days'}`,
    ],
    ['swimming days with the collector', whole(part.swimDays.with)],
    ['and without it', whole(part.swimDays.without)],
    ['water with it', show(part.pool_C.with.mean, 'temperature'), water(part.pool_C.with)],
    ['and without it', show(part.pool_C.without.mean, 'temperature'), water(part.pool_C.without)],
    ['collector into the pool', show(part.heat_kWh * 3.6e6, 'energy')],
    ['it runs', `${Math.round(part.runHours)} h`],
    ['extra pump energy', show(part.extraPump_kWh * 3.6e6, 'energy')],
  ]);
}

/** Months of the year, or of the days asked for; of a month that is not whole only what is known by the day. */
function monthTable(result: SeasonValues, show: Show, part: PartOfYear | null): string {
  const energy = (kWh: number): string => show(kWh * 3.6e6, 'energy');
  const { worth } = result;
  const year = result.months.filter((m) => m.days > 0);
  const rows = part
    ? part.months.map((m) => ({
        name: m.whole ? MONTHS[m.month - 1] : partName(m),
        sums: m,
        all: m.whole ? result.months[m.month - 1] : null,
      }))
    : year.map((m) => ({ name: MONTHS[m.month - 1], sums: m, all: m }));
  return table(
    [
      { title: part ? 'days' : 'month' },
      { title: 'water', right: true },
      { title: 'without', right: true },
      { title: 'swim days', right: true },
      { title: 'without', right: true },
      { title: 'runs', right: true },
      { title: 'collector', right: true },
      { title: 'own sun', right: true },
      { title: 'evaporation', right: true },
      ...(worth ? [{ title: 'worth opening' }] : []),
    ],
    rows.map(({ name, sums, all }) => {
      const w = worth?.[sums.month - 1];
      return [
        name,
        show(sums.pool_C.with?.mean, 'temperature'),
        show(sums.pool_C.without?.mean, 'temperature'),
        whole(sums.swimDays.with),
        whole(sums.swimDays.without),
        `${Math.round(sums.runHours)} h`,
        energy(sums.heat_kWh),
        all ? energy(all.heat.with.sun) : '—',
        all ? energy(all.heat.with.evaporation) : '—',
        ...(w ? [w.from_h !== null ? `${w.from_h} to ${w.to_h} h` : 'no hours'] : []),
      ];
    }),
  );
}

function partName({ from, to }: { from: string; to: string }): string {
  return from === to ? dayWords(from) : `${dayWords(from)}–${Number(to.slice(8))}`;
}

/** One row a day, then one a month; of a month that is not whole only what is known by the day. */
export function seasonCsv(values: SeasonValues, part: PartOfYear | null = null): string {
  const days = part?.daily ?? values.days;
  const rows = days.date.map((date, d) =>
    [
      date,
      days.with.low[d],
      days.with.mean[d],
      days.with.high[d],
      days.without.low[d],
      days.without.mean[d],
      days.without.high[d],
    ].join(','),
  );
  const head = 'date,with_low_C,with_mean_C,with_high_C,without_low_C,without_mean_C,without_high_C';
  const parts = Object.keys(PART) as (keyof typeof PART)[];
  const months = (part?.months ?? values.months).map((m) => {
    const all = 'whole' in m && !m.whole ? null : values.months[m.month - 1];
    return [
      m.month,
      Math.round(m.days),
      m.pool_C.with?.mean ?? '',
      m.pool_C.without?.mean ?? '',
      m.runHours,
      m.heat_kWh,
      m.swimDays.with,
      m.swimDays.without,
      ...parts.map((p) => all?.heat.with[p] ?? ''),
    ].join(',');
  });
  const monthHead = `month,days,with_mean_C,without_mean_C,runHours,heat_kWh,swimDays_with,swimDays_without,${parts.map((p) => `${p}_kWh`).join(',')}`;
  return `${[head, ...rows, '', monthHead, ...months].join('\n')}\n`;
}

/** The days asked for, of one more run that keeps its hours; null for the whole year. @throws {WrongInput} */
function askedPart(
  project: Project,
  weather: WeatherSeries | null,
  cache: SeasonCache,
  from?: string,
  to?: string,
): PartOfYear | null {
  if (from === undefined && to === undefined) return null;
  const part = partOfYear(project, drain(studyYear(project, { weather, cache, keepSteps: true })), from, to);
  if (part === null) throw new WrongInput('--from, --to: the weather has no such day');
  return part;
}

/** The year of the pool, with the collector and without it. */
export const seasonCommand: Command = {
  name: 'season',
  usage: 'season FILE [--weather FILE] [--from 04-01 --to 10-31] [--json|--csv|--svg]',
  about: 'the pool through the year, with the collector and without: swimming days, heat, what would help',
  options: {
    weather: {
      value: 'FILE',
      about: 'EPW, TMY3, TMY2, PVGIS, NSRDB or a table instead of the project’s climate',
    },
    ...COLUMNS_OPTION,
    from: { value: '04-01', about: 'first day: table, sums, CSV, JSON’s span and drawing are of these days' },
    to: { value: '10-31', about: 'last day; before the first it is over New Year' },
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
    const weather = await weatherAsked(io, args, project);
    const once = args.on('quick') || args.on('csv') || args.on('svg');
    const given = { ...project, units: system };
    const options = { weather: weather?.series ?? null, cache: createSeasonCache() };
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
    const part = askedPart(given, options.weather, options.cache, from, to);
    if (args.on('csv')) return reportFile(seasonCsv(result, part), full, args, io);
    if (args.on('svg')) {
      const sheet = seasonChart(result, system, from, to);
      const svg = toSvg(sheet.items, {
        width: sheet.width,
        height: sheet.height,
        palette: PRINT,
        title: `${project.name}: ${part ? `the pool from ${dayWords(part.from)} to ${dayWords(part.to)}` : 'the year of the pool'}`,
        description: seasonChartWords(result, system, part),
      });
      return reportFile(svg, full, args, io);
    }
    const columns = columnsOf(io);
    const spanned: Answer<SeasonValues & { span?: PartOfYear }> = part
      ? { ...full, result: { ...result, span: part } }
      : full;
    return reportAnswer(
      spanned,
      args,
      io,
      () => `${project.name}\n\n${seasonText(full, shower(system), system, columns, part)}`,
    );
  },
};

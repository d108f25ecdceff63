import { rankNotices } from '@sunlap/engine/numeric/notice';
import { type AheadAnswer, ahead } from '@sunlap/workbench/ahead/ahead';
import { readForecast } from '@sunlap/workbench/ahead/forecast';
import { oddForecast } from '@sunlap/workbench/ahead/odd-forecast';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { timeAtSite, timeOf } from '../dates';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { columnsOf, reportAnswer } from '../report-answer';
import { quantityOf, type Show, shower, systemOf } from '../show';
import { answers, table } from '../table';
import { shrink, textPlot } from '../text-plot';

const FROM_H = 'T08:00';

/** The days ahead as people read them. */
export function aheadText(answer: AheadAnswer, show: Show, columns: number): string {
  const { result } = answer;
  const t = (value: number): string => show(value, 'temperature');
  const time = (at: string): string => at.replace('T', ' ');
  const { warmest, reached } = result;
  const width = Math.max(24, Math.min(96, columns - 14));
  const line = (of: (h: AheadAnswer['result']['hours'][number]) => number, sign: string) => ({
    values: shrink(result.hours.map(of), width),
    sign,
  });
  return [
    `${result.saying}\n`,
    answers([
      ['water now', t(result.water_C)],
      ['wish', t(result.wish_C)],
      [
        'reached',
        reached ? time(reached.at) : 'not in these days',
        reached?.latest ? `at the latest ${time(reached.latest)}` : '',
      ],
      [
        'warmest',
        t(warmest.water_C),
        `${time(warmest.at)}, between ${t(warmest.low_C)} and ${t(warmest.high_C)}`,
      ],
      ['cover at night', result.cover ? 'yes' : 'no'],
    ]),
    textPlot(
      [line(() => result.wish_C, '·'), line((h) => h.withoutCollector_C, '-'), line((h) => h.water_C, '█')],
      11,
      t,
    ),
    'Hours from left to right: █ with the collector, - without, · the wish\n',
    table(
      [{ title: 'day' }, { title: 'open' }, { title: 'close' }, { title: 'heat', right: true }],
      result.valve.map((v) => [v.date, v.open ?? '—', v.close ?? '—', show(v.heat_kWh * 3.6e6, 'energy')]),
    ),
    table(
      [{ title: 'what it does to the last afternoon' }, { title: 'warmer', right: true }],
      result.acts.map((a) => [
        `${a.name}${a.id === result.best?.id ? '  ← gains most' : ''}`,
        show(a.gain_K, 'temperatureDifference'),
      ]),
    ),
  ].join('\n');
}

/** The days ahead from a typed forecast. */
export const aheadCommand: Command = {
  name: 'ahead',
  usage: 'ahead FILE --water 74F --days "84/66 sunny calm; 80/64 cloudy breezy" [--cover yes|no]',
  about: 'the water of the next days from a plain forecast; when to turn the valve',
  options: {
    water: { value: '74F', about: 'the water now' },
    days: {
      value: 'TEXT',
      about:
        'high/low, sky and wind of each day, parted by ; — sky: sunny, hazy, thin cloud, partly cloudy, cloudy, overcast, fog, rain, showers, storms; wind: calm, light, breezy, windy, or 10-15 mph',
    },
    at: { value: '2026-05-02T08:00', about: 'local time now; eight this morning when absent' },
    cover: { value: 'yes|no', about: 'is the pool covered at night; as in the file when absent' },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const asked = args.text('at');
    if (asked !== undefined) timeOf(asked, 'at');
    const cover = args.text('cover');
    if (cover !== undefined && cover !== 'yes' && cover !== 'no')
      throw new WrongInput(`--cover ${cover}: expected yes or no`);
    const text = args.text('days');
    if (text === undefined)
      throw new WrongInput(
        '--days is missing; expected a forecast as --days "84/66 sunny calm; 80/64 cloudy breezy"',
      );
    const project = await loadProject(io, args.words[0]);
    const { timeZone } = project.site;
    const at = asked === undefined ? `${io.today(timeZone)}${FROM_H}` : timeAtSite(asked, 'at', timeZone);
    const system = systemOf(args, project.units);
    const water_C = quantityOf(args, 'water', 'temperature', system);
    if (water_C === undefined)
      throw new WrongInput('--water is missing; expected the water now as --water 74F');
    if (!(water_C >= 0 && water_C <= 45))
      throw new WrongInput(
        `--water ${args.text('water')}: expected water between 0 and 45 °C (32 and 113 °F)`,
      );
    const forecast = readForecast(text, system);
    if (!forecast.ok) throw new WrongInput(forecast.problems.map((p) => `--days: ${p.message}`).join('\n'));
    const found = ahead(project, {
      at,
      water_C,
      days: forecast.days,
      ...(cover === undefined ? {} : { cover: cover === 'yes' }),
    });
    const odd = oddForecast({ ...project, units: system }, forecast.days, at);
    const answer = { ...found, notices: rankNotices([...found.notices, ...odd]) };
    return reportAnswer(
      answer,
      args,
      io,
      () => `${project.name}\n\n${aheadText(answer, shower(system), columnsOf(io))}`,
    );
  },
};

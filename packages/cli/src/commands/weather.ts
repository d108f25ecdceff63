import { monthlySummary } from '@sunlap/engine/weather/monthly';
import type { WeatherReading } from '@sunlap/workbench/weather/reading';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { exitFor, noticesText } from '../notices';
import { writeOut } from '../output';
import { columnsOf } from '../report-answer';
import { type Show, shower, systemOf } from '../show';
import { answers, table } from '../table';
import { COLUMNS_OPTION, loadWeather } from '../weather-file';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
type Read = Extract<WeatherReading, { ok: true }>;

function facts(read: Read) {
  const { series, found } = read;
  const { latitude_deg, longitude_deg, elevation_m } = series.place;
  return {
    name: series.name,
    format: found.format,
    place: { latitude_deg, longitude_deg, elevation_m },
    utcOffset_h: series.utcOffset_h,
    interval: { step_s: series.step_s, stated: found.convention, detected: found.alignment },
    rows: found.rows,
    leftOut: found.leftOut,
    typical: series.typical,
    gaps: series.gaps,
    origin: series.origin,
    months: monthlySummary(series).map((m, i) => ({ month: i + 1, ...m })),
  };
}

/** What was found in a weather file, as people read it. */
export function weatherText(read: Read, show: Show): string {
  const f = facts(read);
  const { shift_min, solarTime } = read.found.alignment;
  const deg = (value: number, plus: string, minus: string): string =>
    `${Math.abs(value).toFixed(2)}° ${value < 0 ? minus : plus}`;
  const guessed = Object.entries(f.origin)
    .filter(([, how]) => how !== 'measured')
    .map(([column, how]) => `${column} ${how}`);
  return [
    answers([
      ['name', f.name],
      ['format', f.format],
      [
        'place',
        `${deg(f.place.latitude_deg, 'N', 'S')}, ${deg(f.place.longitude_deg, 'E', 'W')}`,
        show(f.place.elevation_m, 'length'),
      ],
      ['standard time less universal time', `${f.utcOffset_h} h`],
      [
        'rows',
        `${f.rows}`,
        `of ${f.interval.step_s / 60} min${f.leftOut > 0 ? `, ${f.leftOut} left out` : ''}`,
      ],
      ['years', f.typical ? 'months of different years' : 'one stretch of time'],
      [
        'missing values filled',
        `${f.gaps.filled}`,
        f.gaps.filled > 0 ? `longest gap ${f.gaps.longest} rows` : '',
      ],
    ]),
    `Interval as stated:   ${f.interval.stated}\n` +
      `Interval as detected: ${
        shift_min === null
          ? 'too few clear days to tell'
          : solarTime
            ? `solar time, ${shift_min.toFixed(0)} min off`
            : Math.abs(shift_min) < 8
              ? `as stated (${shift_min.toFixed(0)} min off)`
              : `${Math.abs(shift_min).toFixed(0)} min ${shift_min > 0 ? 'later' : 'earlier'} than stated`
      }\n`,
    table(
      [
        { title: 'month' },
        { title: 'days', right: true },
        { title: 'air', right: true },
        { title: 'high', right: true },
        { title: 'low', right: true },
        { title: 'sun a day', right: true },
        { title: 'humidity', right: true },
        { title: 'dew point', right: true },
        { title: 'wind', right: true },
      ],
      f.months.map((m) => [
        MONTHS[m.month - 1],
        m.days.toFixed(0),
        show(m.air_C, 'temperature'),
        show(m.high_C, 'temperature'),
        show(m.low_C, 'temperature'),
        show(m.irradiation_kWhm2day * 3.6e6, 'irradiation'),
        Number.isFinite(m.humidity) ? `${Math.round(100 * m.humidity)} %` : '—',
        show(m.dewPoint_C, 'temperature'),
        show(m.wind_ms, 'windSpeed'),
      ]),
    ),
    ...(guessed.length > 0 ? [`Not measured: ${guessed.join(', ')}\n`] : []),
  ].join('\n');
}

/** What a weather file holds. */
export const weatherCommand: Command = {
  name: 'weather',
  usage: 'weather FILE [--columns "time=1, temp=2, …"] [--json] [--units us|metric]',
  about: 'what a weather file holds: place, zone, how its hours are meant, gaps, months, what is suspicious',
  options: { ...COLUMNS_OPTION, ...OUTPUT_OPTIONS },
  words: [1, 1],
  async run(args, io) {
    const read = await loadWeather(io, args, args.words[0]);
    if (args.on('json'))
      await writeOut(
        io,
        args,
        `${JSON.stringify({ result: facts(read), notices: read.notices }, null, 2)}\n`,
      );
    else
      await writeOut(
        io,
        args,
        `${weatherText(read, shower(systemOf(args, 'metric')))}\n${noticesText(read.notices, columnsOf(io))}`,
      );
    return exitFor(read.notices, true);
  },
};

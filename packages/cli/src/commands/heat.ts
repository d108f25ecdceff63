import type { Sky } from '@sunlap/data/skies';
import { heat } from '@sunlap/workbench/heat/heat';
import { SKY_WORDS, skyRow } from '@sunlap/workbench/heat/sky-words';
import type { HeatAnswer } from '@sunlap/workbench/results';
import type { Arguments } from '../args';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { timeAtSite, timeOf } from '../dates';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { reportAnswer } from '../report-answer';
import { quantityOf, type Show, shower, sunHeight, systemOf } from '../show';
import { answers, table } from '../table';

/** Sky in words, or global irradiance on the level. */
function skyOf(text: string | undefined): Sky['id'] | number | undefined {
  if (text === undefined) return undefined;
  const row = skyRow(text);
  if (row) return row.id;
  const number = Number(/^\s*([\d.]+)\s*(?:W\/m²|W\/m2)?\s*$/.exec(text)?.[1] ?? Number.NaN);
  if (!(number >= 0 && number <= 1500)) {
    throw new WrongInput(
      `--sky ${text}: expected ${SKY_WORDS.join(', ')}, or W/m² on the level from 0 to 1500`,
    );
  }
  return number;
}

/** The heat answer as people read it. */
export function heatText(answer: HeatAnswer, show: Show): string {
  const { result, band } = answer;
  const range = (key: string, kind: Parameters<Show>[1]): string =>
    band[key] ? `${show(band[key].low, kind)} to ${show(band[key].high, kind)}` : '';
  const m = result.moment;
  const assumed = (key: string): string => (m.assumed.includes(key) ? 'assumed' : '');
  return [
    answers([
      ['time at the site', m.at.replace('T', ' ')],
      ['pool water', show(m.water_C, 'temperature'), assumed('water')],
      ['air', show(m.air_C, 'temperature'), assumed('air')],
      ['dew point', show(m.dewPoint_C, 'temperature'), assumed('dew')],
      ['wind at 10 m', show(m.wind_ms, 'windSpeed'), assumed('wind')],
      ['sky', SKY_WORDS.find((word) => skyRow(word)?.id === m.sky) ?? m.sky, assumed('sky')],
      ['sun', sunHeight(m.sun.elevation_deg), `azimuth ${m.sun.azimuth_deg.toFixed(0)}°`],
    ]),
    answers([
      ['heat into the pool', show(result.heat_W, 'heatRate'), range('heat_W', 'heatRate')],
      ['to the collector', show(result.inlet_C, 'temperature')],
      [
        'from the collector',
        show(result.outlet_C, 'temperature'),
        `${result.rise_K < 0 ? 'colder' : 'warmer'} by ${show(Math.abs(result.rise_K), 'temperatureDifference')}`,
      ],
      ['sun on the panel’s plane', show(result.planeIrradiance_Wm2, 'irradiance')],
      [
        'efficiency',
        result.efficiency === null ? '—' : `${(100 * result.efficiency).toFixed(0)} %`,
        `on ${show(result.area.gross_m2, 'area')} of panel`,
      ],
      ['standing dry it reaches', show(result.dryStanding_C, 'temperature')],
      [
        'first water after standing',
        show(result.firstSlug.temperature_C, 'temperature'),
        `${show(result.firstSlug.volume_m3, 'volume')} of it`,
      ],
      ['warms this pool on a sunny day by', show(result.poolPerSunnyDay_K, 'temperatureDifference')],
    ]),
    table(
      [
        { title: 'section' },
        { title: 'pass' },
        { title: 'heat', right: true },
        { title: 'in', right: true },
        { title: 'out', right: true },
        { title: 'coolest tube', right: true },
        { title: 'hottest tube', right: true },
      ],
      result.banks.map((bank) => {
        const outlets = bank.tubes.map((tube) => tube.outlet_C).filter(Number.isFinite);
        return [
          bank.section,
          bank.id,
          show(bank.heat_W, 'heatRate'),
          show(bank.inlet_C, 'temperature'),
          show(bank.outlet_C, 'temperature'),
          show(outlets.length > 0 ? Math.min(...outlets) : null, 'temperature'),
          show(outlets.length > 0 ? Math.max(...outlets) : null, 'temperature'),
        ];
      }),
    ),
    'A hotter return is not more heat: heat is flow times rise.\n',
  ].join('\n');
}

/** Time of the moment. @throws {WrongInput} */
function atOf(args: Arguments): string {
  const at = args.text('at');
  if (at === undefined)
    throw new WrongInput('--at is missing; expected a local time as --at 2026-04-12T11:00');
  return timeOf(at, 'at');
}

/** Heat at one moment. */
export const heatCommand: Command = {
  name: 'heat',
  usage: 'heat FILE --at 2026-04-12T11:00 [--water 80F --air 75F --dew 50F --wind 5mph --sky clear]',
  about: 'how much heat at one moment, and each tube’s temperature',
  options: {
    at: { value: '2026-04-12T11:00', about: 'local time at the site' },
    water: { value: '80F', about: 'pool water' },
    air: { value: '75F', about: 'air' },
    dew: { value: '50F', about: 'dew point' },
    wind: { value: '"5 mph"', about: 'wind at 10 m in the open' },
    sky: { value: '"half cloud"', about: `${SKY_WORDS.join(', ')}, or W/m² of global light on the level` },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const at = atOf(args);
    const sky = skyOf(args.text('sky'));
    const project = await loadProject(io, args.words[0]);
    timeAtSite(at, 'at', project.site.timeZone);
    const system = systemOf(args, project.units);
    const show = shower(system);
    const within = (name: string, kind: 'temperature' | 'windSpeed', least: number, most: number) => {
      const value = quantityOf(args, name, kind, system);
      if (value !== undefined && !(value >= least && value <= most)) {
        throw new WrongInput(
          `--${name} ${args.text(name)}: expected from ${show(least, kind)} to ${show(most, kind)}`,
        );
      }
      return value;
    };
    const answer = heat(project, {
      at,
      water_C: within('water', 'temperature', 0, 60),
      air_C: within('air', 'temperature', -50, 60),
      dewPoint_C: within('dew', 'temperature', -60, 40),
      wind_ms: within('wind', 'windSpeed', 0, 60),
      sky,
    });
    return reportAnswer(answer, args, io, () => `${project.name}\n\n${heatText(answer, show)}`, {
      resistances: answer.result.resistances,
    });
  },
};

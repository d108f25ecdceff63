import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { CAUTIONS } from '../cautions/catalogue';
import { sayIn } from '../flow/say';
import { heat } from '../heat/heat';
import type { Answer, HeatAnswer, Interval } from '../results';
import { type BuildStudies, build } from './build';
import { wholeStickWords } from './cut-length';
import { buildDrawings } from './drawings';
import type { BuildOptions } from './options';
import { inputsBlock } from './report-inputs';
import { block, cautionBox, facts, figure, h, list, page, table } from './report-page';
import {
  cutTables,
  headerTable,
  partsTables,
  pressureTables,
  shopTables,
  slopeTable,
  supportTables,
} from './report-parts';

export interface ReportOptions extends Pick<BuildStudies, 'season' | 'weather'> {
  /** Day of the report, ISO 8601; the expected figures are for this day. */
  readonly date: string;
  readonly version: string;
  readonly build?: BuildOptions;
  /** Local hours for which a test day's figures are given. */
  readonly hours?: readonly number[];
}

/**
 * The whole design as one self-contained HTML file that prints on A4 and Letter: drawings, parts, cutting plan, order of
 * work, expected test-day figures, cautions, cards, inputs and bands.
 *
 * @example report(project, { date: '2026-04-12', version: '0.1.0' })
 */
export function report(project: Project, options: ReportOptions): string {
  return reportAnswer(project, options).result;
}

/** The same with what its first page says to know first, for a face that ends by it. */
export function reportAnswer(project: Project, options: ReportOptions): Answer<string> {
  const say = sayIn(project.units);
  const hours = options.hours ?? [11, 13, 15];
  const moments = hours.map((hour) =>
    heat(
      project,
      { at: `${options.date}T${String(hour).padStart(2, '0')}:00`, sky: 'clear' },
      { startUp: hour === hours[0] },
    ),
  );
  const noon = moments[Math.floor(moments.length / 2)];
  const study = noon && { ...noon, flow: moments[0].flow };
  const { season, weather } = options;
  const answer = build(project, options.build, {
    season,
    weather,
    ...(study ? { heat: study, flow: moments[0].flow } : {}),
  });
  const v = answer.result;
  const drawings = buildDrawings(project, v);
  const of = (prefix: string): string[] => drawings.filter((d) => d.id.startsWith(prefix)).map(figure);
  const notices = mergeNotices([...answer.notices, ...(noon?.notices ?? [])]);
  const body = [
    `<header><h1>${h(project.name)}</h1><p>Solar pool heater: what to buy, cut, glue, hold up and live with. ${h(options.date)}, Sunlap ${h(options.version)}.${project.invented ? ' <b>Invented demonstration data.</b>' : ''}</p></header>`,
    facts([
      ['pipe', say(v.counts.pipe_m, 'length')],
      ['cuts', String(v.counts.sawCuts)],
      ['glued joints', String(v.counts.gluedJoints)],
      ...(v.counts.dryJoints > 0 ? [['clamped or threaded', String(v.counts.dryJoints)] as const] : []),
      ['holds', say(v.volume_m3, 'volume')],
      [
        'parts',
        `${v.shopTotal.price.toFixed(0)} ${v.currency}${v.shopTotal.demo > 0 ? ' (demo prices)' : ''}`,
      ],
      ['weighs, filled', say(v.supports.filled_kg, 'mass')],
      ...(noon?.solver.converged
        ? [
            [
              'heat on a clear day',
              `${say(noon.result.heat_W, 'heatRate')}${bandText(noon.band.heat_W, (x) => say(x, 'heatRate'))}`,
            ] as const,
          ]
        : []),
    ]),
    notices.length === 0
      ? ''
      : block('What to know first', noticeHtml(notices[0]), ...notices.slice(1).map(noticeHtml)),
    ...figureBlock('The panel', of('panel')),
    ...figureBlock('The loop', of('loop')),
    ...figureBlock('Headers', of('header'), headerTable(v, say)),
    block(
      'Shop list',
      `<p>In shop order; tick as you go.${v.shopTotal.demo > 0 ? ` Prices with * are demo prices, invented${v.currency === 'USD' ? '' : ', US dollars taken one for one'}: write in your own.` : ''} In all ${v.shopTotal.price.toFixed(2)} ${v.currency}.</p>`,
      ...shopTables(v, say),
    ),
    block(
      'Parts',
      '<p>Derived from the same description that the flow study solves.</p>',
      ...partsTables(project, v),
    ),
    block('Money', `<p>${h(v.money.saying)}</p>`, `<p>With:</p>${list(v.money.inputs)}`),
    block(
      'Cutting plan',
      `<p>Longest first; offcuts that are left are hatched.${h(wholeStickWords(v, project.units))}</p>`,
      ...of('cuts'),
      cutTables(v, say, project.units),
    ),
    ...figureBlock(
      'Supports',
      of('supports'),
      supportTables(project, v, say),
      slopeTable(v, say),
      cautionBox(['roofLoad']),
    ),
    block(
      'Pressure and heat',
      '<p>No pressure while it stands dry and hot.</p>',
      pressureTables(v, say),
      cautionBox(['noAirTest', 'scald']),
    ),
    block(
      'Order of work',
      `<p>${v.counts.sawCuts} cuts and ${v.counts.gluedJoints} glued joints. ☾ marks where to stop for the night.</p>`,
      ...v.steps.map(
        (s, i) =>
          `<div class="step"><h3>${s.done ? '☑' : '☐'} ${i + 1}. ${h(s.title)}${s.people === 2 ? ' (two people)' : ''}${s.night ? ' ☾' : ''}</h3>${list(s.lines)}${cautionBox(s.cautions)}</div>`,
      ),
    ),
    expected(moments, hours, say),
    ...v.cards.map(
      (c, i) =>
        `${i === 0 ? '<section class="sheet"><div class="keep"><h2>Cards</h2>' : ''}<div class="card"><h3>${h(c.title)}</h3>${list(c.lines)}${cautionBox(c.cautions)}</div>${i === 0 ? '</div>' : ''}`,
    ),
    '</section>',
    block(
      'All cautions',
      '<p>Local codes and licensed trades come first.</p>',
      ...[...CAUTIONS.keys()].map((id) => cautionBox([id])),
    ),
    inputsBlock(project, moments),
    `<p class="foot">${h(project.name)}, ${h(options.date)}, Sunlap ${h(options.version)}. No strength of timber, roof or anchor is judged here.</p>`,
  ];
  return {
    result: page(`${project.name}: build report`, body.join('\n')),
    solver: noon?.solver ?? answer.solver,
    band: {},
    notices,
    complete: true,
  };
}

function figureBlock(title: string, figures: readonly string[], ...rest: string[]): string[] {
  if (figures.length === 0)
    return rest.length > 0 && rest[0] !== '' ? [block(title, rest[0], ...rest.slice(1))] : [];
  return [block(title, figures[0], ...figures.slice(1), ...rest)];
}

/** Alike findings of several studies once. */
function mergeNotices(notices: readonly Notice[]): Notice[] {
  const seen = new Set<string>();
  return rankNotices(notices).filter((n) => {
    const key = `${n.code}|${n.path}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Ranks in the person's words, as everywhere. */
const SEVERITY: Record<Notice['severity'], string> = {
  safety: 'Safety.',
  damage: 'Damage.',
  heat: 'Lost heat.',
  unsure: 'Not sure.',
  info: 'Note.',
};

function noticeHtml(n: Notice): string {
  return `<div class="notice"><p><b>${SEVERITY[n.severity]}</b> ${h(n.message)}${n.cost ? ` ${h(n.cost)}.` : ''}</p>${n.remedy ? `<p>→ ${h(n.remedy)}</p>` : ''}</div>`;
}

function bandText(band: Interval | undefined, say: (v: number) => string): string {
  return band ? `, ${say(band.low)} to ${say(band.high)}` : '';
}

/** What a thermometer and a pail should find on a clear day of that date. */
function expected(
  moments: readonly HeatAnswer[],
  hours: readonly number[],
  say: ReturnType<typeof sayIn>,
): string {
  const rows = moments.flatMap((m, i) =>
    m.solver.converged
      ? [
          [
            `${hours[i]}:00`,
            say(m.result.heat_W, 'heatRate'),
            m.band.heat_W
              ? `${say(m.band.heat_W.low, 'heatRate')} to ${say(m.band.heat_W.high, 'heatRate')}`
              : '—',
            say(m.result.rise_K, 'temperatureDifference'),
            say(m.flow.result.collectorFlow_m3s, 'flow'),
            say(m.result.planeIrradiance_Wm2, 'irradiance'),
          ],
        ]
      : [],
  );
  const first = moments[0]?.result.moment;
  if (rows.length === 0 || !first) return '';
  return block(
    'Expected on a test day',
    table(
      'Clear sky',
      [
        { title: 'hour' },
        { title: 'heat', right: true },
        { title: 'band', right: true },
        { title: 'rise', right: true },
        { title: 'flow', right: true },
        { title: 'sun on the plane', right: true },
      ],
      rows,
    ),
    list([
      `For water ${say(first.water_C, 'temperature')}, air ${say(first.air_C, 'temperature')}, wind ${say(first.wind_ms, 'windSpeed')}${first.assumed.length > 0 ? `; assumed: ${first.assumed.join(', ')}` : ''}.`,
      'A hotter return is not more heat: heat is flow times rise.',
    ]),
  );
}

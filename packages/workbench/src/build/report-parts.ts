import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { Project } from '@sunlap/project/schema/project';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Say } from '../flow/say';
import type { BuildValues } from './build';
import { cutLength } from './cut-length';
import { type Column, facts, list, table, tables } from './report-page';
import { packsText, SHOP_ORDER, type ShopLine } from './shop';
import type { SlopeCase } from './slope-compare';

const right = (title: string): Column => ({ title, right: true });

export const GROUP_WORD: Record<ShopLine['group'], string> = {
  pipe: 'Pipe',
  fittings: 'Fittings',
  valves: 'Valves, vents, cocks',
  cement: 'Cement and primer',
  supports: 'Straps and screws',
  other: 'Other',
};

const money = (v: number | null): string => (v === null ? 'no price' : v.toFixed(2));

/** A line with the length of its sticks. */
const lineLabel = (l: ShopLine, say: Say): string =>
  l.length_m === undefined ? l.label : `${l.label}, ${say(l.length_m, 'length')} ${l.unit}`;

/** Shop list in shop order with boxes to tick. */
export function shopTables(values: BuildValues, say: Say): string[] {
  return SHOP_ORDER.flatMap((group) =>
    tables(
      GROUP_WORD[group],
      [
        { title: 'what', width: 33 },
        { title: 'needed', right: true, width: 8 },
        { title: 'spare', right: true, width: 7 },
        { title: 'on hand', right: true, width: 9 },
        { title: 'buy', right: true, width: 14 },
        { title: 'packs', width: 17 },
        { title: values.currency, right: true, width: 12 },
      ],
      values.shop
        .filter((l) => l.group === group)
        .map((l) => [
          `☐ ${lineLabel(l, say)}`,
          l.needed,
          l.spares || '',
          l.onHand || '',
          l.length_m === undefined ? `${l.toBuy} ${l.unit}` : l.toBuy,
          packsText(l),
          `${money(l.price)}${l.priceFrom === 'demo' && l.price ? ' *' : ''}`,
        ]),
    ),
  );
}

/** Every part by where it goes. */
export function partsTables(project: Project, values: BuildValues): string[] {
  const rows = new Map<
    string,
    { label: string; count: number; joints: number; where: Map<string, number> }
  >();
  for (const f of values.fittings) {
    const row = rows.get(f.part) ?? { label: f.label, count: 0, joints: 0, where: new Map<string, number>() };
    row.count += f.count;
    row.joints += f.count * f.joints.reduce((sum, j) => sum + j.count, 0);
    const place = placeOf(project, f.path);
    row.where.set(place, (row.where.get(place) ?? 0) + f.count);
    rows.set(f.part, row);
  }
  return tables(
    'Parts by place',
    [{ title: 'part' }, right('count'), right('glued joints'), { title: 'where' }],
    [...rows.values()].map((r) => [
      r.label,
      r.count,
      r.joints || '',
      [...r.where].map(([place, n]) => (r.where.size === 1 ? place : `${place} ${n}`)).join(', '),
    ]),
  );
}

/** A place in the file as the person calls it. */
export function placeOf(project: Project, path: string): string {
  const bank = /^\/collector\/sections\/(\d+)\/banks\/(\d+)/.exec(path);
  if (bank) {
    const spec = project.collector.sections[Number(bank[1])]?.banks[Number(bank[2])];
    return spec?.name ?? spec?.id ?? path;
  }
  const section = /^\/collector\/sections\/(\d+)/.exec(path);
  if (section) {
    const spec = project.collector.sections[Number(section[1])];
    return spec?.name ?? spec?.id ?? path;
  }
  if (path.startsWith('/collector/taps')) return 'taps';
  if (path.startsWith('/collector/supports')) return 'supports';
  if (path.startsWith('/collector/plumbing')) return 'between sections';
  const loop = /^\/loop\/([A-Za-z]+)/.exec(path);
  const words: Record<string, string> = {
    bypass: 'bypass',
    feed: 'feed',
    return: 'return',
    returnOutlet: 'return outlet',
    toPool: 'to the pool',
    toPump: 'to the pump',
    toFilter: 'to the filter',
    toBypass: 'to the bypass',
    suctions: 'suctions',
    outlets: 'outlets',
  };
  return loop ? (words[loop[1]] ?? loop[1]) : 'heater';
}

/** Pieces of each pipe with the proof of its plan. */
export function cutTables(values: BuildValues, say: Say, system: UnitSystem): string {
  return values.cutting
    .map((sheet) => {
      const { plan } = sheet;
      const unit = sheet.priced ? ` ${values.currency}` : ' m';
      const proof = plan.proven
        ? `No plan is cheaper than ${plan.price.toFixed(2)}${unit}: proven.`
        : `${plan.price.toFixed(2)}${unit}; nothing under ${plan.bound.toFixed(2)}${unit} is possible, so at most ${plan.gap.toFixed(2)}${unit} could be saved.`;
      return `${table(
        `${sheet.label}: ${say(sheet.pipe_m, 'length')} in ${plan.bars.reduce((s, b) => s + b.bars, 0)} bars`,
        [
          { title: 'pieces', right: true, width: 8 },
          { title: 'length', right: true, width: 15 },
          { title: 'for', width: 63 },
          { title: '', width: 14 },
        ],
        sheet.pieces.map((p) => [
          p.count,
          cutLength(p.length_m, system),
          shortList(p.labels),
          p.onSite ? 'cut on site' : '',
        ]),
      )}${list([
        `${proof} ${plan.sawCuts} cuts, kerf ${say(sheet.kerf_m, 'diameter')}.${sheet.priced ? '' : ' No price is known: least length instead of least money.'}`,
      ])}`;
    })
    .join('\n');
}

function shortList(labels: readonly string[]): string {
  return labels.length <= 4
    ? labels.join('; ')
    : `${labels.slice(0, 3).join('; ')} and ${labels.length - 3} more`;
}

/** Headers as they are made on the bench. */
export function headerTable(values: BuildValues, say: Say): string {
  const alike = new Map<string, string[]>();
  for (const p of values.headers) {
    const figures = [
      p.tee.label,
      p.tees,
      say(p.pitch_m, 'diameter'),
      say(p.leastPitch_m, 'diameter'),
      say(p.takeOff_m, 'diameter'),
      say(p.socket_m, 'diameter'),
      say(p.nipple_m, 'diameter'),
      say(p.twistPerDegree_m, 'diameter'),
    ].join('\t');
    alike.set(figures, [...(alike.get(figures) ?? []), p.name]);
  }
  return table(
    'Headers',
    [
      { title: 'header' },
      { title: 'tee' },
      right('tees'),
      right('pitch'),
      right('least'),
      right('G'),
      right('S'),
      right('nipple'),
      right('1° twist'),
    ],
    [...alike].map(([figures, names]) => [shortNames(names), ...figures.split('\t')]),
  );
}

/** Passes of which both headers are named, and headers by themselves. */
function shortNames(names: readonly string[]): string {
  const passes = new Map<string, string[]>();
  for (const name of names) {
    const at = name.lastIndexOf(', ');
    const pass = name.slice(0, at);
    passes.set(pass, [...(passes.get(pass) ?? []), name.slice(at + 2)]);
  }
  return [...passes]
    .map(([pass, headers]) => (headers.length === 2 ? `${pass}, both headers` : `${pass}, ${headers[0]}`))
    .join('; ');
}

export function supportTables(project: Project, values: BuildValues, say: Say): string {
  const { supports: s } = values;
  const area_m2 = s.perArea_kgm2 > 0 ? s.filled_kg / s.perArea_kgm2 : 0;
  return `${table(
    'Supports',
    [
      { title: 'pass' },
      right('lines'),
      right('apart'),
      right('published most'),
      right('sag, end span'),
      right('sag, simple span'),
      right('straps'),
      right('member'),
    ],
    s.rows.map((r) => [
      r.name,
      r.lines_m.length,
      r.lines_m.length > 1 ? say(r.lines_m[1] - r.lines_m[0], 'length') : '—',
      r.ceiling_m === null ? 'none published' : say(r.ceiling_m, 'length'),
      say(r.sagEnd_m, 'diameter'),
      say(r.sagSimple_m, 'diameter'),
      r.straps,
      say(r.member_m, 'length'),
    ]),
  )}${facts([
    ['filled', say(s.filled_kg, 'mass')],
    ['spread over', say(area_m2, 'area')],
    ['on each line, filled', say(s.perSupport_N / GRAVITY_MS2, 'mass')],
    ['dry', say(s.dry_kg, 'mass')],
    ['members', s.members.map((m) => `${m.count} × ${say(m.length_m, 'length')}`).join(', ') || '—'],
    ['still to buy', say(s.boardsMissing_m, 'length')],
    [`wind at ${say(s.gust_ms, 'windSpeed')}`, say(s.wind_Pa, 'pressure')],
  ])}${boardTable(project, values)}`;
}

/** Members cut from the boards on hand; nothing where there are none. */
function boardTable(project: Project, { supports: { boards, members } }: BuildValues): string {
  const onHand = project.stock?.boards ?? [];
  if (!boards) return '';
  const length = (v: number): string => cutLength(v, project.units);
  return table(
    'Members from boards on hand',
    [right('boards'), { title: 'of' }, { title: 'cut into' }, right('left')],
    boards.bars.flatMap((bar) => {
      const board = onHand[bar.stock];
      if (board === undefined) return [];
      const cuts = bar.cuts.map((c) => `${c.count} × ${length(members[c.piece].length_m)}`);
      return [
        [
          bar.bars,
          `${board.name ?? board.id}, ${length(board.length_m)}`,
          cuts.join(', '),
          length(bar.left_m),
        ],
      ];
    }),
  );
}

export function slopeTable(values: BuildValues, say: Say): string {
  const word = { flat: 'flat', asDrawn: 'as drawn', slanted: 'slanted' } as const;
  return table(
    'Flat or slanted',
    [
      { title: 'laid' },
      right('fall built in'),
      { title: 'drains' },
      right('stays'),
      { title: 'tubes that may hold air' },
      right('heat'),
      right('lowest pressure'),
    ],
    values.slopes.map((s) => [
      word[s.which],
      `${(s.fall * 1000).toFixed(1)} in 1000`,
      s.drains ? 'yes' : 'no',
      say(s.litresLeft / 1000, 'volume'),
      airText(s.air),
      s.heat_W === null ? '—' : say(s.heat_W, 'heatRate'),
      s.lowest_Pa === null ? '—' : say(s.lowest_Pa, 'pressure'),
    ]),
  );
}

/** How many tubes keep their air, of how many. */
export function airText(air: SlopeCase['air']): string {
  if (air === null) return '—';
  const { holds, doubtful, tubes } = air;
  if (holds + doubtful === 0) return `none of ${tubes}`;
  return [holds > 0 ? `${holds} hold it` : '', doubtful > 0 ? `${doubtful} doubtful` : '']
    .filter((t) => t !== '')
    .join(', ')
    .concat(` of ${tubes}`);
}

export function pressureTables(values: BuildValues, say: Say): string {
  const p = values.pressure;
  return `${table(
    'Pressure and heat',
    [
      { title: 'pipe' },
      right('rated'),
      right('running'),
      right('may bear then'),
      right('pump can make'),
      right('dry'),
      right('limit'),
      right('sucked flat at'),
    ],
    p.rows.map((r) => [
      r.label,
      say(r.rating_Pa, 'pressure'),
      say(r.running_C, 'temperature'),
      say(r.allowedRunning_Pa, 'pressure'),
      say(r.pressure_Pa, 'pressure'),
      say(r.dry_C, 'temperature'),
      say(r.limit_C, 'temperature'),
      r.collapse_Pa === null ? '—' : say(r.collapse_Pa, 'pressure'),
    ]),
  )}${table(
    `Growth from ${say(p.coldest_C, 'temperature')} to ${say(p.dry_C, 'temperature')}`,
    [{ title: 'run' }, { title: 'pipe' }, right('length'), right('grows'), right('leg that bends')],
    p.expansion.map((e) => [
      e.label,
      e.pipe,
      say(e.length_m, 'length'),
      say(e.change_m, 'diameter'),
      e.leg_m === null ? '—' : say(e.leg_m, 'length'),
    ]),
  )}${list([
    `A tube that stands dry in the sun beside a wet one grows ${say(p.unequal_m, 'diameter')} more: the tees between them take it up. No two straps near a header; never half a pass dry in the sun.`,
    'One anchor on each run, guides elsewhere, headers free to move; a leg of the length named bends instead of the joint.',
  ])}`;
}

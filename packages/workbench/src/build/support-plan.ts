import { joinableOf } from '@sunlap/data/joinable';
import { findMaterial } from '@sunlap/data/materials';
import { findSupportSpacing, mostSpacing_m } from '@sunlap/data/supportSpacing';
import { planCuts } from '@sunlap/engine/building/cutting-stock';
import type { CutPlan } from '@sunlap/engine/building/cutting-types';
import { supportPlaces } from '@sunlap/engine/building/parts-supports';
import { windPressure } from '@sunlap/engine/building/pressure-rating';
import { sagOfSpan } from '@sunlap/engine/building/sag';
import { carriedWeight, pipeMass, pipeSecondMoment, pipeWeight } from '@sunlap/engine/building/weight';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { BankGeometry, PanelGeometry } from '../assembly/geometry';
import { supportSpan_m } from '../flow/drains';
import type { Bag } from './bag';
import type { CompleteOptions } from './options';
import { type Gathering, put } from './strand';

/** Supports of one bank: lines across its tubes. */
export interface SupportRow {
  readonly path: string;
  readonly name: string;
  readonly section: string;
  readonly bank: string;
  /** From the tubes' near ends [m]. */
  readonly lines_m: readonly number[];
  readonly tubes: number;
  readonly clear_m: number;
  /** Sag hot and over years, end span of a continuous run, and simple span [m]. */
  readonly sagEnd_m: number;
  readonly sagSimple_m: number;
  /** Published largest spacing at the temperature reached; null where none is published. */
  readonly ceiling_m: number | null;
  readonly at_C: number;
  readonly straps: number;
  /** Member under the tubes: how long each line has to be [m]. */
  readonly member_m: number;
}

export interface SupportPlan {
  readonly rows: readonly SupportRow[];
  readonly straps: number;
  readonly members: readonly { readonly length_m: number; readonly count: number }[];
  /** Cut list of the members from boards on hand; null without boards. */
  readonly boards: CutPlan | null;
  readonly boardsMissing_m: number;
  /** Members that boards on hand do not give. */
  readonly toBuy: readonly { readonly length_m: number; readonly count: number }[];
  readonly dry_kg: number;
  readonly filled_kg: number;
  readonly perArea_kgm2: number;
  readonly perSupport_N: number;
  readonly wind_Pa: number;
  readonly gust_ms: number;
}

const END_INSET_M = 0.15;
const MEMBER_OVER_M = 0.05;
const WATER_KGM3 = 996;

/** Sag of a tube of a size over the design's spans, hot and over years [m]. */
function sags(
  project: Pick<Project, 'collector'>,
  bank: BankGeometry,
): { end: number; simple: number; clear: number } {
  const size = bank.size!;
  const material = findMaterial(size.material);
  const clear = supportSpan_m(project.collector.supports);
  const mass = pipeMass(size.outer_m, size.bore_m, material?.density_kgm3 ?? 1400, WATER_KGM3);
  const inertia = pipeSecondMoment(size.outer_m, size.bore_m);
  const modulus = material?.hotLong_Pa ?? 0.8e9;
  const weight = pipeWeight(mass);
  return {
    clear,
    end: sagOfSpan(weight, clear, modulus, inertia, 'end'),
    simple: sagOfSpan(weight, clear, modulus, inertia, 'simple'),
  };
}

/**
 * Supports laid out, with their straps and screws put into the bag, and what hangs on them.
 *
 * @param hot_C wall temperature of a dry panel in the sun
 */
export function supportPlan(
  g: Gathering,
  project: Pick<Project, 'collector' | 'stock'>,
  geometry: PanelGeometry,
  hot_C: number,
  notices: Notice[],
): SupportPlan {
  const { supports } = project.collector;
  const rows: SupportRow[] = [];
  for (const bank of geometry.banks) {
    if (!bank.size) continue;
    const section = project.collector.sections[bank.section];
    const spec = section.banks[bank.bank];
    const length = spec.kind === 'coil' ? spec.outerDiameter_m : spec.length_m;
    const tubes = spec.count;
    const name = spec.name ?? spec.id;
    const lines = supportPlaces(length, supports.spacing_m, Math.min(END_INSET_M, length / 4));
    const sag = sags(project, bank);
    const pipe = joinableOf(bank.size.id)?.pipe;
    const table = pipe && findSupportSpacing(pipe.family, pipe.nominal);
    const ceiling = table
      ? (mostSpacing_m(table, hot_C) ?? table.spacing_m[table.spacing_m.length - 1])
      : null;
    // flat coils are tied at every crossing of a support line with their turns
    const turns =
      spec.kind === 'coil'
        ? Math.max(
            1,
            Math.round(spec.length_m / (Math.PI * ((spec.innerDiameter_m + spec.outerDiameter_m) / 2))),
          )
        : 1;
    rows.push({
      path: bank.path,
      name,
      section: section.id,
      bank: spec.id,
      lines_m: lines,
      tubes,
      clear_m: sag.clear,
      sagEnd_m: sag.end,
      sagSimple_m: sag.simple,
      ceiling_m: ceiling,
      at_C: hot_C,
      straps: tubes * lines.length * (spec.kind === 'coil' ? Math.min(2, turns) : 1),
      member_m: tubes * bank.spacing_m + 2 * MEMBER_OVER_M,
    });
    if (ceiling !== null && supports.spacing_m > ceiling + 1e-6 && spec.kind === 'tubes')
      notices.push({
        code: 'build-support-spacing',
        severity: 'damage',
        path: '/collector/supports/spacing_m',
        message: `${name}: supports ${g.say(supports.spacing_m, 'length')} apart; the published spacing for ${pipe!.label} at ${g.say(hot_C, 'temperature')} is ${g.say(ceiling, 'length')} at most. Hot and over years it sags ${g.say(sag.end, 'diameter')}.`,
        remedy: `Support it every ${g.say(ceiling, 'length')} or closer.`,
      });
  }
  const straps = rows.reduce((sum, r) => sum + r.straps, 0) + pathStraps(g.bag, hot_C);
  put(
    g.bag,
    {
      part: 'strap',
      label: 'Pipe strap or clip',
      kind: 'support',
      joints: [],
      takes_m: 0,
      known: 'common practice',
    },
    straps,
    '/collector/supports',
  );
  put(
    g.bag,
    {
      part: 'screw',
      label: 'Screw for straps',
      kind: 'fastener',
      joints: [],
      takes_m: 0,
      known: 'common practice',
    },
    2 * straps,
    '/collector/supports',
  );
  const members = memberList(rows);
  const boards = boardCuts(project, members, g.options);
  // on a board the straps are screwed down where they are
  if (project.collector.backing.kind !== 'board')
    for (const { length_m, count } of boards.toBuy)
      put(
        g.bag,
        {
          part: `member-${length_m.toFixed(2)}`,
          label: `Support member, ${g.say(length_m, 'length')}`,
          kind: 'member',
          joints: [],
          takes_m: 0,
          known: 'the design; its strength is not judged',
        },
        count,
        '/collector/supports',
      );
  return {
    rows,
    straps,
    members,
    ...boards,
    ...weights(project, geometry, rows, g.options),
  };
}

/** Straps of feed, return and hand-over pipes in the open, at the published spacing. */
function pathStraps(bag: Bag, hot_C: number): number {
  let n = 0;
  for (const piece of bag.pieces) {
    if (piece.use !== 'run' && piece.use !== 'handover') continue;
    const pipe = joinableOf(piece.pipe)?.pipe;
    const table = pipe && findSupportSpacing(pipe.family, pipe.nominal);
    const spacing = table ? (mostSpacing_m(table, Math.min(hot_C, 48.9)) ?? 0.9) : 0.9;
    n += piece.count * Math.ceil(piece.length_m / spacing - 1e-9);
  }
  return n;
}

function memberList(rows: readonly SupportRow[]): { length_m: number; count: number }[] {
  const byLength = new Map<number, number>();
  for (const row of rows) {
    const length = Math.ceil(row.member_m * 100) / 100;
    byLength.set(length, (byLength.get(length) ?? 0) + row.lines_m.length);
  }
  return [...byLength]
    .map(([length_m, count]) => ({ length_m, count }))
    .sort((a, b) => b.length_m - a.length_m);
}

function boardCuts(
  project: Pick<Project, 'stock'>,
  members: readonly { length_m: number; count: number }[],
  options: CompleteOptions,
): Pick<SupportPlan, 'boards' | 'boardsMissing_m' | 'toBuy'> {
  const boards = project.stock?.boards ?? [];
  const total = members.reduce((sum, m) => sum + m.length_m * m.count, 0);
  if (boards.length === 0) return { boards: null, boardsMissing_m: total, toBuy: members };
  const longest = Math.max(...boards.map((b) => b.length_m));
  // what the boards do not give is bought in lengths of the longest member, at a price that boards on hand never have
  const piece = Math.max(longest, ...members.map((m) => m.length_m));
  const plan = planCuts(
    members,
    [
      ...boards.map((b) => ({ length_m: b.length_m, price: 0, available: b.count })),
      { length_m: piece, price: 1 },
    ],
    { kerf_m: Math.max(options.kerf_m, 0.003), solver: options.solver },
  );
  const missing = plan.bars.filter((b) => b.stock === boards.length);
  const toBuy = members.flatMap(({ length_m }, piece) => {
    const count = missing.reduce(
      (sum, b) => sum + b.bars * b.cuts.reduce((s, c) => s + (c.piece === piece ? c.count : 0), 0),
      0,
    );
    return count > 0 ? [{ length_m, count }] : [];
  });
  return {
    boards: plan,
    boardsMissing_m: toBuy.reduce((sum, m) => sum + m.count * m.length_m, 0),
    toBuy,
  };
}

function weights(
  project: Pick<Project, 'collector'>,
  geometry: PanelGeometry,
  rows: readonly SupportRow[],
  options: CompleteOptions,
): Pick<SupportPlan, 'dry_kg' | 'filled_kg' | 'perArea_kgm2' | 'perSupport_N' | 'wind_Pa' | 'gust_ms'> {
  const runs = geometry.banks.flatMap((bank) => {
    const spec = project.collector.sections[bank.section].banks[bank.bank];
    const of = (size: { material: string; outer_m: number; bore_m: number }, length_m: number) => ({
      mass: pipeMass(
        size.outer_m,
        size.bore_m,
        findMaterial(size.material)?.density_kgm3 ?? 1400,
        WATER_KGM3,
      ),
      length_m,
    });
    return [
      ...(bank.size ? [of(bank.size, spec.length_m * spec.count)] : []),
      ...(bank.supply ? [of(bank.supply.size, bank.supply.length_m)] : []),
      ...(bank.gather ? [of(bank.gather.size, bank.gather.length_m)] : []),
    ];
  });
  const e = geometry.extent;
  const area = Math.max(0.01, (e.u1_m - e.u0_m) * (e.v1_m - e.v0_m));
  const lines = Math.max(
    1,
    rows.reduce((sum, r) => sum + r.lines_m.length, 0),
  );
  const carried = carriedWeight(runs, area, lines);
  return {
    dry_kg: carried.dry_kg,
    filled_kg: carried.filled_kg,
    perArea_kgm2: carried.perArea_kgm2,
    perSupport_N: carried.perSupport_N,
    wind_Pa: windPressure(options.gust_ms),
    gust_ms: options.gust_ms,
  };
}

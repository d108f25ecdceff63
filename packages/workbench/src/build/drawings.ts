import { joinableOf } from '@sunlap/data/joinable';
import { type BuildPanelBank, type BuildPipe, buildPanel } from '@sunlap/drawing/buildPanel';
import type { BuildDrawing } from '@sunlap/drawing/buildPlan';
import { cuttingBars } from '@sunlap/drawing/cuttingBars';
import { headerJig } from '@sunlap/drawing/headerJig';
import { loopSchematic, type SchematicPiece } from '@sunlap/drawing/loopSchematic';
import { supportPlan as supportDrawing } from '@sunlap/drawing/supportPlan';
import type { Path } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import type { PanelPoint } from '../assembly/frame';
import {
  type BankGeometry,
  type HeaderGeometry,
  type PanelGeometry,
  panelGeometry,
} from '../assembly/geometry';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { type Say, sayIn } from '../flow/say';
import type { BuildValues } from './build';
import { cutLength } from './cut-length';

/** Kinds of drawing by the word that asks for them. */
export const DRAWING_KINDS = ['panel', 'header', 'supports', 'loop', 'cuts'] as const;
export type DrawingKind = (typeof DRAWING_KINDS)[number];

/**
 * Every drawing of a design: panel section by section, each kind of header, support plan, loop, cutting bars.
 *
 * @param kinds which to make; all when absent
 */
export function buildDrawings(
  project: Project,
  values: BuildValues,
  kinds: readonly DrawingKind[] = DRAWING_KINDS,
): BuildDrawing[] {
  const say = sayIn(project.units);
  const geometry = panelGeometry(project.collector, STANDARD_TABLES.sizes);
  const make: Record<DrawingKind, () => BuildDrawing[]> = {
    panel: () => panelDrawings(project, geometry, say),
    header: () => headerDrawings(values, say),
    supports: () => supportDrawings(project, geometry, values, say),
    loop: () => [loopDrawing(project, say)],
    cuts: () => cutDrawings(values, project.units),
  };
  return kinds.flatMap((kind) => make[kind]());
}

const uv = (p: PanelPoint): readonly [number, number] => [p.u_m, p.v_m];

/** Compass letters of the sheet's edges: up the slope, right, down, left, seen from below. */
function compass(facing_deg: number): [string, string, string, string] {
  const names = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];
  const at = (bearing: number): string => names[Math.round((((bearing % 360) + 360) % 360) / 45) % 8];
  // the panel looks down the slope: up is away from its facing; right is a quarter turn on from up
  return [at(facing_deg + 180), at(facing_deg + 270), at(facing_deg), at(facing_deg + 90)];
}

function tubesOf(bank: BankGeometry): BuildPipe[] {
  const outside_m = bank.size?.outer_m ?? 0.03;
  return bank.units.map((u) => ({ from: uv(u.near), to: uv(u.far), outside_m }));
}

function headersOf(bank: BankGeometry): { header: HeaderGeometry; word: string }[] {
  return (['supply', 'gather'] as const).flatMap((which) => {
    const header = bank[which];
    return header ? [{ header, word: which === 'supply' ? 'supply header' : 'return header' }] : [];
  });
}

function panelDrawings(project: Project, geometry: PanelGeometry, say: Say): BuildDrawing[] {
  return geometry.sections.map((section) => {
    const spec = project.collector.sections[section.index];
    const banks = section.banks.map((bank): BuildPanelBank => {
      const own = spec.banks[bank.bank];
      return {
        name: own.name ?? own.id,
        tubes: tubesOf(bank),
        headers: headersOf(bank).map(({ header, word }) => ({
          from: uv(header.first),
          to: uv(header.last),
          outside_m: header.size.outer_m,
          label: word,
          ends: (['first', 'last'] as const).map((end) => ({
            at: uv(header[end]),
            open: header.joined.includes(end),
            name: end,
          })),
        })),
        ...(own.kind === 'coil'
          ? { coil: { inner_m: own.innerDiameter_m, outer_m: own.outerDiameter_m } }
          : {}),
        pitch_m: bank.spacing_m,
        length_m: own.length_m,
      };
    });
    return buildPanel({
      id: `panel-${spec.id}`,
      title: `Panel: ${spec.name ?? spec.id}`,
      banks,
      handovers: section.handovers.flat().map((h) => ({ from: uv(h.from), to: uv(h.to) })),
      compass: compass(project.collector.placement.facing_deg),
      length: (v) => say(v, 'length'),
      small: (v) => say(v, 'diameter'),
    });
  });
}

function headerDrawings(values: BuildValues, say: Say): BuildDrawing[] {
  const seen = new Map<string, { plan: BuildValues['headers'][number]; names: string[] }>();
  for (const plan of values.headers) {
    const key = [plan.tee.part, plan.tees, plan.pitch_m, plan.leadIn_m, plan.open.join()].join('|');
    const same = seen.get(key);
    if (same) same.names.push(plan.name);
    else seen.set(key, { plan, names: [plan.name] });
  }
  return [...seen.values()].map(({ plan, names }, i) =>
    headerJig({
      id: `header-${i + 1}`,
      title: `Header ${i + 1}: make ${names.length}, for ${names.join('; ')}`,
      tees: plan.tees,
      pitch_m: plan.pitch_m,
      takeOff_m: plan.takeOff_m,
      socket_m: plan.socket_m,
      leadIn_m: plan.leadIn_m,
      headerOutside_m: plan.outside_m,
      branchOutside_m: plan.branchOutside_m,
      branchTakeOff_m: plan.branchTakeOff_m,
      teeLabel: plan.tee.label,
      pipeLabel: plan.pipe,
      open: plan.open,
      small: (v) => say(v, 'diameter'),
      length: (v) => say(v, 'length'),
    }),
  );
}

function supportDrawings(
  project: Project,
  geometry: PanelGeometry,
  values: BuildValues,
  say: Say,
): BuildDrawing[] {
  return geometry.sections.flatMap((section) => {
    const spec = project.collector.sections[section.index];
    const banks = section.banks.flatMap((bank) => {
      const row = values.supports.rows.find((r) => r.path === bank.path);
      if (!row) return [];
      return [
        {
          name: row.name,
          tubes: tubesOf(bank),
          headers: headersOf(bank).map(({ header }) => ({
            from: uv(header.first),
            to: uv(header.last),
            outside_m: header.size.outer_m,
          })),
          lines_m: row.lines_m,
          member_m: row.member_m,
        },
      ];
    });
    if (banks.length === 0) return [];
    return [
      supportDrawing({
        id: `supports-${spec.id}`,
        title: `Supports: ${spec.name ?? spec.id}`,
        banks,
        compass: compass(project.collector.placement.facing_deg),
        length: (v) => say(v, 'length'),
      }),
    ];
  });
}

function loopDrawing(project: Project, say: Say): BuildDrawing {
  const { loop } = project;
  const pieces = (path: Path): SchematicPiece[] =>
    path.flatMap((e): SchematicPiece[] => {
      if (e.kind === 'tap') return [];
      if (e.kind === 'split')
        return [{ name: e.name ?? e.id, kind: 'device', note: `${e.branches.length} ways` }];
      const name = e.name ?? e.id;
      if (e.kind === 'pipe') {
        const label = joinableOf(e.pipe)?.pipe.label ?? e.pipe;
        return [
          { name, kind: 'pipe', note: `${say(e.length_m, 'length')}, ${label.replace(/^PVC sch /, 'sch ')}` },
        ];
      }
      if (e.kind === 'valve') return [{ name, kind: 'valve', note: e.role }];
      return [{ name, kind: e.kind, note: '' }];
    });
  const { bypass } = loop;
  return loopSchematic({
    id: 'loop',
    title: 'Loop',
    before: [
      ...loop.suctions.map((s): SchematicPiece => ({ name: s.name ?? s.id, kind: 'suction', note: '' })),
      ...pieces(loop.toPump),
      { name: loop.pump.name ?? 'Pump', kind: 'pump', note: say(loop.pump.height_m, 'length') },
      ...pieces(loop.toFilter),
      ...(loop.filter ? [{ name: 'Filter', kind: 'filter' as const, note: loop.filter.kind }] : []),
      ...pieces(loop.toBypass),
      ...(bypass.kind === 'none'
        ? []
        : [
            {
              name: 'Bypass',
              kind: 'bypass' as const,
              note: bypass.kind === 'threeWay' ? 'three-way' : 'two valves',
            },
          ]),
    ],
    through: [
      ...pieces(loop.feed),
      {
        name: 'Collector',
        kind: 'collector',
        note: `${project.collector.sections.length} section${project.collector.sections.length === 1 ? '' : 's'}`,
      },
      ...pieces(loop.return),
    ],
    past: bypass.kind === 'none' ? [] : pieces(bypass.past),
    after: [
      ...pieces(loop.toPool),
      ...loop.outlets.map(
        (o): SchematicPiece => ({
          name: o.name ?? o.id,
          kind: 'outlet',
          note: o.kind === 'overWater' ? 'over the water' : 'under water',
        }),
      ),
    ],
    hasBypass: bypass.kind !== 'none',
  });
}

function cutDrawings(values: BuildValues, units: Project['units']): BuildDrawing[] {
  return values.cutting.map((sheet) =>
    cuttingBars({
      id: `cuts-${sheet.pipe.replaceAll('/', '-')}`,
      title: `Cuts: ${sheet.label}`,
      bars: [...sheet.plan.bars]
        .sort((a, b) => sheet.stocks[b.stock].length_m - sheet.stocks[a.stock].length_m || b.bars - a.bars)
        .map((bar) => ({
          count: bar.bars,
          stock_m: sheet.stocks[bar.stock].length_m,
          onHand: sheet.stocks[bar.stock].from === 'onHand',
          cuts: bar.cuts.map((c) => ({ length_m: sheet.pieces[c.piece].length_m, count: c.count })),
          left_m: bar.left_m,
        })),
      kerf_m: sheet.kerf_m,
      length: (v) => cutLength(v, units),
    }),
  );
}

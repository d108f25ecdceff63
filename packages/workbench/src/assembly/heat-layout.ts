import { type PreparedPanel, preparePanel } from '@sunlap/engine/collector/panel-prepare';
import type { PanelDescription, PanelElement, PanelNeighbours } from '@sunlap/engine/collector/panel-types';
import type { Collector } from '@sunlap/project/schema/collector';
import type { PathElement, PipeRun } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatRow, heatRows } from './heat-rows';
import type { AssembledNetwork } from './network';
import type { PipeSize } from './sizes';
import type { Tables } from './tables';

/** What a piece of pipe stands in; one entry of the conditions for each. */
export type Standing =
  | { readonly kind: 'row'; readonly row: number; readonly tube: number; readonly outer_m: number }
  | {
      readonly kind: 'header';
      readonly angle_deg: number;
      readonly outer_m: number;
      readonly section: number;
    }
  | { readonly kind: 'coil'; readonly bank: number }
  | { readonly kind: 'pipe'; readonly surroundings: PipeRun['surroundings']; readonly size: PipeSize };

/** The heat side of a layout: one element per link of the way through the collector, and what each stands in. */
export interface HeatLayout {
  readonly rows: readonly HeatRow[];
  readonly panel: PreparedPanel;
  /** Link of each element. */
  readonly links: readonly number[];
  /** Element of each link of the network, −1 outside the way through. */
  readonly elementOf: Int32Array;
  /** By outside number; pieces with equal views share one. */
  readonly standings: readonly Standing[];
  /** For each piece: row tube that gives its light, by outside number. */
  readonly pieceStanding: Int32Array;
  /** Banks of rated absorbers, by their conditions' number. */
  readonly rated: readonly number[];
  readonly lying: boolean;
}

/** Tubes whose underside is nearer to the backing than a quarter of their thickness lie on it. */
const LYING_SHARE = 0.25;

/** Do the tubes lie on the backing, so that their rear exchanges with it instead of the air? */
export function tubesLie(collector: Collector, rows: readonly HeatRow[], outer_m: number): boolean {
  if (collector.backing.kind === 'none') return false;
  const clearance = Math.min(...rows.map((r) => r.clearance_m), Infinity);
  return !Number.isFinite(clearance) || clearance <= LYING_SHARE * outer_m;
}

/**
 * Lay out the panel for heat. Everything on the way through takes part: feed, headers, tubes, hand-overs and
 * return; valves and devices pass water on unchanged.
 */
export function heatLayout(project: Project, assembled: AssembledNetwork, tables: Tables): HeatLayout {
  const { collector } = project;
  const { links, nodes } = assembled.description;
  const rows = heatRows(collector, assembled.geometry);
  const elementOf = new Int32Array(links.length).fill(-1);
  const through: number[] = [];
  assembled.infos.forEach((info, link) => {
    if (!isThrough(info.path) || info.role === 'tap' || info.role === 'outlet') return;
    elementOf[link] = through.length;
    through.push(link);
  });
  const elements: PanelElement[] = [];
  const standings: Standing[] = [];
  const pieceStanding: number[] = [];
  const shared = new Map<string, number>();
  const rated: number[] = [];
  const stand = (key: string, make: () => Standing): number => {
    const known = shared.get(key);
    if (known !== undefined) return known;
    const number = standings.length;
    standings.push(make());
    shared.set(key, number);
    return number;
  };
  const inRow = rowPlaces(rows);
  for (const link of through) {
    const { from, to, law } = links[link];
    const info = assembled.infos[link];
    const element = (size: PipeSize, standing: number, extra: object = {}): void => {
      pieceStanding.push(standing);
      elements.push({
        kind: 'pipe',
        from,
        to,
        bore_m: size.bore_m,
        outerDiameter_m: size.outer_m,
        wallConductivity_WmK: size.wallConductivity_WmK,
        pieces: [{ length_m: lengthOf(law), outside: standing }],
        ...extra,
      });
    };
    const geometry = info.bank >= 0 ? assembled.geometry.banks[info.bank] : null;
    if (info.role === 'tube' && geometry?.kind === 'tubes') {
      const place = inRow.get(`${info.bank}/${info.unit}`)!;
      // every tube is its own standing: light and views differ at edges and when nested
      const standing = stand(`row ${place.row} ${place.tube}`, () => ({
        kind: 'row',
        row: place.row,
        tube: place.tube,
        outer_m: geometry.size!.outer_m,
      }));
      const near = neighboursOf(
        rows[place.row],
        place.tube,
        assembled,
        elementOf,
        Math.max(0.01, collector.surface.emittance),
      );
      element(geometry.size!, standing, near ? { neighbours: near } : {});
    } else if (info.role === 'tube' && geometry?.kind === 'coil' && law.kind === 'coil') {
      const standing = stand(`coil ${info.bank}`, () => ({ kind: 'coil', bank: info.bank }));
      element(geometry.size!, standing, { coilDiameter_m: law.coilDiameter_m });
    } else if (info.role === 'tube' && geometry?.kind === 'rated') {
      const bank = collector.sections[geometry.section].banks[geometry.bank];
      if (bank.kind !== 'rated') continue;
      if (!rated.includes(info.bank)) rated.push(info.bank);
      elements.push({
        kind: 'rated',
        from,
        to,
        area_m2: bank.area_m2,
        coefficients: { eta0: bank.eta0, bu: bank.bu_sPerM, b1: bank.b1_Wm2K, b2: bank.b2_JPerm3K },
        conditions: rated.indexOf(info.bank),
      });
    } else if (law.kind === 'pipe' && law.length_m > 0 && geometry) {
      const header = info.path.endsWith('/gather') ? geometry.gather : geometry.supply;
      const size = header?.size ?? geometry.gather?.size ?? geometry.size ?? tables.sizes('');
      const { section } = geometry;
      const angle = assembled.geometry.sections[section].axes.angle_deg + 90;
      element(
        size,
        // each section has its own shade and sky
        stand(`header ${size.id} ${angle} ${section}`, () => ({
          kind: 'header',
          angle_deg: angle,
          outer_m: size.outer_m,
          section,
        })),
      );
    } else if (law.kind === 'pipe' && law.length_m > 0) {
      const run = elementAt(project, info.path);
      const size =
        run?.kind === 'pipe'
          ? tables.sizes(run.pipe)
          : (assembled.geometry.banks[0]?.supply?.size ?? tables.sizes(''));
      const surroundings = run?.kind === 'pipe' ? run.surroundings : 'sun';
      element(
        size,
        stand(`pipe ${size.id} ${surroundings}`, () => ({ kind: 'pipe', surroundings, size })),
      );
    } else {
      elements.push({ kind: 'link', from, to });
    }
  }
  const description: PanelDescription = { nodeCount: nodes.length, elements };
  const outer = assembled.geometry.banks.find((b) => b.size)?.size?.outer_m ?? 0.02;
  return {
    rows,
    panel: preparePanel(description),
    links: through,
    elementOf,
    standings,
    pieceStanding: Int32Array.from(pieceStanding),
    rated,
    lying: tubesLie(collector, rows, outer),
  };
}

/** Is this part of the way through the collector? */
export function isThrough(path: string): boolean {
  return path.startsWith('/collector') || path.startsWith('/loop/feed') || path.startsWith('/loop/return');
}

function lengthOf(law: { kind: string; length_m?: number }): number {
  return Math.max(law.length_m ?? 0, 1e-3);
}

function rowPlaces(rows: readonly HeatRow[]): Map<string, { row: number; tube: number }> {
  const out = new Map<string, { row: number; tube: number }>();
  rows.forEach((r, row) => {
    r.tubes.forEach((t, tube) => {
      out.set(`${t.bank}/${t.unit}`, { row, tube });
    });
  });
  return out;
}

function neighboursOf(
  row: HeatRow,
  tube: number,
  assembled: AssembledNetwork,
  elementOf: Int32Array,
  emittance: number,
): PanelNeighbours | null {
  const { sight } = row;
  const element = (i: number): number => {
    if (i < 0) return -1;
    const { bank, unit } = row.tubes[i];
    const link = assembled.banks[bank]?.units[unit];
    return link === undefined ? -1 : elementOf[link];
  };
  const left = element(sight.left[tube]);
  const right = element(sight.right[tube]);
  if (left < 0 && right < 0) return null;
  return { left, right, view: Math.min(1, sight.neighbours[tube]), emittance };
}

/** Path element at a JSON pointer, null when there is none. */
export function elementAt(project: Project, pointer: string): PathElement | null {
  let value: unknown = project;
  for (const key of pointer.split('/').slice(1)) {
    if (typeof value !== 'object' || value === null) return null;
    value = (value as Record<string, unknown>)[key];
  }
  return typeof value === 'object' && value !== null && 'kind' in value ? (value as PathElement) : null;
}

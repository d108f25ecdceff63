import { preparePanel } from '@sunlap/engine/collector/panel-prepare';
import type { PanelElement } from '@sunlap/engine/collector/panel-types';
import { type LitStretch, litStretches, type YardLine } from '@sunlap/engine/sun/shade-edges';
import type { Obstacle, YardPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { PanelPoint } from './frame';
import type { BankGeometry, HeaderGeometry } from './geometry';
import type { HeatLayout } from './heat-layout';
import type { AssembledNetwork } from './network';

/** What stands round the collector, and the sun, at one moment. */
export interface MomentShade {
  readonly solids: readonly Obstacle[];
  readonly names: readonly string[];
  /** 0 = January. */
  readonly month: number;
  readonly azimuth_deg: number;
  readonly elevation_deg: number;
  /** Share of the sky that each section still sees [–]. */
  readonly skyOfSection: readonly number[];
}

/** A layout whose pieces are cut where a shadow's edge crosses them. */
export interface ShadedLayout extends HeatLayout {
  readonly shaded: ShadedPieces;
}

export interface ShadedPieces {
  /** The layout without cuts. */
  readonly plain: HeatLayout;
  /** Share of direct light on each piece [–]; by conditions' number on banks of rated absorbers. */
  readonly pieces: Float64Array;
  readonly rated: Float64Array;
  /** Mean over the tubes by their length [–]. */
  readonly mean: number;
}

/** Layouts cut lately: a moment and the hours of its sunny day come again while only numbers are dragged. */
const cuts = new WeakMap<HeatLayout, { solids: readonly Obstacle[]; byHour: Map<string, HeatLayout> }>();
const MOST_HOURS = 10;

const WHOLE: readonly LitStretch[] = [{ from: 0, to: 1, share: 1 }];

/**
 * Cuts tubes and header pieces where the edge of a shadow crosses them, so that every piece has one share of direct
 * light and is marched by itself. A coil is wound through its shadow many times and a rated absorber has no tubes of
 * its own: they get the mean along their middle. Pipes whose way is not known get the mean of all tubes.
 *
 * @param layout without cuts; what was cut of it is kept
 * @returns the layout itself where nothing shades
 */
export function shadeLayout(
  layout: HeatLayout,
  assembled: AssembledNetwork,
  shade: MomentShade | null | undefined,
): HeatLayout {
  if (!shade) return layout;
  const kept = cuts.get(layout);
  const known = kept?.solids === shade.solids ? kept : { solids: shade.solids, byHour: new Map() };
  cuts.set(layout, known);
  const hour = `${shade.month} ${shade.azimuth_deg} ${shade.elevation_deg}`;
  const cut = known.byHour.get(hour) ?? cutLayout(layout, assembled, shade);
  known.byHour.set(hour, cut);
  if (known.byHour.size > MOST_HOURS) known.byHour.delete(known.byHour.keys().next().value!);
  return cut;
}

function cutLayout(layout: HeatLayout, assembled: AssembledNetwork, shade: MomentShade): HeatLayout {
  const { panel } = layout;
  const lines = layout.links.map((link) => lineOf(assembled, link));
  const drawn = lines.flatMap((line) => (line ? [line] : []));
  const lit = litStretches(drawn, shade.solids, shade.month, shade.azimuth_deg, shade.elevation_deg);
  let next = 0;
  const stretches = lines.map((line) => (line ? lit[next++] : null));
  const mean = meanOfTubes(layout, assembled, stretches);
  const elements: PanelElement[] = [];
  const share: number[] = [];
  const standing: number[] = [];
  const rated = new Float64Array(layout.rated.length);
  const ratedArea = new Float64Array(layout.rated.length);
  let cut = false;
  panel.description.elements.forEach((element, e) => {
    const own = stretches[e];
    if (element.kind === 'rated') {
      rated[element.conditions] += element.area_m2 * meanOf(own ?? WHOLE);
      ratedArea[element.conditions] += element.area_m2;
    }
    if (element.kind !== 'pipe') {
      elements.push(element);
      return;
    }
    const length = panel.length_m[e];
    const from = panel.pieceStart[e];
    const isCoil = element.coilDiameter_m !== undefined;
    const parts: readonly LitStretch[] = own
      ? isCoil
        ? [{ from: 0, to: 1, share: meanOf(own) }]
        : own
      : [{ from: 0, to: 1, share: mean }];
    if (parts.length > 1) cut = true;
    elements.push({
      ...element,
      pieces: parts.map((p) => ({
        length_m: length * (p.to - p.from),
        outside: layout.pieceStanding[from],
      })),
    });
    for (const p of parts) {
      share.push(p.share);
      standing.push(layout.pieceStanding[from]);
    }
  });
  const shaded: ShadedLayout = {
    ...layout,
    panel: cut ? preparePanel({ ...panel.description, elements }) : panel,
    pieceStanding: cut ? Int32Array.from(standing) : layout.pieceStanding,
    shaded: {
      plain: layout,
      pieces: Float64Array.from(share),
      rated: rated.map((sum, k) => (ratedArea[k] > 0 ? sum / ratedArea[k] : 1)),
      mean,
    },
  };
  return shaded;
}

/** What is shaded of a layout; null where nothing is. */
export function shadedPieces(layout: HeatLayout): ShadedPieces | null {
  return (layout as Partial<ShadedLayout>).shaded ?? null;
}

/** The layout without cuts. */
export function plainLayout(layout: HeatLayout): HeatLayout {
  return shadedPieces(layout)?.plain ?? layout;
}

/** Mean share of direct light on the tubes if one thing were gone [–]. */
export function meanWithout(
  layout: HeatLayout,
  assembled: AssembledNetwork,
  shade: MomentShade,
  gone: number,
): number {
  const solids = shade.solids.filter((_, k) => k !== gone);
  const lines = layout.links.map((link) => lineOf(assembled, link));
  const drawn = lines.flatMap((line) => (line ? [line] : []));
  const lit = litStretches(drawn, solids, shade.month, shade.azimuth_deg, shade.elevation_deg);
  let next = 0;
  return meanOfTubes(
    layout,
    assembled,
    lines.map((line) => (line ? lit[next++] : null)),
  );
}

function meanOf(stretches: readonly LitStretch[]): number {
  return stretches.reduce((sum, s) => sum + (s.to - s.from) * s.share, 0);
}

/** By the ground that tubes, coils and absorbers stand for: length × diameter, or area. */
function meanOfTubes(
  layout: HeatLayout,
  assembled: AssembledNetwork,
  stretches: readonly (readonly LitStretch[] | null)[],
): number {
  let sum = 0;
  let size = 0;
  layout.panel.description.elements.forEach((element, e) => {
    const own = stretches[e];
    if (!own || assembled.infos[layout.links[e]].role !== 'tube') return;
    const weight =
      element.kind === 'pipe'
        ? layout.panel.length_m[e] * element.outerDiameter_m
        : element.kind === 'rated'
          ? element.area_m2
          : 0;
    sum += weight * meanOf(own);
    size += weight;
  });
  return size > 0 ? sum / size : 1;
}

/** Where a link of the collector lies, from its first node to its last; null where nobody has said it. */
function lineOf(assembled: AssembledNetwork, link: number): YardLine | null {
  const { role, bank, unit } = assembled.infos[link];
  const geometry = bank >= 0 ? assembled.geometry.banks[bank] : null;
  if (!geometry) return null;
  if (role === 'tube') return unitLine(geometry, unit);
  if (role === 'supplyHeader' && geometry.supply) return headerLine(geometry.supply, unit);
  if (role === 'gatherHeader' && geometry.gather) return headerLine(geometry.gather, unit);
  return null;
}

function unitLine(bank: BankGeometry, unit: number): YardLine {
  const { near, far, entersNear } = bank.units[unit];
  return entersNear ? { a: yard(near), b: yard(far) } : { a: yard(far), b: yard(near) };
}

/** Header pieces run from the first end to the last: lead-in, between tees, lead-in. */
function headerLine(header: HeaderGeometry, piece: number): YardLine {
  const { first, last, tees } = header;
  return { a: yard(tees[piece - 1] ?? first), b: yard(tees[piece] ?? last) };
}

function yard({ x_m, y_m, height_m }: PanelPoint): YardPoint {
  return [x_m, y_m, height_m];
}

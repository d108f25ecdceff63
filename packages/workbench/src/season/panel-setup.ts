import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from '@sunlap/engine/collector/options';
import { EMITTANCE_OVER_ABSORPTANCE } from '@sunlap/engine/collector/rated-absorber';
import { type RowFrame, rowFrame } from '@sunlap/engine/collector/row-frame';
import type { RowOptics } from '@sunlap/engine/collector/row-light';
import { evenRow, type RowSight, rowSight } from '@sunlap/engine/collector/row-sight';
import { tubeCapacity_JmK } from '@sunlap/engine/collector/standing';
import { panelResponse } from '@sunlap/engine/season/panel-response';
import {
  type KindLight,
  type KindOutside,
  outsideCurve,
  type PanelKind,
  type PanelSetup,
} from '@sunlap/engine/season/panel-year';
import { type RowMean, rowMean } from '@sunlap/engine/season/row-mean';
import type { CoilBank } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import {
  BACK_LOSS,
  BACKING_EMITTANCE,
  LEAST_EMITTANCE,
  loneSight,
  pipeSurface,
  SHADY_SKY,
} from '../assembly/heat-assumed';
import { coilTurns } from '../assembly/heat-conditions';
import { type HeatLayout, heatLayout, type Standing } from '../assembly/heat-layout';
import type { Tables } from '../assembly/tables';
import { wallOfPiece_Jm3K } from '../heat/wall-heat';
import type { LoopFlows } from './loop-flows';

/**
 * Between water temperatures at which the loop is solved and the panel's response tabulated [K]: so that straight
 * lines between leave no tube's flow 0.1 % off.
 */
const SMOOTH_STEP_K = 2.5;
const KINKED_STEP_K = 0.6;

/** Step of the water's temperature in the panel's response [K]. */
export function responseStep_K(flows: Pick<LoopFlows, 'smooth'>): number {
  return flows.smooth ? SMOOTH_STEP_K : KINKED_STEP_K;
}
/** Directions of a coil's winding over which its light is averaged. */
const COIL_DIRECTIONS = 8;
const WATER_JM3K = 4.16e6;
/** Water that a rated absorber holds where the file does not say it [m³/m²]; judgement. */
const RATED_HOLDS = 0.005;
/** The moment at which conductances are compared. */
const ORDINARY = { air_C: 22, wind_ms: 1, pressure_Pa: 100_000, sky_C: 8 };
const ORDINARY_SURFACE_C = 30;

/** What stays while only the plane's light, flows or options change. */
export interface PanelLayout {
  readonly layout: HeatLayout;
  readonly rows: Map<string, RowMean>;
}

export function panelLayout(project: Project, flows: LoopFlows, tables: Tables): PanelLayout {
  return { layout: heatLayout(project, flows.assembled, tables), rows: new Map() };
}

/**
 * How much of the tubes lies in each part of the yard's scene: length × diameter, or area [m²]. Pipe whose way is not
 * drawn gets the parts' light by these weights, as in the study of a moment.
 */
export function tubesByPart(
  { assembled }: Pick<LoopFlows, 'assembled'>,
  { layout }: PanelLayout,
  partOfSection: readonly number[],
): Float64Array {
  const { infos, geometry } = assembled;
  const { panel, links } = layout;
  const out = new Float64Array(1 + Math.max(0, ...partOfSection));
  panel.description.elements.forEach((element, e) => {
    const { role, bank } = infos[links[e]];
    if (role !== 'tube' || element.kind === 'link') return;
    const size = element.kind === 'rated' ? element.area_m2 : panel.length_m[e] * element.outerDiameter_m;
    out[partOfSection[geometry.banks[bank].section]] += size;
  });
  return out;
}

/**
 * The panel by kinds of surroundings: one kind for the tubes of each row (and section), size and direction of header
 * (and section), bank of coils, pipe and place, rated bank. Null when nothing flows.
 *
 * The parts of the scene are places in the weather's shares; the one past the last is their mean, for pipe whose way
 * is not drawn.
 *
 * @param partOfSection part of the yard's scene in which each section lies
 * @param apart         rows that run through several sections are taken apart, and headers by their section, because each has its own shade
 */
export function panelSetup(
  project: Project,
  flows: LoopFlows,
  { layout, rows }: PanelLayout,
  partOfSection: readonly number[],
  options: HeatOptions = DEFAULT_HEAT_OPTIONS,
  apart = false,
): PanelSetup | null {
  if (!(flows.collector_kgs > 0)) return null;
  const { collector } = project;
  const { tilt_deg, facing_deg } = collector.placement;
  const { geometry } = flows.assembled;
  const emittance = Math.max(LEAST_EMITTANCE, collector.surface.emittance);
  const optics: RowOptics = {
    absorptance: collector.surface.absorptance,
    backing:
      collector.backing.kind === 'none'
        ? null
        : { reflectance: collector.backing.reflectance, contact: layout.lying ? 'lying' : 'spaced' },
  };
  const kinds: PanelKind[] = [];
  const kindByKey = new Map<string, number>();
  const kind = (key: string, make: () => Omit<PanelKind, 'name' | 'capacity_JK'>): number => {
    const known = kindByKey.get(key);
    if (known !== undefined) return known;
    kinds.push({ name: key, capacity_JK: 0, ...make() });
    kindByKey.set(key, kinds.length - 1);
    return kinds.length - 1;
  };
  const light = (key: string, make: () => RowMean): RowMean => {
    const whole = `${key} ${tilt_deg} ${facing_deg} ${JSON.stringify(optics)}`;
    const known = rows.get(whole) ?? make();
    rows.set(whole, known);
    return known;
  };
  const inRow = (outer_m: number, front: number, rear: number, strip: number): KindOutside => {
    const tube = { diameter_m: outer_m, emittance, front, rear, tilt_deg };
    if (!layout.lying) return { kind: 'open', tube };
    return {
      kind: 'backed',
      tube,
      backing: {
        emittance: BACKING_EMITTANCE,
        behind_Wm2K: collector.backing.backLoss_Wm2K ?? BACK_LOSS[collector.backing.kind],
        strip_m: Math.max(strip, 1e-4),
      },
      behind: collector.backing.kind === 'ground' ? 'ground' : 'air',
    };
  };
  const onPanel = (list: RowMean[], strip_m: number): KindLight => ({
    rows: list,
    plane: 0,
    direct: 1,
    diffuse: 1,
    strip_m,
  });

  const meanPart = 1 + Math.max(0, ...partOfSection);
  const kindOfStanding = (s: Standing, section: number | null): number => {
    switch (s.kind) {
      case 'row': {
        const row = layout.rows[s.row];
        const sectionOf = (tube: number): number => geometry.banks[row.tubes[tube].bank].section;
        // a row may run through several sections: each has its own shade
        const own = apart ? sectionOf(s.tube) : null;
        const key = `row ${s.row} ${s.outer_m} ${own ?? 'all'}`;
        return kind(key, () => {
          const members = row.tubes.flatMap((_, i) =>
            Math.abs(row.sight.row.diameter_m[i] - s.outer_m) < 1e-9 && (own === null || sectionOf(i) === own)
              ? [i]
              : [],
          );
          const mean = (values: ArrayLike<number>): number =>
            members.reduce((sum, i) => sum + values[i], 0) / members.length;
          const { sight } = row;
          const strip = mean(sight.strip_m);
          return {
            group: 'tubes',
            outside: inRow(s.outer_m, mean(sight.front), mean(sight.rear), strip),
            light: onPanel(
              [
                light(`${rowKey(sight, row.frame, s.outer_m)} ${members.length} ${members[0]}`, () =>
                  rowMean(row.frame, sight, optics, members),
                ),
              ],
              strip,
            ),
            part: partOfSection[sectionOf(members[0])],
          };
        });
      }
      case 'coil': {
        const bank = geometry.banks[s.bank];
        const spec = collector.sections[bank.section].banks[bank.bank] as CoilBank;
        const outer = bank.size!.outer_m;
        return kind(`coil ${s.bank}`, () => {
          const { turns, pitch_m } = coilTurns(spec, outer);
          const sight = rowSight(evenRow(turns, pitch_m, outer));
          const mean = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / turns;
          const strip = mean(sight.strip_m);
          const list = Array.from({ length: COIL_DIRECTIONS }, (_, k) =>
            light(`coil ${turns} ${pitch_m} ${outer} ${k}`, () =>
              rowMean(rowFrame(tilt_deg, facing_deg, (k * 180) / COIL_DIRECTIONS), sight, optics),
            ),
          );
          return {
            group: 'tubes',
            outside: inRow(outer, mean(sight.front), mean(sight.rear), strip),
            light: onPanel(list, strip),
            part: partOfSection[bank.section],
          };
        });
      }
      case 'header':
        return kind(`header ${s.outer_m} ${s.angle_deg} ${section ?? 'all'}`, () => ({
          group: 'headers',
          outside: lone(s.outer_m, emittance, tilt_deg),
          light: onPanel(
            [
              light(`header ${s.outer_m} ${s.angle_deg}`, () =>
                rowMean(rowFrame(tilt_deg, facing_deg, s.angle_deg), loneSight(s.outer_m), {
                  absorptance: optics.absorptance,
                  backing: null,
                }),
              ),
            ],
            0,
          ),
          part: section === null ? meanPart : partOfSection[section],
        }));
      case 'pipe':
        return kind(`pipe ${s.size.id} ${s.surroundings}`, () => pipeKind(s, facing_deg, meanPart, light));
    }
  };

  const { panel } = layout;
  const kindOfPiece = new Int32Array(layout.pieceStanding.length);
  layout.links.forEach((link, e) => {
    const { bank } = flows.assembled.infos[link];
    const section = apart && bank >= 0 ? geometry.banks[bank].section : null;
    for (let p = panel.pieceStart[e]; p < panel.pieceStart[e + 1]; p++)
      kindOfPiece[p] = kindOfStanding(layout.standings[layout.pieceStanding[p]], section);
  });
  const kindOfRated = new Int32Array(panel.from.length).fill(-1);
  const capacity: number[] = [];
  const hold = (k: number, j: number): void => {
    capacity[k] = (capacity[k] ?? 0) + j;
  };
  panel.description.elements.forEach((element, e) => {
    if (element.kind === 'rated') {
      const bank = geometry.banks[layout.rated[element.conditions]];
      const spec = collector.sections[bank.section].banks[bank.bank];
      if (spec.kind !== 'rated') return;
      kindOfRated[e] = kind(`rated ${element.conditions}`, () => ({
        group: 'tubes',
        outside: {
          kind: 'rated',
          coefficients: element.coefficients,
          ratio: spec.emittanceOverAbsorptance ?? EMITTANCE_OVER_ABSORPTANCE,
        },
        light: null,
        part: partOfSection[bank.section],
      }));
      hold(kindOfRated[e], (spec.volume_m3 ?? RATED_HOLDS * spec.area_m2) * WATER_JM3K);
    } else if (element.kind === 'pipe') {
      const { bank } = flows.assembled.infos[layout.links[e]];
      for (let p = panel.pieceStart[e]; p < panel.pieceStart[e + 1]; p++) {
        const wall = wallOfPiece_Jm3K(layout, geometry, layout.pieceStanding[p], bank);
        const metre_JK = tubeCapacity_JmK(element.bore_m, element.outerDiameter_m, undefined, wall);
        hold(kindOfPiece[p], metre_JK * panel.pieceLength_m[p]);
      }
    }
  });
  const filled = kinds.map((k, i) => ({ ...k, capacity_JK: capacity[i] ?? 0 }));
  const reference = Float64Array.from(filled, (k) => ordinaryConductance(k.outside, options));
  const size = filled.map((k, i) => (k.group === 'tubes' ? k.capacity_JK * reference[i] : 0));
  const main = Math.max(0, size.indexOf(Math.max(...size)));
  const response = panelResponse(
    panel,
    kindOfPiece,
    kindOfRated,
    reference,
    main,
    (water_C) => {
      const all = flows.at(water_C);
      const own = new Float64Array(layout.links.length);
      for (let e = 0; e < own.length; e++) own[e] = all[layout.links[e]];
      return own;
    },
    options.laminarGain,
    responseStep_K(flows),
  );
  return {
    response,
    kinds: filled,
    planes: [
      { tilt_deg, facing_deg },
      { tilt_deg: 0, facing_deg },
    ],
    albedo: project.site.groundAlbedo,
    skyModel: options.skyModel,
    plateFilm: options.plateFilm,
    powerThrough_W: flows.powerThrough_W,
    powerPast_W: flows.powerPast_W,
  };
}

/** Rows that look alike share their light. */
function rowKey(sight: RowSight, { axis }: RowFrame, outer_m: number): string {
  const { across_m, depth_m, diameter_m } = sight.row;
  let sum = 0;
  for (let i = 0; i < sight.count; i++)
    sum += (across_m[i] - across_m[0]) * (i + 1) + 31 * (depth_m[i] - depth_m[0]) * (i + 2) + diameter_m[i];
  return `${outer_m} ${sight.count} ${sum.toPrecision(12)} ${axis.east} ${axis.north}`;
}

function ordinaryConductance(o: KindOutside, options: HeatOptions): number {
  if (o.kind === 'rated') return o.coefficients.b1 + o.coefficients.b2;
  const state = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  outsideCurve(o, ORDINARY, 15, 22, options.plateFilm).exact(ORDINARY_SURFACE_C, state);
  return state.conductance_WmK;
}

function lone(outer_m: number, emittance: number, tilt_deg: number): KindOutside {
  return { kind: 'open', tube: { diameter_m: outer_m, emittance, front: 0.5, rear: 0.5, tilt_deg } };
}

/** Feed and return: level pipe of which only the length is known, the mean of two directions at right angles. */
function pipeKind(
  s: Extract<Standing, { kind: 'pipe' }>,
  facing_deg: number,
  part: number,
  light: (key: string, make: () => RowMean) => RowMean,
): Omit<PanelKind, 'name' | 'capacity_JK'> {
  const outer = s.size.outer_m;
  const base = { group: 'pipes', part } as const;
  if (s.surroundings === 'indoors')
    return { ...base, outside: { kind: 'indoors', diameter_m: outer }, light: null };
  if (s.surroundings === 'buried')
    return { ...base, outside: { kind: 'buried', diameter_m: outer }, light: null };
  const own = pipeSurface(s.size);
  const rows = [0, 90].map((angle) =>
    light(`pipe ${outer} ${own.absorptance} ${angle}`, () =>
      rowMean(rowFrame(0, facing_deg, angle), loneSight(outer), {
        absorptance: own.absorptance,
        backing: null,
      }),
    ),
  );
  const sunny = s.surroundings === 'sun';
  return {
    ...base,
    outside: lone(outer, own.emittance, 0),
    light: { rows, plane: 1, direct: sunny ? 1 : 0, diffuse: sunny ? 1 : SHADY_SKY, strip_m: 0 },
  };
}

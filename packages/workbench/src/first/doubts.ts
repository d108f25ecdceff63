import type { Plumbing } from '@sunlap/project/schema/collector';
import type { PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import type { Tables } from '../assembly/tables';

export type Doubt = NonNullable<Project['unsure']>[number];

/** A project as it could as well be. */
export interface Otherwise {
  readonly project: Project;
  readonly tables: Tables;
}

/** What "don't know" to one question leaves open, as the two ends of what is likely. */
export interface DoubtRow {
  readonly doubt: Doubt;
  /** In the person's words, to go on "What makes it unsure is …". */
  readonly label: string;
  /** How to get rid of it. */
  readonly settle: string;
  /** Why these ends. */
  readonly reason: string;
  /** True when water runs otherwise, so that flow must be solved again. */
  readonly movesFlow: boolean;
  readonly ends: (at: Otherwise) => readonly Otherwise[];
}

/** Head of an unknown pump, as a share; shelf pumps of one rating differ by a fifth to a third. */
const PUMP_HEAD = 0.2;
/** Fittings and lengths of plumbing that nobody has counted. */
const FITTINGS = 0.5;
const LENGTH = 0.2;
/** Bore: from the next schedule up to thin wall in the same nominal size. */
const BORE_LOW = 0.94;
const BORE_HIGH = 1.05;
const WALL_LOW = 0.7;
/** Wind at the tubes over wind at 10 m: from a walled court to a bare roof. */
const EXPOSURE_LOW = 0.04;
const EXPOSURE_HIGH = 0.75;
/** Dull black paint to a grey or weathered pipe. */
const ABSORPTANCE_LOW = 0.85;
const ABSORPTANCE_HIGH = 0.97;
const FACING_DEG = 30;
const TILT_DEG = 10;
const LATITUDE_DEG = 3;
/** Volume of a pool paced out and guessed in depth. */
export const POOL_VOLUME = 0.25;

/**
 * How each "don't know" widens what depends on it. Wide on purpose: the person sees the band shrink as they find
 * out. All ends are judgement unless said.
 */
export const DOUBTS: readonly DoubtRow[] = [
  {
    doubt: 'pump',
    label: 'which pump it is',
    settle: 'Read the size on the pump’s plate; a pressure reading at the filter says more still.',
    reason:
      'Head ±20 %: pumps with one power on the plate differ by a fifth to a third (common practice). By the affinity laws that is speed × √0.8 and × √1.2.',
    movesFlow: true,
    ends: (at) =>
      [1 - PUMP_HEAD, 1 + PUMP_HEAD].map((head) => {
        const { loop } = at.project;
        const speed = loop.pump.speed * Math.sqrt(head);
        return withProject(at, { loop: { ...loop, pump: { ...loop.pump, speed } } });
      }),
  },
  {
    doubt: 'plumbing',
    label: 'how the pipes run',
    settle: 'Follow the pipes once: count elbows, pace out the lengths.',
    reason: 'Fittings ±50 % and lengths ±20 %: what a guess of pipes under ground and behind walls is worth.',
    movesFlow: true,
    ends: (at) =>
      [-1, 1].map((sign) =>
        withProject(at, roughPlumbing(at.project, 1 + sign * FITTINGS, 1 + sign * LENGTH)),
      ),
  },
  {
    doubt: 'pipe',
    label: 'which pipe it is',
    settle: 'Read the print on the pipe, or measure across it and count the wall at a cut end.',
    reason:
      'Bore −6 to +5 %, and a wall that lets 30 % less heat through: neighbouring wall classes and plastics of one nominal size.',
    movesFlow: true,
    ends: (at) => [withBore(at, BORE_LOW, WALL_LOW), withBore(at, BORE_HIGH, 1)],
  },
  {
    doubt: 'wind',
    label: 'how much wind reaches the tubes',
    settle:
      'Hold a ribbon beside the tubes on a windy day and choose the setting that fits; a test day settles it best.',
    reason: 'Exposure from a walled court to a bare roof: the whole table.',
    movesFlow: false,
    ends: (at) =>
      [EXPOSURE_LOW, EXPOSURE_HIGH].map((windRatio) =>
        withProject(at, {
          site: {
            ...at.project.site,
            exposure: { ...at.project.site.exposure, collector: { setting: 'own', windRatio } },
          },
        }),
      ),
  },
  {
    doubt: 'surface',
    label: 'how black the tubes are',
    settle: 'Look: dead black beside a black cloth is 0.95, dark grey 0.85.',
    reason: 'Absorptance 0.85 to 0.97: dark grey or weathered to flat black.',
    movesFlow: false,
    ends: (at) =>
      [ABSORPTANCE_LOW, ABSORPTANCE_HIGH].map((absorptance) =>
        withProject(at, {
          collector: {
            ...at.project.collector,
            surface: { ...at.project.collector.surface, absorptance },
          },
        }),
      ),
  },
  {
    doubt: 'placement',
    label: 'which way the panel looks',
    settle: 'A compass in a telephone, or the shadow of a stick at noon, gives the direction within 5°.',
    reason: 'Direction ±30°, slope ±10°: a guess by eye.',
    movesFlow: false,
    ends: (at) => {
      const { placement } = at.project.collector;
      const turned = (facing: number, tilt: number): Otherwise =>
        withProject(at, {
          collector: {
            ...at.project.collector,
            placement: {
              ...placement,
              facing_deg: (placement.facing_deg + facing + 360) % 360,
              tilt_deg: Math.min(90, Math.max(0, placement.tilt_deg + tilt)),
            },
          },
        });
      return [turned(-FACING_DEG, 0), turned(FACING_DEG, 0), turned(0, -TILT_DEG), turned(0, TILT_DEG)];
    },
  },
  {
    doubt: 'place',
    label: 'where on earth it stands',
    settle: 'Any map gives latitude and longitude; a tenth of a degree is plenty.',
    reason: 'Latitude ±3°: a neighbouring state or country.',
    movesFlow: false,
    ends: (at) =>
      [-LATITUDE_DEG, LATITUDE_DEG].map((by) => {
        const { site } = at.project;
        const latitude_deg = Math.max(-90, Math.min(90, site.latitude_deg + by));
        return withProject(at, { site: { ...site, latitude_deg } });
      }),
  },
  {
    doubt: 'pool',
    label: 'how much water the pool holds',
    settle: 'Pace out length and width, dip a pole at both ends.',
    reason: 'Volume ±25 %: paced out, depth guessed. Moves degrees per day, not heat.',
    movesFlow: false,
    ends: () => [],
  },
];

function withProject(at: Otherwise, change: Partial<Project>): Otherwise {
  return { ...at, project: { ...at.project, ...change } };
}

/** Every pipe that was guessed: of the loop, past the collector, to and between its sections. */
function roughPlumbing({ loop, collector }: Project, fittings: number, lengths: number): Partial<Project> {
  const path = (elements: readonly PathElement[]): PathElement[] =>
    elements.map((e) => {
      if (e.kind === 'split') return { ...e, branches: e.branches.map(path) };
      if (e.kind !== 'pipe') return e;
      return {
        ...e,
        length_m: e.length_m * lengths,
        ...(e.fittings ? { fittings: e.fittings.map((f) => ({ ...f, count: f.count * fittings })) } : {}),
      };
    });
  const part = (p: Plumbing): Plumbing => ({
    ...p,
    ...(p.before ? { before: path(p.before) } : {}),
    ...(p.after ? { after: path(p.after) } : {}),
    ...(p.series ? { series: p.series.map(part) } : {}),
    ...(p.parallel ? { parallel: p.parallel.map(part) } : {}),
  });
  const sections = collector.sections.map((section) => ({
    ...section,
    handovers: section.handovers.map((h) => ({
      ...h,
      joins: h.joins.map((join) => (join.path ? { ...join, path: path(join.path) } : join)),
    })),
  }));
  const { bypass } = loop;
  return {
    loop: {
      ...loop,
      suctions: loop.suctions.map((s) => ({ ...s, path: path(s.path) })),
      toPump: path(loop.toPump),
      toFilter: path(loop.toFilter),
      toBypass: path(loop.toBypass),
      bypass: bypass.kind === 'none' ? bypass : { ...bypass, past: path(bypass.past) },
      feed: path(loop.feed),
      return: path(loop.return),
      toPool: path(loop.toPool),
      outlets: loop.outlets.map((o) => ({ ...o, path: path(o.path) })),
      ...(loop.returnOutlet
        ? { returnOutlet: { ...loop.returnOutlet, path: path(loop.returnOutlet.path) } }
        : {}),
    },
    collector: { ...collector, sections, plumbing: part(collector.plumbing) },
  };
}

/** The tubes' pipe otherwise; pipes of another kind are as they are. */
function withBore(at: Otherwise, bore: number, wall: number): Otherwise {
  const { tables } = at;
  const banks = at.project.collector.sections.flatMap((s) => s.banks);
  const tubes = new Set(banks.flatMap((b) => (b.kind === 'rated' ? [] : [b.pipe])));
  const sizes: Tables['sizes'] = (id) => {
    const size = tables.sizes(id);
    if (!tubes.has(id)) return size;
    return {
      ...size,
      bore_m: size.bore_m * bore,
      wallConductivity_WmK: size.wallConductivity_WmK * wall,
    };
  };
  // the project is copied so that nothing prepared for the other pipe is used for this one
  const { collector } = at.project;
  return { project: { ...at.project, collector: { ...collector } }, tables: { ...tables, sizes } };
}

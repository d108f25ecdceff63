import { shelfPump } from '@sunlap/engine/hydraulics/pump-shelf';
import type { Collector, Plumbing, Section, TubeBank } from '@sunlap/project/schema/collector';
import type { Loop, Outlet } from '@sunlap/project/schema/loop';
import type { PipeRun, Valve } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { kvFromLoss } from '../src/assembly/losses';
import type { PipeSize } from '../src/assembly/sizes';
import type { Tables } from '../src/assembly/tables';

/** Invented projects, small and legal, for tests and benches. */

const BORES: Record<string, [bore_mm: number, outer_mm: number]> = {
  half: [15.8, 21.34],
  threeQuarter: [20.93, 26.67],
  one: [26.64, 33.4],
  oneAndHalf: [40.9, 48.26],
  two: [52.5, 60.33],
  three: [77.9, 88.9],
  thin: [17.2, 20],
};

/** Own tables, so that a test of assembly does not depend on the data package. */
export const TEST_TABLES: Tables = {
  sizes: (id): PipeSize => {
    const row = BORES[id] ?? BORES.half;
    return {
      id,
      name: id,
      material: 'PVC',
      bore_m: row[0] / 1000,
      outer_m: row[1] / 1000,
      roughness_m: 1.5e-6,
      wallConductivity_WmK: 0.16,
      rating_Pa: 2e6,
    };
  },
  shelf: () => shelfPump(745.7),
  openKv_m3h: (type, _pipe, bore_m) =>
    kvFromLoss(type === 'check' ? 2 : type === 'diverter' ? 1.5 : 0.2, bore_m),
  characteristic: () => undefined,
  viscousShare: () => 0.7,
  knowsPipe: (id) => id in BORES,
  knowsPump: () => true,
};

export function pipe(id: string, length_m: number, over: Partial<PipeRun> = {}): PipeRun {
  return { kind: 'pipe', id, pipe: 'oneAndHalf', length_m, surroundings: 'shade', ...over };
}

export function valve(id: string, opening: number, over: Partial<Valve> = {}): Valve {
  return { kind: 'valve', id, role: 'isolating', type: 'ball', opening, ...over };
}

export function tubes(id: string, over: Partial<TubeBank> = {}): TubeBank {
  return {
    kind: 'tubes',
    id,
    across_m: 0,
    depth_m: 0.03,
    count: 10,
    length_m: 6,
    pitch_m: 0.07,
    pipe: 'half',
    supply: { pipe: 'oneAndHalf' },
    gather: { pipe: 'oneAndHalf' },
    ...over,
  };
}

export function section(id: string, over: Partial<Section> = {}): Section {
  return {
    id,
    u_m: 0,
    v_m: 0,
    direction: 'contour',
    inletSide: 'near',
    inletEnds: ['first'],
    outletEnds: ['first'],
    banks: [tubes(`${id}1`)],
    handovers: [],
    ...over,
  };
}

export function collector(
  sections: Section[],
  plumbing?: Plumbing,
  over: Partial<Collector> = {},
): Collector {
  return {
    placement: { x_m: 0, y_m: 8, facing_deg: 180, tilt_deg: 20, lowestHeight_m: 0.5, mounting: 'rack' },
    backing: { kind: 'none', reflectance: 0 },
    surface: { colour: 'own', absorptance: 0.94, emittance: 0.92 },
    sections,
    plumbing:
      plumbing ??
      (sections.length === 1
        ? { section: sections[0].id }
        : { parallel: sections.map((s) => ({ section: s.id })) }),
    supports: { spacing_m: 0.8, bearing_m: 0.038, heightError_m: 0.002 },
    taps: [],
    ...over,
  };
}

export const WALL_OUTLET: Outlet = {
  id: 'outlet',
  kind: 'underWater',
  height_m: -0.3,
  bore_m: 0.035,
  path: [],
};

export function loop(over: Partial<Loop> = {}): Loop {
  return {
    suctions: [
      { id: 'skimmer', kind: 'skimmer', depth_m: 0.1, path: [pipe('suction', 8, { endHeight_m: -0.3 })] },
    ],
    toPump: [pipe('to-pump', 1, { pipe: 'two' })],
    pump: {
      height_m: 0.2,
      curve: {
        kind: 'points',
        points: [
          { flow_m3s: 0, head_m: 14 },
          { flow_m3s: 0.0015, head_m: 13 },
          { flow_m3s: 0.003, head_m: 11 },
          { flow_m3s: 0.0045, head_m: 7.5 },
          { flow_m3s: 0.006, head_m: 2 },
        ],
      },
      speed: 1,
    },
    toFilter: [],
    filter: { kind: 'sand', height_m: 0.8, clean: [{ flow_m3s: 0.003, drop_Pa: 20_000 }], dirt: 1.2 },
    toBypass: [pipe('filter-out', 2)],
    bypass: { kind: 'threeWay', id: 'bypass', toCollector: 0.8, past: [pipe('past', 1)] },
    feed: [pipe('feed', 10)],
    return: [pipe('return', 12, { endHeight_m: 0.6 })],
    toPool: [pipe('to-pool', 8)],
    outlets: [WALL_OUTLET],
    ...over,
  };
}

export function project(over: Partial<Project> = {}): Project {
  return {
    schemaVersion: 1,
    name: 'Invented test heater',
    invented: true,
    units: 'metric',
    site: {
      place: 'Nowhere',
      latitude_deg: 36,
      longitude_deg: -110,
      elevation_m: 300,
      timeZone: 'America/Denver',
      groundAlbedo: 0.2,
      exposure: { collector: { setting: 'someShelter' }, pool: { setting: 'someShelter' } },
    },
    pool: {
      outline: { kind: 'rectangle', x_m: 0, y_m: 0, length_m: 8, width_m: 4 },
      shallow_m: 1.1,
      deep_m: 1.9,
      skimmerMouthDepth_m: 0.12,
      floor: 'light',
      wish_C: 28,
      automaticMakeUp: false,
    },
    collector: collector([section('a')]),
    loop: loop(),
    asBuilt: [],
    repairs: [],
    testDays: [],
    ...over,
  };
}

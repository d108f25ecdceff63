import type { Project } from '../schema/project';
import { SCHEMA_VERSION } from '../schema/project';
import { reducedLead_m } from './leads';
import { panelPlace, SECTION_CORNER } from './panel-place';
import { POOL_PIPE } from './pool-pipe';

/** What the first questions ask for. SI; every answer has a usual value for "don't know". */
export interface FirstAnswers {
  name: string;
  units: Project['units'];
  place: string;
  latitude_deg: number;
  longitude_deg: number;
  elevation_m: number;
  timeZone: string;
  poolLength_m: number;
  poolWidth_m: number;
  poolDepth_m: number;
  /** Row of the pump shelf. */
  pumpShelf: string;
  /** Pipe of the pool's own loop, of the headers, and of the tubes: rows of the pipe table. */
  loopPipe: string;
  headerPipe: string;
  tubePipe: string;
  tubes: number;
  tubeLength_m: number;
  passes: number;
  pitch_m: number;
  facing_deg: number;
  tilt_deg: number;
  /** Lowest edge of the panel over the water. */
  lift_m: number;
  /** Pipe from the pump to the panel, one way. */
  distance_m: number;
  mounting: Project['collector']['placement']['mounting'];
  unsure: NonNullable<Project['unsure']>;
}

/** Answers that stand in where a person does not know: a middling garden pool and a first small panel. */
export function usualAnswers(units: Project['units'], latitude_deg = 38): FirstAnswers {
  const us = units === 'us';
  return {
    name: 'My heater',
    units,
    place: 'My yard',
    latitude_deg,
    longitude_deg: us ? -98 : 15,
    elevation_m: 200,
    timeZone: us ? 'America/Chicago' : 'Europe/Berlin',
    poolLength_m: us ? 9.144 : 8,
    poolWidth_m: us ? 4.572 : 4,
    poolDepth_m: us ? 1.524 : 1.5,
    pumpShelf: 'single-1hp',
    loopPipe: POOL_PIPE[units],
    headerPipe: us ? 'pvc-sch40-1-1/2' : 'pvcu-pn10-50',
    tubePipe: us ? 'pvc-sch40-1/2' : 'pvcu-pn16-20',
    tubes: 20,
    tubeLength_m: us ? 6.096 : 6,
    passes: 2,
    pitch_m: us ? 0.0826 : 0.085,
    facing_deg: latitude_deg >= 0 ? 180 : 0,
    tilt_deg: 20,
    lift_m: 0.3,
    distance_m: 12,
    mounting: 'ground',
    unsure: [],
  };
}

/** Gap between the header ends of two passes side by side: room for the hand-over's fittings. */
const PASS_GAP_m = 0.06;

/**
 * A whole project from the first answers: one section of passes side by side, plumbed into an ordinary loop
 * with a three-way valve. Everything in it can be changed afterwards.
 */
export function startProject(answers: FirstAnswers): Project {
  const a = answers;
  const reduced_m = reducedLead_m(a.headerPipe, a.tubePipe, a.loopPipe, a.units);
  const lead_m = Math.max(reduced_m, a.pitch_m / 2);
  const passWidth_m = (a.tubes - 1) * a.pitch_m + 2 * lead_m + PASS_GAP_m;
  /** A header of a pass; where the pool's pipe is joined it has room for the reducer. */
  const header = (joined: boolean) => ({
    pipe: a.headerPipe,
    ...(joined && reduced_m > a.pitch_m / 2 ? { leadIn_m: reduced_m } : {}),
  });
  const depth = (share: number): number => Number((a.poolDepth_m * share).toFixed(3));
  const elbows = (count: number) => [{ kind: 'elbow90' as const, count }];
  return {
    schemaVersion: SCHEMA_VERSION,
    name: a.name,
    units: a.units,
    ...(a.unsure.length > 0 ? { unsure: [...a.unsure] } : {}),
    site: {
      place: a.place,
      latitude_deg: a.latitude_deg,
      longitude_deg: a.longitude_deg,
      elevation_m: a.elevation_m,
      timeZone: a.timeZone,
      groundAlbedo: 0.2,
      exposure: { collector: { setting: 'someShelter' }, pool: { setting: 'sheltered' } },
    },
    pool: {
      outline: { kind: 'rectangle', x_m: 0, y_m: 0, length_m: a.poolLength_m, width_m: a.poolWidth_m },
      shallow_m: depth(0.8),
      deep_m: depth(1.2),
      skimmerMouthDepth_m: 0.1,
      floor: 'light',
      wish_C: 28,
      automaticMakeUp: false,
    },
    collector: {
      placement: {
        ...panelPlace(a.poolLength_m, a.poolWidth_m, a.tubeLength_m, a.facing_deg),
        facing_deg: a.facing_deg,
        tilt_deg: a.tilt_deg,
        lowestHeight_m: a.lift_m,
        mounting: a.mounting,
      },
      backing: { kind: a.mounting === 'rack' ? 'none' : a.mounting, reflectance: 0.2 },
      surface: { colour: 'flat_black_paint', absorptance: 0.95, emittance: 0.92 },
      sections: [
        {
          id: 'A',
          name: 'Section A',
          ...SECTION_CORNER,
          direction: 'contour',
          inletSide: 'near',
          inletEnds: ['first'],
          outletEnds: ['last'],
          banks: Array.from({ length: a.passes }, (_, i) => ({
            kind: 'tubes' as const,
            id: `A${i + 1}`,
            name: `Pass ${i + 1}`,
            across_m: Number((i * passWidth_m).toFixed(4)),
            depth_m: 0.05,
            count: a.tubes,
            length_m: a.tubeLength_m,
            pitch_m: a.pitch_m,
            pipe: a.tubePipe,
            supply: header(i === 0),
            gather: header(i === a.passes - 1),
          })),
          handovers: Array.from({ length: a.passes - 1 }, () => ({
            joins: [{ from: 'last' as const, to: 'first' as const }],
          })),
        },
      ],
      plumbing: { section: 'A' },
      supports: { spacing_m: 0.762, bearing_m: 0.04, heightError_m: 0.003 },
      taps: [
        {
          id: 'drain',
          at: { section: 'A', bank: 'A1', header: 'supply', end: 'first' },
          purpose: 'drain',
          open: false,
        },
        {
          id: 'bleed',
          at: { section: 'A', bank: `A${a.passes}`, header: 'gather', end: 'last' },
          purpose: 'bleed',
          open: false,
        },
      ],
    },
    loop: {
      suctions: [
        {
          id: 'skimmer',
          name: 'Skimmer',
          kind: 'skimmer',
          depth_m: 0.1,
          path: [
            {
              kind: 'pipe',
              id: 'skimmer-line',
              name: 'Skimmer line',
              pipe: a.loopPipe,
              length_m: 8,
              fittings: [...elbows(4), { kind: 'entrance', count: 1 }],
              endHeight_m: -0.3,
              surroundings: 'buried',
            },
          ],
        },
      ],
      toPump: [
        {
          kind: 'pipe',
          id: 'suction',
          name: 'Suction to the pump',
          pipe: a.loopPipe,
          length_m: 1.5,
          fittings: elbows(2),
          endHeight_m: 0.2,
          surroundings: 'shade',
        },
      ],
      pump: { height_m: 0.2, curve: { kind: 'shelf', shelf: a.pumpShelf }, speed: 1 },
      toFilter: [],
      filter: { kind: 'sand', height_m: 0.8, clean: [{ flow_m3s: 0.0032, drop_Pa: 21_000 }], dirt: 1.2 },
      toBypass: [],
      bypass: {
        kind: 'threeWay',
        id: 'valve',
        pipe: a.loopPipe,
        toCollector: 1,
        past: [
          {
            kind: 'pipe',
            id: 'short-way',
            name: 'Past the collector',
            pipe: a.loopPipe,
            length_m: 1,
            surroundings: 'shade',
          },
        ],
      },
      feed: [
        {
          kind: 'pipe',
          id: 'feed',
          name: 'Feed',
          pipe: a.loopPipe,
          length_m: a.distance_m,
          fittings: elbows(5),
          endHeight_m: a.lift_m,
          surroundings: 'sun',
        },
      ],
      return: [
        {
          kind: 'pipe',
          id: 'return',
          name: 'Return',
          pipe: a.loopPipe,
          length_m: a.distance_m,
          fittings: elbows(5),
          endHeight_m: 0.4,
          surroundings: 'sun',
        },
      ],
      toPool: [
        {
          kind: 'pipe',
          id: 'pool-return',
          name: 'Return to the pool',
          pipe: a.loopPipe,
          length_m: 8,
          fittings: elbows(4),
          endHeight_m: -0.3,
          surroundings: 'buried',
        },
      ],
      outlets: [
        { id: 'outlet-1', name: 'Outlet 1', kind: 'underWater', height_m: -0.3, bore_m: 0.019, path: [] },
        { id: 'outlet-2', name: 'Outlet 2', kind: 'underWater', height_m: -0.3, bore_m: 0.019, path: [] },
      ],
    },
    asBuilt: [],
    repairs: [],
    testDays: [],
  };
}

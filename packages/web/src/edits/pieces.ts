import type { Collector, HeaderEnd } from '@sunlap/project/schema/collector';
import type { Loop } from '@sunlap/project/schema/loop';
import type { Fittings, Path, PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { valueAt, withValue } from './pointer';

/** Kinds of piece that can be put into a way of water. */
export const PIECE_KINDS = [
  'pipe',
  'isolating',
  'balancing',
  'checkValve',
  'bleed',
  'airVent',
  'vacuumBreaker',
  'drain',
  'split',
  'heater',
  'chlorinator',
  'feeder',
  'flowMeter',
  'strainer',
  'other',
] as const;
export type PieceKind = (typeof PIECE_KINDS)[number];

/** Kinds of fitting that a run of pipe may have. */
export const FITTINGS = [
  'elbow90',
  'elbow45',
  'sweep90',
  'teeRun',
  'teeBranch',
  'coupling',
  'union',
  'reducer',
  'expander',
  'entrance',
  'exit',
] as const;
export type FittingKind = Fittings[number]['kind'];

/** Vacuum at which a breaker of the shop opens [Pa]; common practice, from memory. */
const BREAKER_OPENS_PA = 1000;

/** Pressure that a device of the usual size takes at 50 gpm [Pa]; common practice, from memory. */
export const DEVICE_DROP_PA = {
  heater: 17_000,
  chlorinator: 7_000,
  feeder: 7_000,
  flowMeter: 3_000,
  strainer: 7_000,
  other: 5_000,
} as const;
type DeviceType = keyof typeof DEVICE_DROP_PA;
const DEVICE_FLOW_m3s = 0.00315;
const isDevice = (kind: PieceKind): kind is DeviceType => kind in DEVICE_DROP_PA;

/** Every id in a project's ways of water and taps. */
function idsOf(project: Project): Set<string> {
  const out = new Set<string>();
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) for (const v of value) walk(v);
    else if (typeof value === 'object' && value !== null) {
      for (const [key, v] of Object.entries(value)) {
        if (key === 'id' && typeof v === 'string') out.add(v);
        else walk(v);
      }
    }
  };
  walk([project.loop, project.collector]);
  return out;
}

/** @example freeId(new Set(['bleed']), 'bleed') // 'bleed-2' */
function freeId(taken: ReadonlySet<string>, wanted: string): string {
  if (!taken.has(wanted)) return wanted;
  for (let n = 2; ; n++) if (!taken.has(`${wanted}-${n}`)) return `${wanted}-${n}`;
}

/** Pipe of the nearest run before a place in a way, else of the first in the loop. */
function pipeNear(project: Project, path: Path, index: number): string {
  for (let i = Math.min(index, path.length) - 1; i >= 0; i--) {
    const e = path[i];
    if (e.kind === 'pipe') return e.pipe;
  }
  const { loop } = project;
  const all = [...path, ...loop.feed, ...loop.return, ...loop.toPool, ...loop.toPump];
  const run = all.find((e) => e.kind === 'pipe');
  return run?.kind === 'pipe' ? run.pipe : '';
}

function made(project: Project, kind: PieceKind, pipe: string, name: string): PathElement {
  const taken = idsOf(project);
  const id = freeId(taken, kind);
  const run = (own: string): PathElement => ({
    kind: 'pipe',
    id: own,
    pipe,
    length_m: 1,
    surroundings: 'shade',
  });
  if (kind === 'pipe') return run(id);
  if (kind === 'isolating' || kind === 'balancing')
    return { kind: 'valve', id, role: kind, type: kind === 'balancing' ? 'globe' : 'ball', pipe, opening: 1 };
  if (kind === 'checkValve') return { kind, id, pipe };
  if (kind === 'split')
    return { kind, id, branches: [[run(freeId(taken, `${id}-a`))], [run(freeId(taken, `${id}-b`))]] };
  if (isDevice(kind))
    return {
      kind: 'device',
      id,
      name,
      type: kind,
      loss: { flow_m3s: DEVICE_FLOW_m3s, drop_Pa: DEVICE_DROP_PA[kind] },
    };
  return {
    kind: 'tap',
    id,
    purpose: kind,
    ...(kind === 'vacuumBreaker' ? { opensAt_Pa: BREAKER_OPENS_PA } : {}),
  };
}

const pathAt = (project: Project, pointer: string): Path => (valueAt(project, pointer) as Path) ?? [];

/** Way and place of an element. @example placeOf('/loop/feed/2') // { path: '/loop/feed', index: 2 } */
export function placeOf(pointer: string): { path: string; index: number } {
  const at = pointer.lastIndexOf('/');
  return { path: pointer.slice(0, at), index: Number(pointer.slice(at + 1)) };
}

/**
 * A new piece in a way of water, before what stands at `index`.
 *
 * @param name what a device is called; other pieces take their kind's name
 */
export function addPiece(
  project: Project,
  path: string,
  index: number,
  kind: PieceKind,
  name: string = kind,
): Project {
  const list = pathAt(project, path);
  const piece = made(project, kind, pipeNear(project, list, index), name);
  return withValue(project, path, [...list.slice(0, index), piece, ...list.slice(index)]);
}

export function removePiece(project: Project, pointer: string): Project {
  const { path, index } = placeOf(pointer);
  return withValue(
    project,
    path,
    pathAt(project, path).filter((_, i) => i !== index),
  );
}

/** One place up or down the way of the water; at its end it stays. */
export function movePiece(project: Project, pointer: string, by: 1 | -1): Project {
  const { path, index } = placeOf(pointer);
  const list = [...pathAt(project, path)];
  const to = index + by;
  if (to < 0 || to >= list.length) return project;
  [list[index], list[to]] = [list[to], list[index]];
  return withValue(project, path, list);
}

/** Another way beside those of a split, or the last one away; two stay. */
export function setBranches(project: Project, pointer: string, count: number): Project {
  const split = valueAt(project, pointer) as Extract<PathElement, { kind: 'split' }>;
  const branches = split.branches.slice(0, Math.max(2, count));
  let next = project;
  while (branches.length < count) {
    const pipe = pipeNear(project, branches[0], branches[0].length);
    const piece = made(next, 'pipe', pipe, '');
    branches.push([piece]);
    next = withValue(project, `${pointer}/branches`, [...branches]);
  }
  return withValue(project, `${pointer}/branches`, branches);
}

export function fittingCount(fittings: Fittings | undefined, kind: FittingKind): number {
  return (fittings ?? []).reduce((sum, f) => sum + (f.kind === kind ? f.count : 0), 0);
}

/** Fittings with so many of one kind. */
export function withFitting(fittings: Fittings | undefined, kind: FittingKind, count: number): Fittings {
  const others = (fittings ?? []).filter((f) => f.kind !== kind);
  return count > 0 ? [...others, { kind, count }] : others;
}

type SuctionKind = Loop['suctions'][number]['kind'];

/** Another suction, on a pipe like that of the first. */
export function addSuction(project: Project, kind: SuctionKind): Project {
  const { suctions } = project.loop;
  const taken = idsOf(project);
  const run = made(project, 'pipe', pipeNear(project, suctions[0].path, suctions[0].path.length), '');
  const added = {
    id: freeId(taken, kind),
    kind,
    depth_m: kind === 'skimmer' ? 0.1 : kind === 'cleaner' ? 0.3 : 1.5,
    path: [{ ...run, length_m: 5 } as PathElement],
  };
  return withValue(project, '/loop/suctions', [...suctions, added]);
}

/** Another outlet, on a pipe like that of the first. */
export function addOutlet(project: Project, kind: Loop['outlets'][number]['kind']): Project {
  const { outlets } = project.loop;
  const taken = idsOf(project);
  const run = made(project, 'pipe', pipeNear(project, outlets[0].path, outlets[0].path.length), '');
  const added = {
    id: freeId(taken, 'outlet'),
    kind,
    height_m: kind === 'underWater' ? -0.3 : 0.1,
    path: [{ ...run, length_m: 3 } as PathElement],
  };
  return withValue(project, '/loop/outlets', [...outlets, added]);
}

/** A mouth of its own at the pool for the collector's return, or back into the loop. */
export function setOwnMouth(project: Project, own: boolean): Project {
  const { returnOutlet, ...loop } = project.loop;
  if (own === (returnOutlet !== undefined)) return project;
  if (!own) return { ...project, loop };
  const id = freeId(idsOf(project), 'return-mouth');
  return {
    ...project,
    loop: { ...loop, returnOutlet: { id, kind: 'underWater', height_m: -0.3, path: [] } },
  };
}

/** One entry of a list away; the last one stays. */
export function removeEntry(project: Project, pointer: string): Project {
  const { path, index } = placeOf(pointer);
  const list = valueAt(project, path) as unknown[];
  return list.length < 2
    ? project
    : withValue(
        project,
        path,
        list.filter((_, i) => i !== index),
      );
}

type Tap = Collector['taps'][number];

/** A tap on the first section's first header, to be moved where it belongs. */
export function addTap(project: Project, purpose: Tap['purpose']): Project {
  const { sections, taps } = project.collector;
  const section = sections[sections.length - 1];
  const bank = section.banks[section.banks.length - 1];
  const end: HeaderEnd = section.outletEnds.includes('last') ? 'first' : 'last';
  const tap: Tap = {
    id: freeId(idsOf(project), purpose),
    at: { section: section.id, bank: bank.id, header: 'gather', end },
    purpose,
    ...(purpose === 'vacuumBreaker' ? { opensAt_Pa: BREAKER_OPENS_PA } : {}),
  };
  return withValue(project, '/collector/taps', [...taps, tap]);
}

export function removeTap(project: Project, index: number): Project {
  return withValue(
    project,
    '/collector/taps',
    project.collector.taps.filter((_, i) => i !== index),
  );
}

type Points = Extract<Loop['pump']['curve'], { kind: 'points' }>['points'];

/** A point of the pump's curve, half-way between the last two or beyond them; falls as they do. */
export function addPumpPoint(points: Points): Points {
  const [a, b] = points.slice(-2);
  const last = { flow_m3s: (a.flow_m3s + b.flow_m3s) / 2, head_m: (a.head_m + b.head_m) / 2 };
  const power =
    a.power_W === undefined || b.power_W === undefined ? {} : { power_W: (a.power_W + b.power_W) / 2 };
  return [...points.slice(0, -1), { ...last, ...power }, b];
}

import { reducerLoss } from '@sunlap/engine/hydraulics/fitting-loss';
import type { LinkLaw } from '@sunlap/engine/hydraulics/network-types';
import type { Draft } from './draft';
import { inLineLoss, kvFromLoss, lossFromKv } from './losses';

/** What stands in the water's way without turning or parting it: a joint between two lengths, or the tee of a tap. */
export type InLineKind = 'coupling' | 'union' | 'tapTee' | 'reducer';

/** Equal joints of one place of the design, as the parts list has them. */
export interface InLineJoint {
  readonly kind: InLineKind;
  readonly count: number;
  /** JSON pointer to what it comes from. */
  readonly path: string;
  /** Of the pipe that it stands in; null where only the network knows it. */
  readonly bore_m: number | null;
  /** Of a reducer: bore of the pipe before it. Those between a path's own pipes are counted with these. */
  readonly from_m?: number;
  /** In the pipe of that place, or at the node where that place begins: unions and taps at header ends. */
  readonly at: 'pipe' | 'node';
}

/** A place's nodes by its pointer, where it has no pipe of its own. */
export type NodeOf = (path: string) => number;

/** Joints put into the network, and those for which it has no place. */
export interface PlacedJoints {
  readonly placed: readonly InLineJoint[];
  readonly lost: readonly InLineJoint[];
}

/**
 * Give every joint its loss, on the velocity head of its own pipe, in the links of its place: pipes side by side share the
 * joints, stretches of one pipe share them by length. A place without pipe gives it to the link that arrives there.
 */
export function placeInLine(draft: Draft, joints: readonly InLineJoint[], nodeOf: NodeOf): PlacedJoints {
  const placed: InLineJoint[] = [];
  const lost: InLineJoint[] = [];
  const pipes = pipesByPath(draft);
  for (const joint of joints) {
    const own =
      joint.at === 'pipe' ? (pipes.get(joint.path) ?? pipes.get(`${joint.path}/path/0`)) : undefined;
    if (own) {
      const whole = own.reduce((sum, i) => sum + lengthOf(draft.links[i].law), 0);
      for (const i of own) addLoss(draft, i, joint, (joint.count * lengthOf(draft.links[i].law)) / whole);
      placed.push(joint);
      continue;
    }
    const links = linksAt(draft, nodeOf(joint.path));
    // lanes that meet here carry the whole flow through one joint: each has its loss at n times its own velocity
    const n = links.length;
    for (const i of links) addLoss(draft, i, joint, joint.count * n * n);
    (n > 0 ? placed : lost).push(joint);
  }
  return { placed, lost };
}

const lengthOf = (law: LinkLaw): number => (law.kind === 'pipe' || law.kind === 'coil' ? law.length_m : 0);

function pipesByPath(draft: Draft): Map<string, number[]> {
  const out = new Map<string, number[]>();
  draft.infos.forEach(({ role, path }, i) => {
    if (role === 'tap' || !(lengthOf(draft.links[i].law) > 0)) return;
    const list = out.get(path);
    if (list) list.push(i);
    else out.set(path, [i]);
  });
  return out;
}

/** The one link, or the equal lanes, by which all water of a node arrives; else by which it leaves; else any. */
function linksAt(draft: Draft, node: number): number[] {
  if (node < 0) return [];
  const take = (end: 'to' | 'from'): number[] =>
    draft.links.flatMap((link, i) =>
      link[end] === node && draft.infos[i].role !== 'tap' && holdsLoss(link.law) ? [i] : [],
    );
  const arriving = take('to');
  const leaving = take('from');
  const one = (list: readonly number[]): boolean =>
    list.length > 0 && list.every((i) => draft.infos[i].path === draft.infos[list[0]].path);
  const plain = (list: readonly number[]): boolean => list.length === 1 || draft.infos[list[0]].lanes > 1;
  for (const list of [arriving, leaving]) if (one(list) && plain(list)) return list;
  return [...arriving, ...leaving].slice(0, 1);
}

const holdsLoss = ({ kind }: LinkLaw): boolean =>
  kind === 'pipe' || kind === 'coil' || kind === 'valve' || kind === 'checkValve' || kind === 'fitting';

function addLoss(draft: Draft, i: number, joint: InLineJoint, count: number): void {
  const link = draft.links[i];
  const { bore_m } = link.law;
  const k = jointLoss(joint, bore_m) * count;
  draft.links[i] = { ...link, law: withLoss(link.law, k) };
}

/** Loss of one joint on the velocity head in a bore. */
export function jointLoss({ kind, bore_m, from_m }: InLineJoint, on_m: number): number {
  const own_m = bore_m ?? on_m;
  if (kind !== 'reducer') return inLineLoss(kind, own_m) * (on_m / own_m) ** 4;
  const before_m = from_m ?? own_m;
  return reducerLoss(before_m, own_m) * (on_m / Math.min(before_m, own_m)) ** 4;
}

function withLoss(law: LinkLaw, k: number): LinkLaw {
  switch (law.kind) {
    case 'pipe':
    case 'coil':
      return { ...law, minorLoss: (law.minorLoss ?? 0) + k };
    case 'checkValve':
    case 'fitting':
      return { ...law, coefficient: law.coefficient + k };
    case 'valve':
      return law.kv_m3h > 0
        ? { ...law, kv_m3h: kvFromLoss(lossFromKv(law.kv_m3h, law.bore_m) + k, law.bore_m) }
        : law;
    default:
      return law;
  }
}

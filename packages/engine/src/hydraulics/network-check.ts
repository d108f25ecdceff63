import { DomainError } from '../numeric/errors';
import type { NetworkDescription } from './network-types';

/**
 * Refuses numbers that no network can have. Cheap: held against every description that is loaded, also one of
 * known structure. Laws are checked where they are compiled.
 *
 * @throws {DomainError} naming the node or tee
 */
export function checkNumbers({ nodes, tees }: NetworkDescription): void {
  for (let n = 0; n < nodes.length; n++) {
    const { id, elevation_m, fixedHead_m = 0, inflow_kgs = 0 } = nodes[n]!;
    if (!Number.isFinite(elevation_m)) throw new DomainError(`elevation of ${id}`, elevation_m, 'finite');
    if (!Number.isFinite(fixedHead_m)) throw new DomainError(`held head of ${id}`, fixedHead_m, 'finite');
    if (!Number.isFinite(inflow_kgs)) throw new DomainError(`inflow of ${id}`, inflow_kgs, 'finite');
    if (inflow_kgs !== 0 && nodes[n]!.fixedHead_m !== undefined)
      throw new DomainError(`inflow of ${id}`, inflow_kgs, 'none where the head is held');
  }
  for (let t = 0; t < tees.length; t++) {
    const { node, branchBore_m, headerBore_m, constant } = tees[t]!;
    if (!(branchBore_m > 0 && branchBore_m < Infinity))
      throw new DomainError(`branch bore of ${nodes[node]!.id}`, branchBore_m, '(0, ∞) m');
    if (!(headerBore_m > 0 && headerBore_m < Infinity))
      throw new DomainError(`header bore of ${nodes[node]!.id}`, headerBore_m, '(0, ∞) m');
    const inflow = nodes[node]!.inflow_kgs;
    if (inflow) throw new DomainError(`inflow at the tee ${nodes[node]!.id}`, inflow, '0');
    if (constant === undefined) continue;
    for (const k of [constant.branchIn, constant.branchOut, constant.runIn, constant.runOut]) {
      if (!Number.isFinite(k)) throw new DomainError(`coefficient of ${nodes[node]!.id}`, k, 'finite');
    }
  }
}

/**
 * Refuses what is not a network at all: dangling ends, tees without their legs. Numbers are left to
 * {@link checkNumbers}.
 *
 * @throws {DomainError} naming the node, link or tee
 */
export function checkNetwork(description: NetworkDescription): void {
  const { nodes, links, tees } = description;
  for (const { id, from, to, law } of links) {
    for (const end of [from, to]) {
      if (!(Number.isInteger(end) && end >= 0 && end < nodes.length))
        throw new DomainError(`end of ${id}`, end, `0…${nodes.length - 1}`);
    }
    if (from === to) throw new DomainError(`ends of ${id}`, from, 'two different nodes');
    if (law.kind === 'outlet' && nodes[to]!.fixedHead_m === undefined)
      throw new DomainError(`far side of outlet ${id}`, nodes[to]!.id, 'a node of held head');
  }
  const taken = new Uint8Array(nodes.length);
  tees.forEach((tee, t) => {
    const { node, branch, run } = tee;
    if (!(node >= 0 && node < nodes.length)) throw new DomainError(`node of tee ${t}`, node, 'a node');
    const name = nodes[node]!.id;
    if (taken[node]) throw new DomainError(`tees at ${name}`, 2, 'at most one');
    taken[node] = 1;
    if (run[0] === null && run[1] === null)
      throw new DomainError(`run legs of ${name}`, 'none', 'at least one');
    const legs = [branch, run[0], run[1]].filter((leg) => leg !== null);
    if (new Set(legs).size !== legs.length) throw new DomainError(`legs of ${name}`, legs, 'different links');
    for (const leg of legs) {
      const link = links[leg];
      if (!link || (link.from !== node && link.to !== node))
        throw new DomainError(`leg of ${name}`, link?.id ?? leg, 'a link that ends there');
    }
  });
  // a third open link at a tee would carry flow the tee does not see
  const ends = new Uint8Array(nodes.length);
  for (const { from, to } of links) {
    ends[from]!++;
    ends[to]!++;
  }
  for (const { node, run } of tees) {
    const legs = 1 + (run[0] === null ? 0 : 1) + (run[1] === null ? 0 : 1);
    if (ends[node] !== legs)
      throw new DomainError(`links at the tee ${nodes[node]!.id}`, ends[node], `${legs}, its legs only`);
  }
}

/** Whether an analysis of one description holds for the other: nodes held, ends of links, legs of tees. */
export function sameStructure(a: NetworkDescription, b: NetworkDescription): boolean {
  if (a.nodes.length !== b.nodes.length) return false;
  if (a.links.length !== b.links.length || a.tees.length !== b.tees.length) return false;
  for (let n = 0; n < a.nodes.length; n++) {
    if ((a.nodes[n]!.fixedHead_m === undefined) !== (b.nodes[n]!.fixedHead_m === undefined)) return false;
  }
  for (let i = 0; i < a.links.length; i++) {
    const p = a.links[i]!;
    const q = b.links[i]!;
    if (p.from !== q.from || p.to !== q.to || p.law.kind !== q.law.kind) return false;
  }
  for (let t = 0; t < a.tees.length; t++) {
    const p = a.tees[t]!;
    const q = b.tees[t]!;
    if (p.node !== q.node || p.branch !== q.branch || p.run[0] !== q.run[0] || p.run[1] !== q.run[1])
      return false;
  }
  return true;
}

import { DomainError } from '../numeric/errors';
import type { AirLayout } from './air-types';
import type { NetworkDescription, NetworkLink, NetworkNode, NetworkSolution, PumpLaw } from './network-types';

/**
 * A tube that runs as an outfall sees h_out = max(H_header, z_crown): its mouth stands above the header by a
 * head step that the search sets. In the network the step is one link between the mouth, a node of its own,
 * and the header: a pump against the flow whose head hardly depends on it. Its own slope of 1e-6 m per
 * (L/s)² is taken into account, because the step is corrected until the mouth is right.
 */
const STEP_CURVE = { kind: 'parabola', shutOffHead_m: 1, coefficient_s2m5: 1 } as const;

/** Where a tube's mouth is in the extended network. */
export interface Mouth {
  /** node inside the mouth */
  readonly node: number;
  /** link that carries the step; flow out of the tube is negative in it */
  readonly step: number;
  /** node at the tube's other end, where it is supplied */
  readonly supply: number;
  /** node of the header it discharges into */
  readonly header: number;
}

/** A network with a mouth on every tube that can hold air. */
export interface ExtendedNetwork {
  readonly description: NetworkDescription;
  /** per tube of the layout; null for tubes without a space */
  readonly mouths: readonly (Mouth | null)[];
}

/**
 * Adds the mouths. Original nodes and links keep their places; new ones follow.
 *
 * @throws {DomainError} when a tube or a space names a node, link or space that does not exist
 */
export function extendNetwork(network: NetworkDescription, layout: AirLayout): ExtendedNetwork {
  checkLayout(network, layout);
  const nodes: NetworkNode[] = [...network.nodes];
  const links: NetworkLink[] = [...network.links];
  const tees = [...network.tees];
  const mouths = layout.tubes.map((tube): Mouth | null => {
    if (tube.space === null || tube.mark !== undefined) return null;
    const link = links[tube.link]!;
    const header = link[tube.discharge];
    const supply = tube.discharge === 'to' ? link.from : link.to;
    const node = nodes.length;
    nodes.push({ id: `${link.id}/mouth`, elevation_m: nodes[header]!.elevation_m });
    links[tube.link] = { ...link, [tube.discharge]: node };
    const step = links.length;
    links.push({ id: `${link.id}/step`, from: header, to: node, law: stepLaw(0, link.law.bore_m) });
    for (const [t, tee] of tees.entries()) {
      if (tee.node !== header) continue;
      const moved = (leg: number | null) => (leg === tube.link ? step : leg);
      tees[t] = { ...tee, branch: moved(tee.branch)!, run: [moved(tee.run[0]), moved(tee.run[1])] };
    }
    return { node, step, supply, header };
  });
  return { description: { ...network, nodes, links, tees }, mouths };
}

/** Law of a step link: a head against the water that leaves the tube [m], ≥ 0. */
export function stepLaw(head: number, bore: number): PumpLaw {
  return { kind: 'pump', bore_m: bore, curve: STEP_CURVE, speed: Math.sqrt(head), stoppedLoss: 0 };
}

/** The solution as the caller described the network: the aids cut off. */
export function trimSolution(
  solution: NetworkSolution,
  network: Pick<NetworkDescription, 'nodes' | 'links'>,
): NetworkSolution {
  const nodes = network.nodes.length;
  const links = network.links.length;
  if (solution.head_m.length === nodes && solution.flow_kgs.length === links) return solution;
  const { other, ...rest } = solution;
  return {
    ...rest,
    flow_kgs: solution.flow_kgs.slice(0, links),
    head_m: solution.head_m.slice(0, nodes),
    fromPressure_Pa: solution.fromPressure_Pa.slice(0, links),
    toPressure_Pa: solution.toPressure_Pa.slice(0, links),
    velocity_ms: solution.velocity_ms.slice(0, links),
    reynolds: solution.reynolds.slice(0, links),
    headLoss_m: solution.headLoss_m.slice(0, links),
    fromTeeLoss_m: solution.fromTeeLoss_m.slice(0, links),
    toTeeLoss_m: solution.toTeeLoss_m.slice(0, links),
    shut: solution.shut.slice(0, links),
    still: solution.still.slice(0, nodes),
    ...(other ? { other: trimSolution(other, network) } : {}),
  };
}

function checkLayout(network: NetworkDescription, layout: AirLayout): void {
  const place = (quantity: string, value: number, count: number) => {
    if (!(Number.isInteger(value) && value >= 0 && value < count))
      throw new DomainError(quantity, value, `0 … ${count - 1}`);
  };
  const seen = new Set<number>();
  for (const tube of layout.tubes) {
    place('link of a tube', tube.link, network.links.length);
    if (seen.has(tube.link)) throw new DomainError('link of a tube', tube.link, 'each once');
    seen.add(tube.link);
    if (tube.space !== null) place('space of a tube', tube.space, layout.spaces.length);
    if (!Number.isFinite(tube.crown_m)) throw new DomainError('crown', tube.crown_m, 'finite');
  }
  for (const { inlet, downLeg } of layout.spaces) {
    if (downLeg) place('down-leg of a space', downLeg.link, network.links.length);
    if (!inlet) continue;
    place('node of an air inlet', inlet.node, network.nodes.length);
    if (!Number.isFinite(inlet.elevation_m))
      throw new DomainError('elevation of an air inlet', inlet.elevation_m, 'finite');
    if (!(inlet.openPressure_Pa >= 0 && inlet.openPressure_Pa < Infinity))
      throw new DomainError('opening pressure', inlet.openPressure_Pa, '[0, ∞) Pa');
  }
}

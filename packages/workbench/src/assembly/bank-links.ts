import type { LinkLaw } from '@sunlap/engine/hydraulics/network-types';
import type { Bank, HeaderEnd } from '@sunlap/project/schema/collector';
import { addLink, addNode, type Draft } from './draft';
import type { BankGeometry, HeaderGeometry } from './geometry';
import { DEFAULT_BORE_M } from './path-links';

/** A joined header end has at least this much pipe, so that it has a link of its own [m]. */
export const LEAST_LEAD_M = 1e-3;

/** Which links of the network a bank is made of. −1 where there is none. */
export interface BankLinks {
  readonly section: number;
  readonly bank: number;
  /** Tubes, coils or absorbers by position. Units in series follow one another. */
  readonly units: readonly number[];
  /** Header pieces from the first end to the last: lead-in, between tees, lead-in; −1 for a capped end. */
  readonly supply: readonly number[];
  readonly gather: readonly number[];
  /** Nodes of the header ends by which water comes and goes. */
  readonly inNodes: readonly number[];
  readonly outNodes: readonly number[];
  /** Tee nodes by position; empty without headers. */
  readonly supplyTees: readonly number[];
  readonly gatherTees: readonly number[];
}

/** Nodes at the ends of a header, −1 where nothing is joined. */
export interface EndNodes {
  first: number;
  last: number;
}

/**
 * Put a bank's headers, tees and units between the nodes of its joined header ends.
 *
 * @param supplyEnds nodes that water arrives at, by header end; a bank without headers uses whichever is set
 */
export function addBank(
  draft: Draft,
  bank: Bank,
  geometry: BankGeometry,
  place: number,
  name: string,
  supplyEnds: EndNodes,
  gatherEnds: EndNodes,
): BankLinks {
  const shut = new Set([...(bank.blocked ?? []), ...(bank.airBound ?? [])]);
  const law = unitLaw(bank, geometry);
  const common = { section: geometry.section, bank: geometry.bank };
  const inNodes = nodesOf(supplyEnds);
  const outNodes = nodesOf(gatherEnds);
  const units: number[] = [];
  const unitName = bank.kind === 'tubes' ? 'tube' : bank.kind === 'coil' ? 'coil' : 'absorber';
  const addUnit = (from: number, to: number, i: number): void => {
    const closed = shut.has(i + 1);
    const label = `${name} ${unitName} ${geometry.units[i].number}`;
    units.push(addLink(draft, from, to, law, closed, 'tube', geometry.path, label, place, i));
  };

  if (!geometry.supply || !geometry.gather) {
    if (bank.kind !== 'tubes' && bank.join === 'series') {
      let node = inNodes[0];
      for (let i = 0; i < bank.count; i++) {
        const next =
          i === bank.count - 1
            ? outNodes[0]
            : addNode(draft, `${geometry.path}/${i}`, geometry.units[i].far.height_m);
        addUnit(node, next, i);
        node = next;
      }
    } else {
      for (let i = 0; i < bank.count; i++) addUnit(inNodes[0], outNodes[0], i);
    }
    return { ...common, units, supply: [], gather: [], inNodes, outNodes, supplyTees: [], gatherTees: [] };
  }

  const supplyTees = addTeeNodes(draft, geometry.supply, `${geometry.path}/supply`);
  const gatherTees = addTeeNodes(draft, geometry.gather, `${geometry.path}/gather`);
  const supply = addHeader(draft, geometry.supply, supplyTees, supplyEnds, {
    role: 'supplyHeader',
    path: `${geometry.path}/supply`,
    name: `${name} supply header`,
    place,
  });
  for (let i = 0; i < bank.count; i++) addUnit(supplyTees[i], gatherTees[i], i);
  const gather = addHeader(draft, geometry.gather, gatherTees, gatherEnds, {
    role: 'gatherHeader',
    path: `${geometry.path}/gather`,
    name: `${name} return header`,
    place,
  });
  if (bank.kind !== 'rated' && geometry.size) {
    addTees(draft, supplyTees, units, supply, geometry.size.bore_m, geometry.supply.size.bore_m);
    addTees(draft, gatherTees, units, gather, geometry.size.bore_m, geometry.gather.size.bore_m);
  }
  return { ...common, units, supply, gather, inNodes, outNodes, supplyTees, gatherTees };
}

function nodesOf(ends: EndNodes): number[] {
  const out: number[] = [];
  for (const n of [ends.first, ends.last]) if (n >= 0 && !out.includes(n)) out.push(n);
  return out;
}

function unitLaw(bank: Bank, geometry: BankGeometry): LinkLaw {
  if (bank.kind === 'rated') {
    return {
      kind: 'device',
      bore_m: geometry.supply?.size.bore_m ?? DEFAULT_BORE_M,
      ratedLoss_Pa: bank.loss.drop_Pa,
      ratedFlow_m3s: bank.loss.flow_m3s,
    };
  }
  const size = geometry.size!;
  if (bank.kind === 'tubes') {
    return {
      kind: 'pipe',
      length_m: bank.length_m,
      bore_m: size.bore_m,
      roughness_m: size.roughness_m,
      minorLoss: 0,
    };
  }
  return {
    kind: 'coil',
    length_m: bank.length_m,
    bore_m: size.bore_m,
    roughness_m: size.roughness_m,
    // the coil law ends at two bores; `check` names a coil wound tighter
    coilDiameter_m: Math.max((bank.innerDiameter_m + bank.outerDiameter_m) / 2, 2.001 * size.bore_m),
    minorLoss: 0,
  };
}

function addTeeNodes(draft: Draft, header: HeaderGeometry, path: string): number[] {
  return header.tees.map((tee, i) => addNode(draft, `${path}/${i + 1}`, tee.height_m));
}

interface HeaderName {
  role: 'supplyHeader' | 'gatherHeader';
  path: string;
  name: string;
  place: number;
}

/** Header pieces, all pointing from the first end to the last. */
function addHeader(
  draft: Draft,
  header: HeaderGeometry,
  tees: readonly number[],
  ends: EndNodes,
  label: HeaderName,
): number[] {
  const law = (length_m: number): LinkLaw => ({
    kind: 'pipe',
    length_m,
    bore_m: header.size.bore_m,
    roughness_m: header.size.roughness_m,
    minorLoss: 0,
  });
  // a lead-in of no length still joins two nodes
  const lead = law(Math.max(header.leadIn_m, LEAST_LEAD_M));
  const between = law(header.spacing_m);
  const { role, path, place } = label;
  const piece = (from: number, to: number, l: LinkLaw, i: number): number =>
    addLink(draft, from, to, l, false, role, path, label.name, place, i);
  const out = [ends.first >= 0 ? piece(ends.first, tees[0], lead, 0) : -1];
  for (let i = 1; i < tees.length; i++) out.push(piece(tees[i - 1], tees[i], between, i));
  out.push(ends.last >= 0 ? piece(tees[tees.length - 1], ends.last, lead, tees.length) : -1);
  return out;
}

function addTees(
  draft: Draft,
  nodes: readonly number[],
  units: readonly number[],
  pieces: readonly number[],
  branchBore_m: number,
  headerBore_m: number,
): void {
  const leg = (link: number): number | null => (link < 0 ? null : link);
  for (let i = 0; i < nodes.length; i++) {
    draft.tees.push({
      node: nodes[i],
      branch: units[i],
      run: [leg(pieces[i]), leg(pieces[i + 1])],
      branchBore_m: Math.min(branchBore_m, headerBore_m),
      headerBore_m,
    });
  }
}

/** Node where a header end's tap sits: the end itself when it is joined, else the outermost tee. */
export function tapNode(bank: BankLinks, header: 'supply' | 'gather', end: HeaderEnd, draft: Draft): number {
  const pieces = header === 'supply' ? bank.supply : bank.gather;
  const tees = header === 'supply' ? bank.supplyTees : bank.gatherTees;
  if (tees.length === 0) return header === 'supply' ? bank.inNodes[0] : bank.outNodes[0];
  const lead = end === 'first' ? pieces[0] : pieces[pieces.length - 1];
  if (lead < 0) return end === 'first' ? tees[0] : tees[tees.length - 1];
  return end === 'first' ? draft.links[lead].from : draft.links[lead].to;
}

import { DomainError } from '../numeric/errors';
import type { ConstantTee, NetworkDescription, NetworkLink, NetworkNode, NetworkTee } from './network-types';

/** Where a header is connected; tubes are counted from its start. */
export type HeaderEnd = 'start' | 'end' | 'both';

/** A pipe with everything the flow in it needs. */
export interface ManifoldPipe {
  readonly bore_m: number;
  readonly length_m: number;
  readonly roughness_m: number;
  /** on its own velocity head [–] */
  readonly minorLoss: number;
}

/** One bank of equal tubes between two equal headers, alone, at a given flow. */
export interface ManifoldOptions {
  readonly tubes: number;
  readonly tube: ManifoldPipe;
  /** one piece of header, from tube to tube; length 0 is a header without friction */
  readonly header: ManifoldPipe;
  readonly inlet: HeaderEnd;
  readonly outlet: HeaderEnd;
  readonly flow_kgs: number;
  readonly density_kgm3: number;
  readonly viscosity_Pas: number;
  /** false: no tees at all, every loss is in the pipes' own coefficients; true when left out */
  readonly tees?: boolean;
  readonly constant?: ConstantTee;
}

/** The bank as a network, and where to find its parts. */
export interface Manifold {
  readonly description: NetworkDescription;
  /** places of the tubes in `links`, from the headers' start */
  readonly tubes: readonly number[];
  /** places in `nodes`, from the headers' start */
  readonly supply: readonly number[];
  readonly collect: readonly number[];
  readonly inletNode: number;
  readonly outletNode: number;
}

/**
 * Builds one bank as a network: water put in at one node, taken away at a held head of 0, lossless leads from
 * these to the header ends, which are legs of the end tees; a header end without a lead is capped.
 *
 * @throws {DomainError} for fewer than one tube
 * @example const bank = manifold({ …, tubes: 20, inlet: 'start', outlet: 'end' })
 */
export function manifold(options: ManifoldOptions): Manifold {
  const { tubes: count, tube, header } = options;
  if (!(Number.isInteger(count) && count >= 1)) throw new DomainError('number of tubes', count, '1, 2, …');
  const nodes: NetworkNode[] = [
    { id: 'inlet', elevation_m: 0, inflow_kgs: options.flow_kgs },
    { id: 'outlet', elevation_m: 0, fixedHead_m: 0 },
  ];
  const links: NetworkLink[] = [];
  const tees: NetworkTee[] = [];
  const row = (name: string) =>
    Array.from({ length: count }, (_, i) => nodes.push({ id: `${name} ${i + 1}`, elevation_m: 0 }) - 1);
  const supply = row('supply');
  const collect = row('return');
  const put = (id: string, from: number, to: number, law: NetworkLink['law']) =>
    links.push({ id, from, to, law }) - 1;
  const tubes = supply.map((from, i) => put(`tube ${i + 1}`, from, collect[i]!, { kind: 'pipe', ...tube }));

  function addHeader(name: string, row: readonly number[], at: HeaderEnd, outside: number): void {
    const lead = (end: 'start' | 'end', node: number) => {
      if (at !== end && at !== 'both') return null;
      const law = { kind: 'fitting', bore_m: header.bore_m, coefficient: 0 } as const;
      const id = `${name} lead ${end}`;
      return name === 'supply' ? put(id, outside, node, law) : put(id, node, outside, law);
    };
    let before = lead('start', row[0]!);
    for (let i = 0; i < count; i++) {
      const last = i === count - 1;
      const behind: number | null = last
        ? lead('end', row[i]!)
        : put(`${name} piece ${i + 1}`, row[i]!, row[i + 1]!, { kind: 'pipe', ...header });
      tees.push({
        node: row[i]!,
        branch: tubes[i]!,
        run: [before, behind],
        branchBore_m: tube.bore_m,
        headerBore_m: header.bore_m,
        constant: options.constant,
      });
      before = behind;
    }
  }
  addHeader('supply', supply, options.inlet, 0);
  addHeader('return', collect, options.outlet, 1);
  return {
    description: {
      referenceDensity_kgm3: options.density_kgm3,
      viscosity_Pas: options.viscosity_Pas,
      nodes,
      links,
      tees: options.tees === false ? [] : tees,
    },
    tubes,
    supply,
    collect,
    inletNode: 0,
    outletNode: 1,
  };
}

import { manifold } from '@sunlap/engine/hydraulics/manifold';
import { prepareNetwork } from '@sunlap/engine/hydraulics/network';
import type { TeeSet } from '@sunlap/engine/hydraulics/network-types';
import type { BankGeometry } from '../assembly/geometry';
import { connection } from '../assembly/plumbed-ends';

/** How evenly one bank shares its flow under one connection. */
export interface Sharing {
  readonly leastOverMean: number;
  readonly mostOverMean: number;
  /** Of each tube over their mean, nearest the inlet first. */
  readonly shares: readonly number[];
}

export type ConnectionName = 'sameEnd' | 'oppositeEnds';

/** One bank with inlet and outlet at the same end and at opposite ends, at the same flow. */
export interface ConnectionStudy {
  readonly now: ConnectionName | 'bothEnds';
  readonly sameEnd: Sharing;
  readonly oppositeEnds: Sharing;
  readonly better: ConnectionName;
  /** Spread (most − least)/mean that the worse one has beyond the better one. */
  readonly gain: number;
}

const MANIFOLD_END = { sameEnd: 'start', oppositeEnds: 'end' } as const;

/** What a bank's connection is compared at. */
export interface ConnectionCase {
  readonly flow_kgs: number;
  readonly density_kgm3: number;
  readonly viscosity_Pas: number;
  readonly tees?: TeeSet;
}

/**
 * Which ends are better for this bank, found by solving both. Short, closely pitched headers share better from
 * the same end; long ones, ruled by friction, from opposite ends.
 *
 * @returns null for a bank without headers, with one tube, without flow, or that does not converge
 */
export function compareConnections(geometry: BankGeometry, at: ConnectionCase): ConnectionStudy | null {
  const { supply, gather, size } = geometry;
  if (!supply || !gather || !size || geometry.kind === 'rated') return null;
  if (geometry.units.length < 2 || !(Math.abs(at.flow_kgs) > 1e-9)) return null;
  // the model bank has one size of header: the smaller decides
  const header = supply.size.bore_m <= gather.size.bore_m ? supply : gather;
  const solve = (name: ConnectionName): Sharing | null => {
    const bank = manifold({
      tubes: geometry.units.length,
      tube: {
        bore_m: size.bore_m,
        length_m: geometry.units[0].length_m,
        roughness_m: size.roughness_m,
        minorLoss: 0,
      },
      header: {
        bore_m: header.size.bore_m,
        length_m: geometry.spacing_m,
        roughness_m: header.size.roughness_m,
        minorLoss: 0,
      },
      inlet: 'start',
      outlet: MANIFOLD_END[name],
      flow_kgs: Math.abs(at.flow_kgs),
      density_kgm3: at.density_kgm3,
      viscosity_Pas: at.viscosity_Pas,
    });
    const solution = prepareNetwork(bank.description).solve({ tees: at.tees ?? 'default' });
    if (!solution.report.converged) return null;
    const flows = bank.tubes.map((i) => solution.flow_kgs[i]);
    const mean = flows.reduce((a, b) => a + b, 0) / flows.length;
    const shares = flows.map((q) => q / mean);
    return { leastOverMean: Math.min(...shares), mostOverMean: Math.max(...shares), shares };
  };
  const sameEnd = solve('sameEnd');
  const oppositeEnds = solve('oppositeEnds');
  if (!sameEnd || !oppositeEnds) return null;
  const spread = (s: Sharing): number => s.mostOverMean - s.leastOverMean;
  const better = spread(sameEnd) <= spread(oppositeEnds) ? 'sameEnd' : 'oppositeEnds';
  return {
    now: connection(geometry.ends),
    sameEnd,
    oppositeEnds,
    better,
    gain: Math.abs(spread(sameEnd) - spread(oppositeEnds)),
  };
}

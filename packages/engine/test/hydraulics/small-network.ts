import type {
  LinkLaw,
  NetworkDescription,
  NetworkLink,
  NetworkNode,
} from '../../src/hydraulics/network-types';
import { GRAVITY_MS2 } from '../../src/numeric/constants';

/** Water of 30 °C and short hands for small networks in tests. */
export const RHO = 995.65;
export const MU = 7.972e-4;
export const pipe = (length_m: number, bore_m: number, minorLoss = 0): LinkLaw => ({
  kind: 'pipe',
  length_m,
  bore_m,
  roughness_m: 1.5e-6,
  minorLoss,
});
export type Row = readonly [id: string, from: number, to: number, law: LinkLaw, more?: Partial<NetworkLink>];
export const network = (nodes: readonly NetworkNode[], rows: readonly Row[]): NetworkDescription => ({
  referenceDensity_kgm3: RHO,
  viscosity_Pas: MU,
  nodes,
  links: rows.map(([id, from, to, law, more]) => ({ id, from, to, law, ...more })),
  tees: [],
});
export const node = (id: string, elevation_m = 0, fixedHead_m?: number): NetworkNode => ({
  id,
  elevation_m,
  fixedHead_m,
});
export const weight = RHO * GRAVITY_MS2;

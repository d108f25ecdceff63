import type { LinkLaw, NetworkLink, NetworkNode, NetworkTee } from '@sunlap/engine/hydraulics/network-types';

/** What a link is, for people and for reports. */
export type LinkRole =
  | 'tube'
  | 'supplyHeader'
  | 'gatherHeader'
  | 'join'
  | 'pipe'
  | 'valve'
  | 'checkValve'
  | 'device'
  | 'filter'
  | 'pump'
  | 'share'
  | 'outlet'
  | 'tap';

export interface LinkInfo {
  readonly role: LinkRole;
  /** JSON pointer to what it comes from. */
  readonly path: string;
  /** In the person's words. */
  readonly name: string;
  /** Place of the bank in the geometry's list, −1 outside banks. */
  readonly bank: number;
  /** Position of the tube (from 0), or of the header piece (0 is the lead-in at the first end); −1 elsewhere. */
  readonly unit: number;
  /** Lanes of equal pipes side by side that this link is one of. */
  readonly lanes: number;
}

/** A vent, drain, bleed or breaker, and the node it sits at. */
export interface TapPlace {
  readonly id: string;
  readonly path: string;
  readonly node: number;
  readonly purpose: 'drain' | 'bleed' | 'airVent' | 'vacuumBreaker';
  readonly open: boolean;
  readonly opensAt_Pa: number;
  readonly height_m: number;
  /** Place of the bank in the geometry's list, −1 in the loop. */
  readonly bank: number;
}

/** A connection that the file does not describe and that was put in. */
export interface AssumedPipe {
  readonly path: string;
  readonly what: string;
  readonly length_m: number;
}

/** Fittings that a join was given, see `AssumedFittings`. */
export interface JoinFittings {
  readonly path: string;
  readonly elbows: number;
  readonly tees: number;
}

/** One thing in the loop, as the loop sheet lists it. */
export interface PieceDraft {
  readonly id: string;
  readonly name: string;
  readonly path: string;
  readonly kind:
    | 'suction'
    | 'pipe'
    | 'pump'
    | 'filter'
    | 'device'
    | 'valve'
    | 'bypass'
    | 'collector'
    | 'outlet'
    | 'checkValve';
  readonly way: 'common' | 'through' | 'past';
  readonly start_m: number;
  readonly end_m: number;
  /** Links passed one after another; one lane where there are several. */
  readonly links: readonly number[];
  readonly lanes: number;
  readonly fromNode: number;
  readonly toNode: number;
}

/** A network being put together. */
export interface Draft {
  readonly nodes: NetworkNode[];
  readonly links: NetworkLink[];
  readonly tees: NetworkTee[];
  readonly infos: LinkInfo[];
  readonly taps: TapPlace[];
  readonly assumed: AssumedPipe[];
  /** Fittings of every pipe that the file does not describe, by place. */
  readonly joinFittings: JoinFittings[];
  readonly pieces: PieceDraft[];
  /** Mean density and viscosity by link, from an earlier look at temperatures. */
  readonly density_kgm3: ArrayLike<number> | null;
  readonly viscosity_Pas: ArrayLike<number> | null;
}

export function newDraft(
  density_kgm3: ArrayLike<number> | null,
  viscosity_Pas: ArrayLike<number> | null,
): Draft {
  return {
    nodes: [],
    links: [],
    tees: [],
    infos: [],
    taps: [],
    assumed: [],
    joinFittings: [],
    pieces: [],
    density_kgm3,
    viscosity_Pas,
  };
}

export function addNode(draft: Draft, id: string, elevation_m: number, fixedHead_m?: number): number {
  draft.nodes.push({ id, elevation_m, fixedHead_m });
  return draft.nodes.length - 1;
}

export function addLink(
  draft: Draft,
  from: number,
  to: number,
  law: LinkLaw,
  closed: boolean,
  role: LinkRole,
  path: string,
  name: string,
  bank = -1,
  unit = -1,
  lanes = 1,
): number {
  const i = draft.links.length;
  draft.links.push({
    id: name,
    from,
    to,
    law,
    density_kgm3: draft.density_kgm3?.[i],
    viscosity_Pas: draft.viscosity_Pas?.[i],
    closed,
  });
  draft.infos.push({ role, path, name, bank, unit, lanes });
  return i;
}

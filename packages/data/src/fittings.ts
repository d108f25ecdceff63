import { leastPitch } from '@sunlap/engine/building/header';
import sockets from './fittings.json';
import type { FittingSystem } from './pipes';
import reducing from './reducingTees.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** Socket and take-offs of elbow, equal tee and coupling of one size. Take-off: centre to socket bottom (G). */
export interface Socket extends Provenance {
  system: FittingSystem;
  nominal: string;
  /** Depth of the socket (S), the least of the standard. */
  socket_m: number;
  /** Of 90° elbow and equal tee. */
  takeOff90_m: number;
  takeOff45_m: number;
  /** Between the two socket bottoms of a coupling. */
  couplingGap_m: number;
  /** Bore at the socket's mouth and bottom; inch sizes only. */
  entrance_m?: number;
  bottom_m?: number;
}

export interface ReducingTee extends Provenance {
  system: FittingSystem;
  run: string;
  branch: string;
  /** Centre to socket bottom along the run. */
  takeOffRun_m: number;
  takeOffBranch_m: number;
  socketRun_m: number;
  socketBranch_m: number;
}

export const socketRows: readonly Socket[] = readTable<Socket>(sockets.about, sockets.sockets);
export const reducingTees: readonly ReducingTee[] = readTable<ReducingTee>(reducing.about, reducing.table);

const socketBySize = finder(socketRows, (row) => `${row.system} ${row.nominal}`);
const teeBySizes = finder(reducingTees, (row) => `${row.system} ${row.run} ${row.branch}`);

/** @example findSocket('ips-sch40', '1-1/2') */
export function findSocket(system: FittingSystem, nominal: string): Socket | undefined {
  return socketBySize(`${system} ${nominal}`);
}

/** A tee by run and branch; the equal tee when both are the same. */
export function findTee(system: FittingSystem, run: string, branch: string): ReducingTee | undefined {
  if (run !== branch) return teeBySizes(`${system} ${run} ${branch}`);
  const equal = findSocket(system, run);
  if (equal === undefined) return undefined;
  const { source, known, range, takeOff90_m, socket_m } = equal;
  const sizes = {
    takeOffRun_m: takeOff90_m,
    takeOffBranch_m: takeOff90_m,
    socketRun_m: socket_m,
    socketBranch_m: socket_m,
  };
  return { system, run, branch, ...sizes, source, known, range };
}

/** Distance of tube centres with header tees face to face: 2·(G + S) along the run. */
export function leastPitch_m(tee: ReducingTee): number {
  return leastPitch({ takeOff_m: tee.takeOffRun_m, socket_m: tee.socketRun_m });
}

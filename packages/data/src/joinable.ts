import { findSocket } from './fittings';
import { type FittingSystem, findPipe, findPipeFamily, type Pipe } from './pipes';

/** How a pipe is joined: cemented, over a barb with a clamp, or pushed in. */
export type JointWay = 'cement' | 'barb' | 'push';

/** A pipe with what joins it. */
export interface Joinable {
  readonly pipe: Pipe;
  readonly way: JointWay;
  /** Pipes of one base fit each other's fittings. */
  readonly base: 'ips' | 'metric' | 'cpvc' | 'copperSize' | 'insert' | 'metricPe';
  readonly system?: FittingSystem;
  /** G of elbow and equal tee, of a 45° elbow, S, and the gap in a coupling and a union [m]. */
  readonly elbow_m: number;
  readonly elbow45_m: number;
  readonly socket_m: number;
  readonly coupling_m: number;
  readonly union_m: number;
  readonly known: string;
}

/** What a socket bottom stands off the branch pipe's outside: 1/16 in, by the rule of the inch fittings [m]. */
export const SIXTEENTH_M = 0.0015875;
/** A union is longer inside than a coupling by its seat and nut [m]; judgement, measure yours. */
const UNION_EXTRA_M = 0.008;

const known = new Map<string, Joinable>();

/** Joints of a pipe; undefined for a designation that no table has. */
export function joinableOf(id: string): Joinable | undefined {
  const before = known.get(id);
  if (before) return before;
  const made = readJoinable(id);
  if (made) known.set(id, made);
  return made;
}

function readJoinable(id: string): Joinable | undefined {
  const pipe = findPipe(id);
  if (!pipe) return undefined;
  const family = findPipeFamily(pipe.family)!;
  const socket = family.fittings && findSocket(family.fittings, pipe.nominal);
  if (family.fittings && socket) {
    return {
      pipe,
      way: 'cement',
      base: family.fittings === 'metric' ? 'metric' : 'ips',
      system: family.fittings,
      elbow_m: socket.takeOff90_m,
      elbow45_m: socket.takeOff45_m,
      socket_m: socket.socket_m,
      coupling_m: socket.couplingGap_m,
      union_m: socket.couplingGap_m + UNION_EXTRA_M,
      known: socket.known,
    };
  }
  const od = pipe.od_m;
  if (pipe.family === 'cpvc-cts') {
    // ASTM D2846: sockets of 0.8 outside diameters, from memory; take-off by the rule of the inch fittings
    return shape(pipe, 'cement', 'cpvc', od / 2 + SIXTEENTH_M, 0.8 * od, 0.0024, 'from memory');
  }
  if (pipe.family === 'pex-cts')
    return shape(pipe, 'push', 'copperSize', 0.75 * od, 1.1 * od, 0.003, 'judgement');
  if (pipe.family.startsWith('pe100'))
    return shape(pipe, 'push', 'metricPe', 0.9 * od, 1.3 * od, 0.004, 'judgement');
  if (pipe.material === 'HDPE' || pipe.material === 'LDPE')
    return shape(pipe, 'barb', 'insert', 0.75 * od, 1.2 * od, 0.003, 'judgement');
  // PVC whose size the socket table lacks
  return shape(
    pipe,
    'cement',
    family.fittings === 'metric' ? 'metric' : 'ips',
    od / 2 + SIXTEENTH_M,
    0.6 * od,
    0.003,
    'judgement',
  );
}

function shape(
  pipe: Pipe,
  way: JointWay,
  base: Joinable['base'],
  elbow_m: number,
  socket_m: number,
  coupling_m: number,
  known: string,
): Joinable {
  return {
    pipe,
    way,
    base,
    elbow_m,
    elbow45_m: elbow_m / 2,
    socket_m,
    coupling_m,
    union_m: coupling_m + UNION_EXTRA_M,
    known,
  };
}

/** Fittings that are not plain schedule 40 or metric: what their part names begin with, and the word of the trade. */
export function fittingWay(pipe: Joinable): { code: 'cpvc' | 'barb' | 'push' | 'sch80' | ''; word: string } {
  if (pipe.base === 'cpvc') return { code: 'cpvc', word: 'CPVC' };
  if (pipe.way === 'barb') return { code: 'barb', word: 'Barbed' };
  if (pipe.way === 'push') return { code: 'push', word: 'Push-fit' };
  return pipe.system === 'ips-sch80' ? { code: 'sch80', word: 'Sch 80' } : { code: '', word: '' };
}

/** In the words of the trade, with its unit. */
export function sizeText(nominal: string, base: Joinable['base'] | 'any' = 'any'): string {
  if (/id$/.test(nominal)) return `${nominal.slice(0, -2)} mm bore`;
  const metric = base === 'metric' || base === 'metricPe' || (!nominal.includes('/') && Number(nominal) > 6);
  return `${nominal} ${metric ? 'mm' : 'in'}`;
}

/** Pipes that go into the same fittings without a reducer or adapter. */
export const sameSize = (a: Joinable, b: Joinable): boolean =>
  a.base === b.base && a.pipe.nominal === b.pipe.nominal;

/**
 * What sits in the fitting that joins two pipes end to end [m]: a coupling's gap; between two sizes the taper too, half
 * the difference of the outside diameters on each side (judgement).
 *
 * @example endToEndGap_m(joinableOf('pvc-sch40-2')!, joinableOf('pvc-sch40-1-1/2')!) // 0.0084: 2.4 mm and 6 mm
 */
export function endToEndGap_m(a: Joinable, b: Joinable): number {
  if (sameSize(a, b)) return a.coupling_m;
  return Math.max(a.coupling_m, b.coupling_m) + Math.abs(a.pipe.od_m - b.pipe.od_m) / 2;
}

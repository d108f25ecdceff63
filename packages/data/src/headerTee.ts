import { findSocket, findTee, type ReducingTee, reducingTees } from './fittings';
import { fittingWay, type Joinable, SIXTEENTH_M, sizeText } from './joinable';
import { inchSizeOf, metricSizeOf } from './nominalSizes';
import type { FittingSystem } from './pipes';

/** G and S of a part as a person measured them [m]. */
export interface MeasuredPart {
  readonly takeOff_m?: number;
  readonly socket_m?: number;
  /** Of a tee, towards its branch. */
  readonly branchTakeOff_m?: number;
}

/** A header tee and what its branch needs to take the tube. */
export interface HeaderTee {
  readonly part: string;
  readonly label: string;
  /** G and S along the run and towards the branch [m]. */
  readonly run_m: number;
  readonly runSocket_m: number;
  readonly branch_m: number;
  readonly branchSocket_m: number;
  readonly branchNominal: string;
  readonly known: string;
  /** Between branch and tube where they are of different kinds. */
  readonly adapter?: { readonly part: string; readonly label: string };
  /** No such tee is in the tables: dimensions by the rule, and a notice. */
  readonly made: boolean;
  /** Branches that are made for this header, for the notice. */
  readonly others: readonly string[];
}

/**
 * Tee of a header for a tube. Cemented pairs come from the tables; a tube of another kind gets the next branch size
 * that is made and an adapter.
 */
export function headerTee(
  header: Joinable,
  tube: Joinable,
  measured: Readonly<Record<string, MeasuredPart>> = {},
): HeaderTee {
  const key = `${header.pipe.id} ${tube.pipe.id}`;
  const tee = shelf.get(key) ?? tableTee(header, tube);
  shelf.set(key, tee);
  return withMeasured(tee, measured);
}

/** Tees by header and tube, as the tables have them. */
const shelf = new Map<string, HeaderTee>();

function tableTee(header: Joinable, tube: Joinable): HeaderTee {
  const h = header.pipe.nominal;
  const t = tube.pipe.nominal;
  if (header.base === tube.base && header.system === undefined) {
    const reducing = h !== t;
    return {
      ...teeName(h, t, header),
      run_m: reducing ? tube.elbow_m : header.elbow_m,
      runSocket_m: header.socket_m,
      branch_m: header.pipe.od_m / 2 + SIXTEENTH_M,
      branchSocket_m: tube.socket_m,
      branchNominal: t,
      known: header.known,
      made: tube.pipe.od_m <= header.pipe.od_m + 1e-6,
      others: [],
    };
  }
  const system = header.system;
  const others = system === undefined ? [] : branchesOf(system, h);
  if (header.base === tube.base) {
    const row = system === undefined ? undefined : teeOf(system, h, t);
    if (row) return fromRow(row, h, t, header);
    return byRule(header, tube, t, others);
  }
  // another kind of tube: the next branch that is made, and an adapter
  const wanted = candidates(header, tube);
  for (const branch of wanted) {
    const row = system === undefined ? undefined : teeOf(system, h, branch);
    if (row) return { ...fromRow(row, h, branch, header), adapter: adapterOf(header, branch, tube) };
  }
  const branch = wanted[0] ?? t;
  return { ...byRule(header, tube, branch, others), adapter: adapterOf(header, branch, tube) };
}

function teeOf(system: FittingSystem, run: string, branch: string): ReducingTee | undefined {
  const own = findTee(system, run, branch);
  if (own || system !== 'ips-sch80') return own;
  // sch 80 mouldings: the take-offs of sch 40 with the deeper sockets
  const forty = findTee('ips-sch40', run, branch);
  const [r, b] = [findSocket('ips-sch80', run), findSocket('ips-sch80', branch)];
  return forty && r && b
    ? { ...forty, system, socketRun_m: r.socket_m, socketBranch_m: b.socket_m, known: 'derived' }
    : undefined;
}

function branchesOf(system: FittingSystem, run: string): string[] {
  const base = system === 'ips-sch80' ? 'ips-sch40' : system;
  return [
    ...reducingTees.filter((row) => row.system === base && row.run === run).map((row) => row.branch),
    run,
  ];
}

function candidates(header: Joinable, tube: Joinable): string[] {
  const own =
    header.base === 'metric'
      ? /^\d+$/.test(tube.pipe.nominal) && Number(tube.pipe.nominal) > 6
        ? tube.pipe.nominal
        : metricSizeOf(inchSizeOf(tube.pipe.nominal) ?? '')
      : inchSizeOf(tube.pipe.nominal);
  const ladder =
    header.base === 'metric'
      ? ['16', '20', '25', '32', '40', '50', '63']
      : ['3/8', '1/2', '3/4', '1', '1-1/4', '1-1/2', '2'];
  const from = ladder.indexOf(own ?? '');
  return from < 0 ? ladder : ladder.slice(from);
}

/** What lies between a header tee's branch and a tube of another kind. */
function adapterOf(header: Joinable, branch: string, tube: Joinable): { part: string; label: string } {
  const t = tube.pipe.nominal;
  const [code, word] =
    tube.way === 'barb'
      ? ['barbAdapter', 'Barbed adapter']
      : tube.way === 'push'
        ? ['pushAdapter', 'Push-fit adapter']
        : header.base === 'cpvc' || tube.base === 'cpvc'
          ? ['transition', `Transition ${header.pipe.material} to ${tube.pipe.material}`]
          : header.way === 'cement'
            ? ['transition', 'Transition between inch and metric']
            : ['transition', `Adapter ${header.pipe.material} to a ${tube.pipe.material} socket`];
  return {
    part: `${code}-${branch}x${t}`,
    label: `${word}, ${sizeText(branch)} to ${sizeText(t, tube.base)}`,
  };
}

function teeName(h: string, branch: string, header: Joinable): { part: string; label: string } {
  const { code, word } = fittingWay(header);
  const dash = code && `${code}-`;
  return h === branch
    ? { part: `${dash}tee-${h}`, label: `${word ? `${word} tee` : 'Tee'}, ${sizeText(h, header.base)}` }
    : {
        part: `${dash}reducingTee-${h}x${branch}`,
        label: `${word ? `${word} reducing` : 'Reducing'} tee, ${h} × ${sizeText(branch, header.base)}`,
      };
}

function fromRow(row: ReducingTee, h: string, branch: string, header: Joinable): HeaderTee {
  return {
    ...teeName(h, branch, header),
    run_m: row.takeOffRun_m,
    runSocket_m: row.socketRun_m,
    branch_m: row.takeOffBranch_m,
    branchSocket_m: row.socketBranch_m,
    branchNominal: branch,
    known: row.known,
    made: true,
    others: [],
  };
}

function byRule(header: Joinable, tube: Joinable, branch: string, others: readonly string[]): HeaderTee {
  const h = header.pipe.nominal;
  return {
    ...teeName(h, branch, header),
    run_m: tube.pipe.od_m / 2 + SIXTEENTH_M,
    runSocket_m: header.socket_m,
    branch_m: header.pipe.od_m / 2 + SIXTEENTH_M,
    branchSocket_m: tube.socket_m,
    branchNominal: branch,
    known: 'derived',
    made: false,
    others,
  };
}

function withMeasured(tee: HeaderTee, measured: Readonly<Record<string, MeasuredPart>>): HeaderTee {
  const own = measured[tee.part];
  if (!own) return tee;
  return {
    ...tee,
    run_m: own.takeOff_m ?? tee.run_m,
    runSocket_m: own.socket_m ?? tee.runSocket_m,
    branch_m: own.branchTakeOff_m ?? tee.branch_m,
    known: 'measured',
  };
}

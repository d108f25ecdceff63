import { type HeaderTee, headerTee } from '@sunlap/data/headerTee';
import { type Joinable, sizeText } from '@sunlap/data/joinable';
import { leastPitch, nippleLength } from '@sunlap/engine/building/header';
import { supportPlaces } from '@sunlap/engine/building/parts-supports';
import type { Bank, Collector, HeaderEnd } from '@sunlap/project/schema/collector';
import { LEAST_LEAD_M } from '../assembly/bank-links';
import type { BankGeometry } from '../assembly/geometry';
import { notice } from './bag';
import { teesOf } from './partings';
import {
  cap,
  coupling,
  cutPipe,
  type Gathering,
  joinableOr,
  joinedSets,
  jointsOn,
  NO_JOINTS,
  passes,
  put,
} from './strand';
import { smallPipe, tapParts } from './taps';
import { valveOf } from './valves';

/** How the ends of a bank are joined to what comes before and after. */
export interface BankPorts {
  /** Pipe of the header, or of the unit where there is none. */
  readonly supply: Joinable;
  readonly gather: Joinable;
  /** What sits in the outermost tee, or 0 at a unit's own end [m]. */
  readonly supplyTake_m: number;
  readonly gatherTake_m: number;
  readonly supplyLead_m: number;
  readonly gatherLead_m: number;
}

/** Where a header's spare end has a tap instead of a cap. */
export interface EndTap {
  readonly purpose: 'drain' | 'bleed' | 'airVent' | 'vacuumBreaker';
  readonly path: string;
}

const OUTER_SUPPORT_M = 0.15;

/** Tubes, tees, nipples, spare ends of one bank. */
export function addBankParts(
  g: Gathering,
  collector: Collector,
  bank: Bank,
  geometry: BankGeometry,
  endTap: (header: 'supply' | 'gather', end: HeaderEnd) => EndTap | undefined,
): BankPorts {
  const name = bank.name ?? bank.id;
  const { path } = geometry;
  const unit = bank.kind === 'rated' ? null : joinableOr(g, bank.pipe, path);
  if (bank.kind === 'tubes') {
    const supports = supportPlaces(bank.length_m, collector.supports.spacing_m, OUTER_SUPPORT_M);
    cutPipe(
      g,
      unit!,
      bank.length_m,
      bank.count,
      { use: 'tube', path, label: `Tube of ${name}`, inFlow: true, onSite: false },
      { supports_m: supports, stagger_m: collector.supports.spacing_m },
    );
  } else if (bank.kind === 'coil')
    cutPipe(g, unit!, bank.length_m, bank.count, {
      use: 'coil',
      path,
      label: `Coil of ${name}`,
      inFlow: true,
      onSite: false,
    });
  else
    put(
      g.bag,
      {
        part: `absorber-${bank.id}`,
        label: `Absorber, ${g.say(bank.length_m, 'diameter')} × ${g.say(bank.width_m, 'diameter')}`,
        kind: 'absorber',
        joints: [],
        dryJoints: 2,
        takes_m: 0,
        known: 'the file',
      },
      bank.count,
      path,
    );
  if (!geometry.supply || !geometry.gather) return unitPorts(g, bank, geometry, unit);
  const ids =
    bank.kind === 'rated' ? { supply: bank.headerPipe!, gather: bank.headerPipe! } : headerPipes(bank);
  const supply = addHeader(g, bank, geometry, 'supply', joinableOr(g, ids.supply, path), unit, name, endTap);
  const gather = addHeader(g, bank, geometry, 'gather', joinableOr(g, ids.gather, path), unit, name, endTap);
  return {
    supply: supply.pipe,
    gather: gather.pipe,
    supplyTake_m: supply.tee.run_m,
    gatherTake_m: gather.tee.run_m,
    supplyLead_m: Math.max(geometry.supply.leadIn_m, LEAST_LEAD_M),
    gatherLead_m: Math.max(geometry.gather.leadIn_m, LEAST_LEAD_M),
  };
}

function headerPipes(bank: Exclude<Bank, { kind: 'rated' }>): { supply: string; gather: string } {
  return { supply: bank.supply!.pipe, gather: bank.gather!.pipe };
}

/** Units without headers: in series they are joined to each other, else all meet in one place. */
function unitPorts(g: Gathering, bank: Bank, geometry: BankGeometry, unit: Joinable | null): BankPorts {
  const pipe = unit ?? joinableOr(g, geometry.size?.id ?? 'pvc-sch40-1-1/2', geometry.path);
  const between = bank.count - 1;
  if (bank.kind !== 'tubes' && between > 0) {
    if (bank.join === 'series') {
      put(g.bag, coupling(pipe), between, geometry.path);
      // between bought absorbers: their stated loss has no pipe to stand in
      if (bank.kind === 'coil') passes(g.bag, 'coupling', between, pipe, geometry.path);
    } else for (const which of ['supply', 'gather']) teesOf(g, pipe, between, `${geometry.path}/${which}`);
  }
  return {
    supply: pipe,
    gather: pipe,
    supplyTake_m: 0,
    gatherTake_m: 0,
    supplyLead_m: 0,
    gatherLead_m: 0,
  };
}

/** The tee of one header of a bank; what its absorbers take is an equal tee. */
export function teeOfHeader(g: Gathering, header: Joinable, unit: Joinable | null): HeaderTee {
  return headerTee(header, unit ?? header, g.options.measured);
}

function addHeader(
  g: Gathering,
  bank: Bank,
  geometry: BankGeometry,
  which: 'supply' | 'gather',
  pipe: Joinable,
  unit: Joinable | null,
  name: string,
  endTap: (header: 'supply' | 'gather', end: HeaderEnd) => EndTap | undefined,
): { pipe: Joinable; tee: HeaderTee } {
  const header = geometry[which]!;
  const path = `${geometry.path}/${which}`;
  const word = which === 'supply' ? 'supply header' : 'return header';
  const tee = teeOfHeader(g, pipe, unit);
  checkTee(g, tee, pipe, unit, path, `${name}, ${word}`);
  const branch = tee.adapter
    ? { ...NO_JOINTS, joints: [{ nominal: tee.branchNominal, count: 1 }] }
    : unit
      ? jointsOn(unit, 1)
      : { ...NO_JOINTS, dryJoints: 1 };
  put(
    g.bag,
    {
      part: tee.part,
      label: tee.label,
      kind: 'tee',
      ...joinedSets(jointsOn(pipe, 2), branch),
      takes_m: 2 * tee.run_m,
      known: tee.known,
    },
    bank.count,
    path,
  );
  if (tee.adapter && unit)
    put(
      g.bag,
      {
        ...tee.adapter,
        kind: 'adapter',
        ...jointsOn(unit, 1),
        takes_m: 0,
        known: 'standard',
      },
      bank.count,
      path,
    );
  addNipples(g, bank, header.spacing_m, tee, pipe, path, `${name}, ${word}`);
  for (const end of ['first', 'last'] as const)
    if (!header.joined.includes(end))
      addSpareEnd(
        g,
        bank,
        which,
        end,
        header.leadIn_m,
        tee,
        pipe,
        path,
        `${name}, ${word}`,
        endTap(which, end),
      );
  return { pipe, tee };
}

function addNipples(
  g: Gathering,
  bank: Bank,
  pitch_m: number,
  tee: HeaderTee,
  pipe: Joinable,
  path: string,
  label: string,
): void {
  if (bank.count < 2) return;
  const nipple = nippleLength(pitch_m, tee.run_m);
  const least = leastPitch({ takeOff_m: tee.run_m, socket_m: tee.runSocket_m });
  if (nipple < 2 * tee.runSocket_m - 1e-5) {
    const what = `at a pitch of ${g.say(pitch_m, 'diameter')} the nipple between two tees would be ${g.say(nipple, 'diameter')}; it has to fill two sockets of ${g.say(tee.runSocket_m, 'diameter')}. The tees meet at ${g.say(least, 'diameter')}.`;
    const alike = g.bag.notices.findIndex((n) => n.code === 'pitch-below-tees' && n.message.endsWith(what));
    if (alike >= 0) {
      // headers that are alike share one finding
      const first = g.bag.notices[alike];
      const names = first.message.slice(0, -what.length - 2);
      g.bag.notices[alike] = { ...first, message: `${names}; ${label}: ${what}` };
    } else
      notice(g.bag, {
        code: 'pitch-below-tees',
        severity: 'damage',
        path: path.replace(/\/(supply|gather)$/, '/pitch_m'),
        message: `${label}: ${what}`,
        remedy: `Pitch at least ${g.say(Math.ceil(least * 1e4) / 1e4, 'diameter')}, a smaller header, or nested passes at that pitch. Measure your own tees first: G and S decide.`,
      });
  }
  const cut = Math.max(nipple, 1e-3);
  g.bag.taken_m += (pitch_m - cut) * (bank.count - 1);
  g.bag.pieces.push({
    pipe: pipe.pipe.id,
    length_m: cut,
    count: bank.count - 1,
    use: 'nipple',
    path,
    label: `Nipple of ${label}`,
    inFlow: true,
    onSite: false,
  });
}

function checkTee(
  g: Gathering,
  tee: HeaderTee,
  header: Joinable,
  unit: Joinable | null,
  path: string,
  label: string,
): void {
  if (!tee.made) {
    const others = tee.others.filter((o) => o !== tee.branchNominal);
    notice(g.bag, {
      code: 'build-no-such-tee',
      severity: 'damage',
      path,
      message: `${label}: nobody makes a tee of ${sizeText(header.pipe.nominal, header.base)} with a branch of ${sizeText(tee.branchNominal, header.base)} that the tables know. Its lengths here follow a rule, not a part.`,
      remedy:
        others.length > 0
          ? `With this header choose a tube of ${others.map((o) => sizeText(o, header.base)).join(', ')}; or change the header; or measure the tee that you have.`
          : 'Choose another header size, or measure the tee that you have.',
    });
  }
  if (tee.adapter && unit && unit.way === 'cement')
    notice(g.bag, {
      code: 'build-two-systems',
      severity: 'unsure',
      path,
      message: `${label}: ${header.pipe.label} and ${unit.pipe.label} are of two kinds; each tube needs a transition fitting at each end.`,
      remedy: 'Take header and tube from one system where you can.',
    });
}

/** Water stands in a capped end: its pipe is bought but never flows. */
function addSpareEnd(
  g: Gathering,
  bank: Bank,
  which: 'supply' | 'gather',
  end: HeaderEnd,
  leadIn_m: number,
  tee: HeaderTee,
  pipe: Joinable,
  path: string,
  label: string,
  tap: EndTap | undefined,
): void {
  g.bag.pieces.push({
    pipe: pipe.pipe.id,
    length_m: Math.max(leadIn_m - tee.run_m, tee.runSocket_m + pipe.socket_m),
    count: 1,
    use: 'stub',
    path,
    label: `End stub of ${label}`,
    inFlow: false,
    onSite: false,
  });
  if (tap) {
    const nominal = pipe.pipe.nominal;
    put(
      g.bag,
      {
        part: `endReducer-${nominal}`,
        label: `Reducing coupling for a ${tap.purpose === 'airVent' || tap.purpose === 'vacuumBreaker' ? 'vent' : 'cock'}, ${sizeText(nominal, pipe.base)}`,
        kind: 'reducer',
        ...joinedSets(jointsOn(pipe, 1), jointsOn(smallPipe(pipe), 1)),
        takes_m: 0,
        known: 'standard',
      },
      1,
      path,
    );
    tapParts(g, pipe, tap.purpose, tap.path);
    return;
  }
  const header = bank.kind === 'rated' ? undefined : bank[which];
  const spare = end === 'first' ? header?.spareFirst : header?.spareLast;
  if (spare === 'valve') put(g.bag, { ...valveOf(pipe, 'ball'), ...jointsOn(pipe, 1) }, 1, path);
  else put(g.bag, cap(pipe), 1, path);
}

import type { AirCause } from '@sunlap/engine/hydraulics/air-types';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { unitLinksAt } from '../assembly/pointers';
import type { BankFlow, FlowValues } from '../results';
import { openPlugs } from '../state/standing';
import { type ConnectionStudy, compareConnections } from './connection';
import { type Costing, type Finding, withCost } from './costing';
import type { SolvedFlow } from './flow-basic';
import { TRIFLE_M } from './notices-start';
import { numberRuns, percent, type Say } from './say';

/** Spread that another connection must save before it is worth a notice. */
const WORTH_A_NOTICE = 0.02;

/** What keeps a tube without water, and what mends it. */
const DRY: Record<Exclude<AirCause, 'none' | 'marked'>, { why: string; remedy: string }> = {
  openOutlet: {
    why: 'the outlet lies open to the air, so the return cannot pull as a siphon and water must be lifted to each tube',
    remedy: 'Bring the outlet under water, raise the pump speed, or send more water through the collector.',
  },
  bleed: {
    why: 'an open vent or bleed lets air into the return header, so it cannot pull as a siphon',
    remedy: 'Close the vent once the collector is full.',
  },
  vacuumBreaker: {
    why: 'the vacuum breaker is open: air stands in the return header and the pump must lift water to each tube',
    remedy:
      'Raise the pump speed or send more water through the collector until the breaker closes; or move it lower.',
  },
  trappedAir: {
    why: 'air is trapped in the return header and the water there does not carry it out',
    remedy: 'Open the bleed at the top, or run the pump faster until the air has left.',
  },
};

/** Notices on how the tubes share the water and on the air in them. */
export function tubeNotices(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  say: Say,
  costing: Costing,
): Notice[] {
  const found: BankNotice[] = [];
  values.collector.banks.forEach((bank, b) => {
    const out: Notice[] = [];
    const geometry = solved.assembled.geometry.banks[b];
    const path = geometry.path;
    out.push(
      ...dryTubes(solved, bank, path, say),
      ...markedTubes(bank, path, pluggedIn(project, bank)),
      ...reversedTubes(bank, path),
      ...heldAir(bank, path),
    );
    const study = connectionOf(solved, bank, b);
    if (bank.headerVerdict === 'tooSmall' || bank.headerVerdict === 'marginal') {
      out.push(headerNotice(bank, path, study));
    }
    if (study && study.now !== 'bothEnds' && study.now !== study.better && study.gain > WORTH_A_NOTICE) {
      out.push(connectionNotice(project, solved, bank, b, study));
    }
    const spread = bank.mostOverMean - bank.leastOverMean;
    for (const notice of out) found.push({ notice, name: bank.name, spread, place: b, bank, study });
  });
  return oneOfEach(found, costing);
}

interface BankNotice {
  notice: Notice;
  name: string;
  spread: number;
  /** Number of the bank in the file's order. */
  place: number;
  bank: BankFlow;
  study: ConnectionStudy | null;
}

/** What the flows of the banks with one finding are set against. */
function findingOf(code: string, list: readonly BankNotice[]): Finding {
  if (code === 'air-holds-in-tubes') {
    return {
      kind: 'held',
      banks: list.map(({ place, bank }) => {
        const able = bank.tubes.filter((t) => t.state === 'full');
        const holds = able.filter((t) => t.air === 'holds');
        const chosen = holds.length > 0 ? holds : able.filter((t) => t.air === 'doubtful');
        return { bank: place, positions: chosen.map((t) => t.position) };
      }),
    };
  }
  if (code === 'other-end-shares-better') {
    return {
      kind: 'ends',
      banks: list.flatMap(({ place, study }) =>
        study && study.now !== 'bothEnds'
          ? [{ bank: place, now: study[study.now].shares, better: study[study.better].shares }]
          : [],
      ),
    };
  }
  return { kind: 'uneven', banks: list.map((f) => f.place) };
}

/** What several passes share is said once, for the worst of them, and the others are named. */
function oneOfEach(found: readonly BankNotice[], costing: Costing): Notice[] {
  const byCode = new Map<string, BankNotice[]>();
  for (const f of found) byCode.set(f.notice.code, [...(byCode.get(f.notice.code) ?? []), f]);
  return [...byCode].map(([code, list]) => {
    const worst = list.reduce((a, b) => (b.spread > a.spread ? b : a));
    const cost = costing(findingOf(code, list));
    const others = [...new Set(list.filter((f) => f.name !== worst.name).map((f) => f.name))];
    if (others.length === 0) return withCost(worst.notice, cost);
    const message = `${worst.notice.message} Likewise, more or less, ${others.join(', ')}.`;
    return withCost({ ...worst.notice, message }, cost);
  });
}

function connectionOf(solved: SolvedFlow, bank: BankFlow, b: number): ConnectionStudy | null {
  const { description, geometry } = solved.assembled;
  return compareConnections(geometry.banks[b], {
    flow_kgs: bank.flow_m3s * description.referenceDensity_kgm3,
    density_kgm3: description.referenceDensity_kgm3,
    viscosity_Pas: description.viscosity_Pas,
  });
}

const ENDS = { sameEnd: 'the same end', oppositeEnds: 'opposite ends', bothEnds: 'both ends' } as const;

function connectionNotice(
  project: Project,
  solved: SolvedFlow,
  bank: BankFlow,
  b: number,
  study: ConnectionStudy,
): Notice {
  const other = study[study.better];
  const now = study.now === 'sameEnd' ? study.sameEnd : study.oppositeEnds;
  const { section, bank: k } = solved.assembled.geometry.banks[b];
  const banks = project.collector.sections[section].banks.length;
  const at = `/collector/sections/${section}`;
  const path = k === banks - 1 ? `${at}/outletEnds` : `${at}/handovers/${k}`;
  return {
    code: 'other-end-shares-better',
    severity: 'heat',
    path,
    message:
      `${bank.name} is connected at ${ENDS[study.now]}: tubes get ${percent(now.leastOverMean)} to ` +
      `${percent(now.mostOverMean)} of their mean. At ${ENDS[study.better]} it would be ` +
      `${percent(other.leastOverMean)} to ${percent(other.mostOverMean)}.`,
    remedy: `Connect inlet and outlet of ${bank.name} at ${ENDS[study.better]} of its headers.`,
  };
}

function headerNotice(bank: BankFlow, path: string, study: ConnectionStudy | null): Notice {
  const m = bank.headerNumber === null ? '' : ` (header number ${bank.headerNumber.toFixed(2)})`;
  const small = bank.headerVerdict === 'tooSmall';
  const better = study && study.now !== study.better && study.gain > WORTH_A_NOTICE;
  const remedy = better
    ? 'Connect the other ends, use a larger header, feed it at both ends, or part the bank into two.'
    : 'Use a larger header, feed it at both ends, or part the bank into two.';
  return {
    code: small ? 'header-too-small' : 'header-marginal',
    severity: small ? 'heat' : 'unsure',
    path: `${path}/supply`,
    message:
      `The headers of ${bank.name} are ${small ? 'too small' : 'marginal'} for ${bank.tubes.length} tubes${m}: ` +
      `the least tube gets ${percent(bank.leastOverMean)} of the mean, the most ${percent(bank.mostOverMean)}; ` +
      `with what is not known about tees ${percent(bank.leastBand.low)} to ${percent(bank.mostBand.high)}.`,
    remedy,
  };
}

function dryTubes(solved: SolvedFlow, bank: BankFlow, path: string, say: Say): Notice[] {
  const dry = bank.tubes.filter((t) => t.state === 'unfilled' || (t.state === 'airBound' && t.share === 0));
  const air = solved.solution.air;
  if (dry.length === 0 || !air) return [];
  const units = new Set(unitLinksAt(solved.assembled, path));
  const out: Notice[] = [];
  for (const cause of Object.keys(DRY) as (keyof typeof DRY)[]) {
    let lift = 0;
    const numbers: number[] = [];
    air.tubes.forEach((t, i) => {
      const link = solved.solution.airTubes[i];
      if (t.cause !== cause || !units.has(link) || (t.state !== 'unfilled' && t.state !== 'airBound')) return;
      lift = Math.max(lift, t.missingLift_m);
      const position = solved.assembled.infos[link].unit + 1;
      const tube = bank.tubes.find((x) => x.position === position);
      if (tube) numbers.push(tube.number);
    });
    if (numbers.length === 0) continue;
    out.push({
      code: 'tubes-without-water',
      severity: 'heat',
      path,
      message:
        `${bank.name}: tubes ${numberRuns(numbers)} get no water, for ${DRY[cause].why}. ` +
        (lift > TRIFLE_M
          ? `The head before them is short by ${say(lift, 'head')}.`
          : 'The head before them falls short by next to nothing.'),
      remedy: DRY[cause].remedy,
    });
  }
  return out;
}

/** Painted numbers of the tubes that a repair left plugged: those have a notice of their own. */
function pluggedIn(project: Project, bank: BankFlow): ReadonlySet<number | undefined> {
  const own = openPlugs(project).filter((r) => r.section === bank.section && (r.bank ?? bank.id) === bank.id);
  return new Set(own.map((r) => r.tube));
}

/** Tubes that the person marked as giving nothing. */
function markedTubes(bank: BankFlow, path: string, plugged: ReadonlySet<number | undefined>): Notice[] {
  const blocked = bank.tubes
    .filter((t) => t.state === 'blocked' && !plugged.has(t.position))
    .map((t) => t.number);
  const airBound = bank.tubes.filter((t) => t.state === 'airBound' && t.share === 0).map((t) => t.number);
  const parts = [
    blocked.length > 0 ? `${tubesAre(blocked)} marked as blocked` : '',
    airBound.length > 0 ? `${tubesAre(airBound)} marked as air-bound` : '',
  ].filter(Boolean);
  if (parts.length === 0) return [];
  return [
    {
      code: 'tubes-marked-dead',
      severity: 'heat',
      path,
      message: `${bank.name}: ${parts.join(', ')}: no water passes there.`,
      remedy:
        blocked.length > 0
          ? 'Flush them one by one from a spare end, or cut out and replace what stays shut.'
          : 'Open the bleed at the top, or run all water through the collector at full speed for some minutes.',
    },
  ];
}

function tubesAre(numbers: readonly number[]): string {
  return `${numbers.length === 1 ? 'tube' : 'tubes'} ${numberRuns(numbers)} ${numbers.length === 1 ? 'is' : 'are'}`;
}

function reversedTubes(bank: BankFlow, path: string): Notice[] {
  const back = bank.tubes.filter((t) => t.share < -1e-6 && t.state === 'full');
  if (back.length === 0) return [];
  return [
    {
      code: 'tubes-run-backwards',
      severity: 'heat',
      path,
      message: `${bank.name}: in tubes ${numberRuns(back.map((t) => t.number))} water runs back from the return header.`,
      remedy: 'Use a larger header or connect the other ends.',
    },
  ];
}

function heldAir(bank: BankFlow, path: string): Notice[] {
  const able = bank.tubes.filter(
    (t) => t.state === 'full' && Math.abs(t.share) > 0 && Math.abs(t.flow_m3s) > 1e-12,
  );
  const holds = able.filter((t) => t.air === 'holds');
  const doubtful = able.filter((t) => t.air === 'doubtful');
  if (holds.length + doubtful.length === 0) return [];
  const parts = [
    holds.length > 0 ? `tubes ${numberRuns(holds.map((t) => t.number))} hold air` : '',
    doubtful.length > 0 ? `tubes ${numberRuns(doubtful.map((t) => t.number))} may` : '',
  ].filter(Boolean);
  return [
    {
      code: 'air-holds-in-tubes',
      severity: holds.length > 0 ? 'heat' : 'unsure',
      path,
      message:
        `${bank.name} does not surely clear itself of air: ${parts.join(', ')}. ` +
        'The figures come from larger pipe. A tube that holds air carries less water, or none.',
      remedy:
        'Let the tubes rise in the direction of flow, bleed at the top, or run all water through the collector at full speed for some minutes after each start.',
    },
  ];
}

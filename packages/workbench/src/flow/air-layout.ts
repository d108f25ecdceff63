import type { AirInlet, AirLayout, AirSpace, AirTube } from '@sunlap/engine/hydraulics/air-types';
import type { Collector, Plumbing } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import type { BankLinks } from '../assembly/bank-links';
import type { AssembledNetwork } from '../assembly/network';

/** Angle under which a pipe of the return falls, for the grade of how well it carries air. */
function downLeg(assembled: AssembledNetwork): AirSpace['downLeg'] {
  const { nodes, links } = assembled.description;
  let best: AirSpace['downLeg'] = null;
  let deepest = 0;
  assembled.infos.forEach((info, link) => {
    const law = links[link].law;
    if (law.kind !== 'pipe' || !isReturn(info.path)) return;
    const drop = nodes[links[link].from].elevation_m - nodes[links[link].to].elevation_m;
    if (drop <= deepest) return;
    deepest = drop;
    best = { link, angle_deg: (Math.asin(Math.min(1, drop / law.length_m)) * 180) / Math.PI };
  });
  return best;
}

function isReturn(path: string): boolean {
  return path.startsWith('/loop/return') || path.startsWith('/loop/toPool');
}

/** Sections whose outlet leads to the return without another section in between. */
export function lastSections(part: Plumbing, collector: Collector): Set<string> {
  if (part.section !== undefined) return new Set([part.section]);
  if (part.series) return lastSections(part.series[part.series.length - 1], collector);
  const out = new Set<string>();
  for (const p of part.parallel ?? []) for (const id of lastSections(p, collector)) out.add(id);
  return out;
}

/** An inlet, and whether it sits on the return pipe. */
interface PlacedInlet extends AirInlet {
  readonly onReturn: boolean;
}

/** Places through which air gets in on the return side, best first: breakers and vents, then a mouth in the air. */
function inlets(assembled: AssembledNetwork, project: Pick<Project, 'loop'>): PlacedInlet[] {
  const { nodes, links } = assembled.description;
  const out: PlacedInlet[] = [];
  for (const tap of assembled.taps) {
    if (tap.bank < 0 && !tap.path.startsWith('/loop/return') && !tap.path.includes('/after/')) continue;
    const automatic = tap.purpose === 'vacuumBreaker' || tap.purpose === 'airVent';
    if (!automatic && !(tap.purpose === 'bleed' && tap.open)) continue;
    out.push({
      kind: tap.purpose === 'vacuumBreaker' ? 'vacuumBreaker' : 'bleed',
      node: tap.node,
      elevation_m: tap.height_m,
      openPressure_Pa: tap.purpose === 'vacuumBreaker' ? tap.opensAt_Pa : 0,
      onReturn: tap.bank < 0,
    });
  }
  out.sort((a, b) => b.elevation_m - a.elevation_m);
  for (const outlet of assembled.outlets) {
    const mouth = links[outlet.mouth];
    const own = project.loop.returnOutlet !== undefined && outlet.path === '/loop/returnOutlet';
    const fixed = nodes[mouth.to].fixedHead_m ?? 0;
    // a mouth in the air lets air in only to what lies under it
    if (fixed > 0 && nodes[mouth.to].elevation_m === fixed && (own || project.loop.outlets.length === 1)) {
      out.push({
        kind: 'openOutlet',
        node: mouth.from,
        elevation_m: fixed,
        openPressure_Pa: 0,
        onReturn: true,
      });
    }
  }
  return out;
}

/** Where air may stand, and by space the inlet that a mouth in the air becomes when water leaves it too slowly. */
export interface LoopAir extends AirLayout {
  readonly climbing: readonly (AirInlet | null)[];
}

/**
 * Where air may stand in the collector: every gathering header is a space. Those that lead to the return share
 * what lets air in: a breaker or vent of their own, one on the return pipe or on a header that lies as high,
 * or a mouth in the air above them.
 */
export function airLayout(
  assembled: AssembledNetwork,
  project: Pick<Project, 'collector' | 'loop'>,
): LoopAir {
  const { collector } = project;
  const leg = downLeg(assembled);
  const found = inlets(assembled, project);
  const last = lastSections(collector.plumbing, collector);
  const { nodes, links } = assembled.description;
  const ends = new Set<number>();
  for (const bank of assembled.banks) {
    if (!bank || !isLast(bank, collector, last)) continue;
    for (const node of [...bank.gatherTees, ...bank.outNodes]) ends.add(node);
  }
  const spaces: AirSpace[] = [];
  const climbing: (AirInlet | null)[] = [];
  const tubes: AirTube[] = [];
  const mouth = found.find((inlet) => inlet.kind === 'openOutlet');
  for (const bank of assembled.banks) {
    if (!bank) continue;
    const section = collector.sections[bank.section];
    const spec = section.banks[bank.bank];
    const header = [...bank.gatherTees, ...bank.outNodes];
    const height = Math.max(...header.map((n) => nodes[n].elevation_m));
    const atEnd = isLast(bank, collector, last);
    const own = found.find((inlet) => header.includes(inlet.node));
    const shared = atEnd ? found.find((inlet) => reaches(inlet, height, ends)) : undefined;
    const space = spaces.length;
    spaces.push({
      id: `${spec.name ?? spec.id} return header`,
      inlet: own ?? shared ?? null,
      downLeg: atEnd ? leg : null,
    });
    // a mouth in the air under the header: air climbs the return when the water is too slow to fill it
    const under = atEnd && mouth && !own && !shared && bank.outNodes.length > 0;
    climbing.push(
      under ? { kind: 'openOutlet', node: bank.outNodes[0], elevation_m: height, openPressure_Pa: 0 } : null,
    );
    const blocked = new Set(spec.blocked ?? []);
    const airBound = new Set(spec.airBound ?? []);
    const series = bank.supplyTees.length === 0 && spec.kind !== 'tubes' && spec.join === 'series';
    bank.units.forEach((link, i) => {
      const { from, to, law } = links[link];
      const mark = blocked.has(i + 1) ? 'blocked' : airBound.has(i + 1) ? 'airBound' : undefined;
      const crown_m = Math.max(nodes[from].elevation_m, nodes[to].elevation_m) + law.bore_m / 2;
      const free = !series || i === bank.units.length - 1;
      tubes.push({
        link,
        discharge: 'to',
        crown_m,
        space: free ? space : null,
        path: section.id,
        ...(mark ? { mark } : {}),
      });
    });
  }
  return { tubes, spaces, climbing };
}

function isLast(bank: BankLinks, collector: Collector, last: ReadonlySet<string>): boolean {
  const section = collector.sections[bank.section];
  return last.has(section.id) && bank.bank === section.banks.length - 1;
}

/** Height by which an inlet may lie under a header and still let air into it [m]: a header's own size. */
const LEVEL = 0.06;

/** Does an inlet on the return side let air into a header at that height? */
function reaches(inlet: PlacedInlet, height_m: number, ends: ReadonlySet<number>): boolean {
  if (inlet.kind === 'openOutlet') return inlet.elevation_m >= height_m - LEVEL;
  return ends.has(inlet.node) ? inlet.elevation_m >= height_m - LEVEL : inlet.onReturn;
}

import type { AirInlet, AirLayout, AirSpace, AirTube } from '@sunlap/engine/hydraulics/air-types';
import type { Collector, Plumbing } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
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

/** Places through which air gets in on the return side, best first: breakers and vents, then a mouth in the air. */
function inlets(assembled: AssembledNetwork, project: Pick<Project, 'loop'>): AirInlet[] {
  const { nodes, links } = assembled.description;
  const out: AirInlet[] = [];
  for (const tap of assembled.taps) {
    const side = tap.bank >= 0 ? tap.path : tap.path.startsWith('/loop/return') ? tap.path : null;
    if (side === null) continue;
    const automatic = tap.purpose === 'vacuumBreaker' || tap.purpose === 'airVent';
    if (!automatic && !(tap.purpose === 'bleed' && tap.open)) continue;
    out.push({
      kind: tap.purpose === 'vacuumBreaker' ? 'vacuumBreaker' : 'bleed',
      node: tap.node,
      elevation_m: tap.height_m,
      openPressure_Pa: tap.purpose === 'vacuumBreaker' ? tap.opensAt_Pa : 0,
    });
  }
  out.sort((a, b) => b.elevation_m - a.elevation_m);
  for (const outlet of assembled.outlets) {
    const mouth = links[outlet.mouth];
    const own = project.loop.returnOutlet !== undefined && outlet.path === '/loop/returnOutlet';
    const fixed = nodes[mouth.to].fixedHead_m ?? 0;
    // a mouth in the air lets air in only to what lies under it
    if (fixed > 0 && nodes[mouth.to].elevation_m === fixed && (own || project.loop.outlets.length === 1)) {
      out.push({ kind: 'openOutlet', node: mouth.from, elevation_m: fixed, openPressure_Pa: 0 });
    }
  }
  return out;
}

/**
 * Where air may stand in the collector: the gathering headers that lead to the return are one space, since a
 * breaker or an open mouth lets air into all of them; every other gathering header is a space of its own.
 */
export function airLayout(
  assembled: AssembledNetwork,
  project: Pick<Project, 'collector' | 'loop'>,
): AirLayout {
  const { collector } = project;
  const leg = downLeg(assembled);
  const found = inlets(assembled, project);
  const last = lastSections(collector.plumbing, collector);
  const { nodes, links } = assembled.description;
  const spaces: AirSpace[] = [];
  const tubes: AirTube[] = [];
  let shared = -1;
  for (const bank of assembled.banks) {
    if (!bank) continue;
    const section = collector.sections[bank.section];
    const spec = section.banks[bank.bank];
    const atEnd = last.has(section.id) && bank.bank === section.banks.length - 1;
    const own = found.find((inlet) => [...bank.gatherTees, ...bank.outNodes].includes(inlet.node)) ?? null;
    let space: number;
    if (atEnd) {
      if (shared < 0) {
        shared = spaces.length;
        spaces.push({ id: 'return header', inlet: null, downLeg: leg });
      }
      space = shared;
    } else {
      space = spaces.length;
      spaces.push({ id: `${spec.name ?? spec.id} return header`, inlet: own, downLeg: null });
    }
    const blocked = new Set(spec.blocked ?? []);
    const airBound = new Set(spec.airBound ?? []);
    const series = bank.supplyTees.length === 0 && spec.kind !== 'tubes' && spec.join === 'series';
    bank.units.forEach((link, i) => {
      const { from, to, law } = links[link];
      const mark = blocked.has(i + 1) ? 'blocked' : airBound.has(i + 1) ? 'airBound' : undefined;
      const crown_m = Math.max(nodes[from].elevation_m, nodes[to].elevation_m) + law.bore_m / 2;
      const ends = !series || i === bank.units.length - 1;
      tubes.push({
        link,
        discharge: 'to',
        crown_m,
        space: ends ? space : null,
        path: section.name ?? section.id,
        ...(mark ? { mark } : {}),
      });
    });
  }
  if (shared >= 0) {
    const inlet = found.find((i) => reaches(i, assembled, last, collector)) ?? null;
    spaces[shared] = { ...spaces[shared], inlet };
  }
  return { tubes, spaces };
}

/** Does an inlet open into the headers that lead to the return? */
function reaches(
  inlet: AirInlet,
  assembled: AssembledNetwork,
  last: ReadonlySet<string>,
  collector: Collector,
): boolean {
  for (const bank of assembled.banks) {
    if (!bank) continue;
    const section = collector.sections[bank.section];
    const inside = [...bank.gatherTees, ...bank.outNodes, ...bank.supplyTees, ...bank.inNodes];
    if (!inside.includes(inlet.node)) continue;
    const atEnd = last.has(section.id) && bank.bank === section.banks.length - 1;
    return atEnd && [...bank.gatherTees, ...bank.outNodes].includes(inlet.node);
  }
  if (inlet.kind !== 'openOutlet') return true;
  // an open mouth admits air only when it lies over the headers
  const lowest = Math.min(
    ...assembled.banks
      .filter(Boolean)
      .map((b) => b.outNodes.map((n) => assembled.description.nodes[n].elevation_m)[0]),
  );
  return inlet.elevation_m >= lowest;
}

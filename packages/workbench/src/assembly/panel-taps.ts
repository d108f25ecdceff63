import type { Project } from '@sunlap/project/schema/project';
import { type BankLinks, tapNode } from './bank-links';
import type { SectionLinks } from './collector-context';
import { addLink, addNode, type Draft } from './draft';
import type { HeaderGeometry, PanelGeometry } from './geometry';
import type { NodeOf } from './in-line';

/** Where taps sit, and where sections begin and end. */
export function nodesOf(draft: Draft, sections: readonly SectionLinks[]): NodeOf {
  return (path) => {
    const end = /^\/collector\/sections\/(\d+)\/(inlet|outlet)Ends$/.exec(path);
    if (end) {
      const section = sections[Number(end[1])];
      return section ? (end[2] === 'inlet' ? section.inNode : section.outNode) : -1;
    }
    return draft.taps.find((tap) => tap.path === path)?.node ?? -1;
  };
}

/** The taps of the panel's headers; an open one lets its water out. */
export function placeTaps(
  draft: Draft,
  project: Pick<Project, 'collector'>,
  banks: readonly BankLinks[],
  geometry: PanelGeometry,
): void {
  const { sections, taps } = project.collector;
  taps.forEach((tap, i) => {
    const s = sections.findIndex((x) => x.id === tap.at.section);
    const k = s < 0 ? -1 : sections[s].banks.findIndex((b) => b.id === tap.at.bank);
    if (k < 0) return;
    const place = sections.slice(0, s).reduce((sum, x) => sum + x.banks.length, k);
    const bank = banks[place];
    if (!bank) return;
    const header = geometry.banks[place][tap.at.header];
    const path = `/collector/taps/${i}`;
    const runs = (tap.open ?? false) && (tap.purpose === 'drain' || tap.purpose === 'bleed');
    const tee = tapNode(bank, tap.at.header, tap.at.end, draft);
    const node = runs && header ? openedEnd(draft, tee, header, path, tap.id) : tee;
    draft.taps.push({
      id: tap.id,
      path,
      node,
      purpose: tap.purpose,
      open: tap.open ?? false,
      opensAt_Pa: tap.opensAt_Pa ?? 0,
      height_m: draft.nodes[node].elevation_m,
      bank: place,
    });
  });
}

/** An open tap makes a capped header end a running one: the tee there gets its second run leg. */
function openedEnd(draft: Draft, tee: number, header: HeaderGeometry, path: string, name: string): number {
  const t = draft.tees.findIndex((x) => x.node === tee && x.run.includes(null));
  if (t < 0) return tee;
  const end = addNode(draft, `${path}/end`, draft.nodes[tee].elevation_m);
  const law = {
    kind: 'pipe',
    length_m: Math.max(header.leadIn_m, 1e-3),
    bore_m: header.size.bore_m,
    roughness_m: header.size.roughness_m,
    minorLoss: 0,
  } as const;
  const link = addLink(draft, tee, end, law, false, 'tap', path, name);
  const [a, b] = draft.tees[t].run;
  draft.tees[t] = { ...draft.tees[t], run: [a ?? link, b ?? link] };
  return end;
}

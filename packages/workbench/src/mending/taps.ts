import type { Edit } from '@sunlap/engine/numeric/notice';
import type { HeaderEnd } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import type { BankGeometry, PanelGeometry } from '../assembly/geometry';

/** One end of a header of the panel. */
export interface HeaderPlace {
  readonly bank: BankGeometry;
  readonly header: 'supply' | 'gather';
  readonly end: HeaderEnd;
  /** Of the outermost tee there. */
  readonly height_m: number;
}

/** Every header end of the panel. */
export function headerEnds(geometry: PanelGeometry): HeaderPlace[] {
  return geometry.banks.flatMap((bank) =>
    (['gather', 'supply'] as const).flatMap((header) => {
      const own = bank[header];
      if (!own) return [];
      return (['first', 'last'] as const).map((end): HeaderPlace => {
        const tee = end === 'first' ? own.tees[0] : own.tees[own.tees.length - 1];
        return { bank, header, end, height_m: tee.height_m };
      });
    }),
  );
}

/** A drain or bleed more, at a header end; null where a tap of any kind sits there. */
export function tapEdit(
  project: Project,
  place: HeaderPlace,
  purpose: 'drain' | 'bleed',
  also: readonly Edit[] = [],
): Edit | null {
  const { sections, taps } = project.collector;
  const section = sections[place.bank.section];
  const at = {
    section: section.id,
    bank: section.banks[place.bank.bank].id,
    header: place.header,
    end: place.end,
  };
  const all = [...taps, ...also.map((e) => e.value as (typeof taps)[number])];
  const same = (t: (typeof taps)[number]): boolean =>
    t.at.section === at.section && t.at.bank === at.bank && t.at.header === at.header && t.at.end === at.end;
  if (all.some(same)) return null;
  const taken = new Set(all.map((t) => t.id));
  let id: string = purpose;
  for (let n = 2; taken.has(id); n++) id = `${purpose}-${n}`;
  return { path: '/collector/taps/-', value: { id, at, purpose, open: false } };
}

import type { Bank, Collector, Section } from '@sunlap/project/schema/collector';
import { spacing_m } from '../assembly/plumbed-ends';

/** The schema allows no more in one bank. */
const MOST_IN_BANK = 500;

/** A collector with more tubes (or coils, or absorbers), dealt out over its banks, and how many came on. */
export interface Grown {
  readonly collector: Collector;
  readonly added: number;
}

/**
 * Adds tubes to a panel: every bank in turn gets one more until all are dealt out. Banks that lie beyond a grown
 * one move on by what it grew, nested ones stay beside it, and sections beyond move as well, so that tubes keep
 * their pitch.
 *
 * @param count tubes to add
 */
export function moreTubes(collector: Collector, count: number): Grown {
  const banks = collector.sections.flatMap((s, i) => s.banks.map((b, k) => ({ key: `${i}/${k}`, bank: b })));
  const extra = new Map<string, number>();
  let left = count;
  while (left > 0) {
    const before = left;
    for (const { key, bank } of banks) {
      if (left === 0) break;
      const own = extra.get(key) ?? 0;
      if (bank.count + own >= MOST_IN_BANK) continue;
      extra.set(key, own + 1);
      left--;
    }
    if (left === before) break;
  }
  let moved = 0;
  const byPlace = collector.sections
    .map((section, i) => ({ section, i }))
    .sort((a, b) => place(a.section) - place(b.section));
  const grown: Section[] = [...collector.sections];
  let row: { at: number; grew: number } | null = null;
  for (const { section, i } of byPlace) {
    // sections at the same place across stand end to end and move together
    if (row === null || place(section) > row.at + 1e-6) {
      moved += row?.grew ?? 0;
      row = { at: place(section), grew: 0 };
    }
    const [next, grew] = growSection(section, (k) => extra.get(`${i}/${k}`) ?? 0);
    row.grew = Math.max(row.grew, grew);
    grown[i] =
      section.direction === 'slope' ? { ...next, u_m: next.u_m + moved } : { ...next, v_m: next.v_m + moved };
  }
  return { collector: { ...collector, sections: grown }, added: count - left };
}

/** Where a section lies along the way in which its tubes are counted [m]. */
function place(section: Section): number {
  return section.direction === 'slope' ? section.u_m : section.v_m;
}

function growSection(section: Section, extraOf: (bank: number) => number): [Section, number] {
  const order = section.banks
    .map((bank, k) => ({ bank, k }))
    .sort((a, b) => a.bank.across_m - b.bank.across_m);
  const banks: Bank[] = [...section.banks];
  let shift = 0;
  let reach = -Infinity;
  let group = 0;
  for (const { bank, k } of order) {
    const pitch = spacing_m(bank);
    const end = bank.across_m + (bank.count - 1) * pitch;
    if (bank.across_m > reach) {
      shift += group;
      group = 0;
    }
    reach = Math.max(reach, end);
    group = Math.max(group, extraOf(k) * pitch);
    banks[k] = { ...bank, count: bank.count + extraOf(k), across_m: bank.across_m + shift };
  }
  return [{ ...section, banks }, shift + group];
}

import type { Bank, Collector } from '@sunlap/project/schema/collector';
import type { Repair } from '@sunlap/project/schema/life';

/** What a repair leaves behind: a plugged tube is out of the way of the water, any other mending puts it back. */
const LEAVES: Record<Repair['what'], 'shut' | 'open' | 'same'> = {
  plugged: 'shut',
  coupled: 'open',
  replaced: 'open',
  reglued: 'open',
  cleaned: 'open',
  other: 'same',
};

/**
 * A collector with repairs done, oldest first. A repair that names no tube frees every tube of its bank, or of
 * its section; to plug, a tube must be named. The same collector comes back where nothing changes.
 *
 * @example repaired(collector, [{ id: 'r1', date: '2026-05-02', section: 'A', bank: 'A1', tube: 4, what: 'plugged' }])
 */
export function repaired(collector: Collector, repairs: readonly Repair[]): Collector {
  return repairs.reduce(applied, collector);
}

function applied(collector: Collector, repair: Repair): Collector {
  const leaves = LEAVES[repair.what];
  if (leaves === 'same' || repair.section === undefined) return collector;
  let changed = false;
  const sections = collector.sections.map((section) => {
    if (section.id !== repair.section) return section;
    const banks = section.banks.map((bank) => {
      if (repair.bank !== undefined && bank.id !== repair.bank) return bank;
      const next = marked(bank, repair.tube, leaves);
      if (next !== bank) changed = true;
      return next;
    });
    return { ...section, banks };
  });
  return changed ? { ...collector, sections } : collector;
}

function marked(bank: Bank, tube: number | undefined, leaves: 'shut' | 'open'): Bank {
  const blocked = bank.blocked ?? [];
  const airBound = bank.airBound ?? [];
  if (leaves === 'shut') {
    if (tube === undefined || tube > bank.count || blocked.includes(tube)) return bank;
    return {
      ...bank,
      blocked: [...blocked, tube].sort((a, b) => a - b),
      airBound: airBound.filter((n) => n !== tube),
    };
  }
  const stays = (n: number): boolean => tube !== undefined && n !== tube;
  if (blocked.every(stays) && airBound.every(stays)) return bank;
  return { ...bank, blocked: blocked.filter(stays), airBound: airBound.filter(stays) };
}

import type { Bank, Section } from '@sunlap/project/schema/collector';

/** Distance between the axes of the units of a bank. */
export function spacing_m(bank: Bank): number {
  if (bank.kind === 'tubes') return bank.pitch_m;
  if (bank.kind === 'coil') return bank.pitch_m ?? bank.outerDiameter_m;
  return bank.width_m;
}

export const shift_m = (bank: Bank): number =>
  bank.kind === 'tubes' ? 0 : bank.kind === 'coil' ? bank.outerDiameter_m / 2 : bank.width_m / 2;

export const span = (bank: Bank) => {
  const first = bank.across_m + shift_m(bank) - spacing_m(bank) / 2;
  return { first, last: first + bank.count * spacing_m(bank) };
};

/** Along its tubes. */
export const reach_m = (bank: Bank): number => (bank.kind === 'coil' ? bank.outerDiameter_m : bank.length_m);

export function sectionSize(section: Section): { along_m: number; across_m: number } {
  const spans = section.banks.map(span);
  return {
    along_m: Math.max(...section.banks.map((b) => (b.along_m ?? 0) + reach_m(b))),
    across_m: Math.max(...spans.map((s) => s.last)) - Math.min(...spans.map((s) => s.first)),
  };
}

export const isNested = (section: Section): boolean =>
  section.banks.some((a, i) =>
    section.banks.some((b, k) => {
      if (k <= i) return false;
      const [p, q] = [span(a), span(b)];
      return p.first < q.last - 1e-6 && q.first < p.last - 1e-6;
    }),
  );

import type { Bank, Handover, HeaderEnd, Section } from '@sunlap/project/schema/collector';

/** Which header ends of a bank water comes in and goes out by, and where the supply header lies. */
export interface BankEnds {
  readonly supplySide: 'near' | 'far';
  readonly inflow: readonly HeaderEnd[];
  readonly outflow: readonly HeaderEnd[];
  /** True: the tube nearest the inlet is the last one. */
  readonly countedFromLast: boolean;
}

/** What joins two banks when the file does not say: one pipe between the ends away from where water came in. */
export function handoverAt(section: Section, step: number): Handover {
  const given = section.handovers[step];
  if (given) return given;
  const came = step === 0 ? section.inletEnds[0] : handoverAt(section, step - 1).joins[0].to;
  const other: HeaderEnd = came === 'first' ? 'last' : 'first';
  return { joins: [{ from: other, to: other }] };
}

/**
 * Follow the water through a section: sides alternate from bank to bank, ends follow the hand-overs.
 *
 * @example one bank, inlet and outlet at the first end // same-end connection, supply on the inlet side
 */
export function bankEnds(section: Section): BankEnds[] {
  const last = section.banks.length - 1;
  return section.banks.map((_, k) => {
    const near = (section.inletSide === 'near') === (k % 2 === 0);
    const inflow = unique(k === 0 ? section.inletEnds : handoverAt(section, k - 1).joins.map((j) => j.to));
    const outflow = unique(k === last ? section.outletEnds : handoverAt(section, k).joins.map((j) => j.from));
    return {
      supplySide: near ? 'near' : 'far',
      inflow,
      outflow,
      countedFromLast: inflow.length === 1 && inflow[0] === 'last',
    };
  });
}

function unique(ends: readonly HeaderEnd[]): HeaderEnd[] {
  return [...new Set(ends)];
}

/** How a one-bank panel is connected: inlet and outlet at the same end, at opposite ends, or either at both. */
export function connection(ends: BankEnds): 'sameEnd' | 'oppositeEnds' | 'bothEnds' {
  if (ends.inflow.length > 1 || ends.outflow.length > 1) return 'bothEnds';
  return ends.inflow[0] === ends.outflow[0] ? 'sameEnd' : 'oppositeEnds';
}

/** Absorbers, coils or tubes side by side, as distances between their axes [m]. */
export function spacing_m(bank: Bank): number {
  if (bank.kind === 'tubes') return bank.pitch_m;
  if (bank.kind === 'coil') return bank.pitch_m ?? bank.outerDiameter_m;
  return bank.width_m;
}

/** Does the bank have a supply and a gathering header between which its units lie side by side? */
export function hasHeaders(bank: Bank): boolean {
  if (bank.kind === 'tubes') return true;
  if (bank.join === 'series') return false;
  return bank.kind === 'coil'
    ? bank.supply !== undefined && bank.gather !== undefined
    : bank.headerPipe !== undefined;
}

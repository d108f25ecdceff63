import type { QuantityKind } from './kinds';
import { KINDS } from './kinds';

/** A quantity that was read: house value, the unit it was given in, and how we would write it. */
export interface Read {
  ok: true;
  value: number;
  unit: string;
  canonicalText: string;
}

/** Text that could not be read. `message` is a whole sentence and holds the example. */
export interface Unread {
  ok: false;
  message: string;
  /** Where in the typed text the trouble starts. */
  index: number;
  example: string;
}

export type Parsed = Read | Unread;

/** @param problem starts with a capital, has no full stop */
export function failure(kind: QuantityKind, problem: string, index: number): Unread {
  const { examples } = KINDS[kind];
  const example = examples.us === examples.metric ? examples.us : `${examples.us}, ${examples.metric}`;
  return { ok: false, message: `${problem}. Expected something like ${example}.`, index, example };
}

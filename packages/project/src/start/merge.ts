type Plain = Record<string, unknown>;

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Carries the difference between two makings over to what a person made of the first. What did not change between
 * them stays as the person has it, and so does what the person set to something else.
 *
 * Objects go by key, list entries by their `id`, or by place where the ids are the person's own and the kinds agree.
 *
 * @param mine   what the person has
 * @param before what it was made from
 * @param after  what it would be made from now
 * @returns `mine` itself where nothing is carried over
 * @example carryOver({ a: 1, b: 5 }, { a: 1, b: 2 }, { a: 3, b: 2 }) // { a: 3, b: 5 }
 */
export function carryOver<T>(mine: T, before: unknown, after: unknown): T {
  return carried(mine, before, after) as T;
}

function carried(mine: unknown, before: unknown, after: unknown): unknown {
  if (same(before, after)) return mine;
  if (same(mine, before)) return after;
  if (Array.isArray(mine) && Array.isArray(before) && Array.isArray(after)) return lists(mine, before, after);
  if (isPlain(mine) && isPlain(before) && isPlain(after) && mine.kind === before.kind)
    return objects(mine, before, after);
  return mine;
}

function objects(mine: Plain, before: Plain, after: Plain): Plain {
  const keys = Object.keys(mine);
  // a new key comes where a new making has it, behind the one before it
  Object.keys(after).forEach((key, i, order) => {
    if (!(key in mine)) keys.splice(i === 0 ? 0 : keys.indexOf(order[i - 1]) + 1, 0, key);
  });
  const out: Plain = {};
  for (const key of keys) {
    const next = carried(mine[key], before[key], after[key]);
    if (next !== undefined) out[key] = next;
  }
  return out;
}

function lists(mine: unknown[], before: unknown[], after: unknown[]): unknown[] {
  const mineAt = before.map((entry, i) => partner(entry, i, before, mine));
  const gone = new Set<number>();
  const out = [...mine];
  before.forEach((entry, i) => {
    const at = mineAt[i];
    if (at < 0) return;
    const j = idOf(entry) === undefined ? i : after.findIndex((other) => idOf(other) === idOf(entry));
    if (j < 0 || j >= after.length) gone.add(at);
    else out[at] = carried(mine[at], entry, after[j]);
  });
  const kept = out.filter((_, at) => !gone.has(at));
  const taken = new Set(kept.map(idOf));
  after.forEach((entry, j) => {
    const id = idOf(entry);
    const isNew = id === undefined ? j >= before.length : !before.some((other) => idOf(other) === id);
    if (!isNew) return;
    kept.push(id !== undefined && taken.has(id) ? renamed(entry as Plain, id, taken) : entry);
  });
  return kept;
}

const idOf = (entry: unknown): string | undefined =>
  isPlain(entry) && typeof entry.id === 'string' ? entry.id : undefined;

/** Place in the person's list of an entry of the list it was made from; −1 where there is none. */
function partner(entry: unknown, i: number, before: unknown[], mine: unknown[]): number {
  const id = idOf(entry);
  if (id === undefined) return i < mine.length ? i : -1;
  const named = mine.findIndex((other) => idOf(other) === id);
  if (named >= 0) return named;
  const there = mine[i];
  const foreign = isPlain(there) && !before.some((other) => idOf(other) === idOf(there));
  return foreign && there.kind === (entry as Plain).kind ? i : -1;
}

/** A new entry whose id the person has given to another. */
function renamed(entry: Plain, id: string, taken: ReadonlySet<string | undefined>): Plain {
  let n = 2;
  while (taken.has(`${id}-${n}`)) n++;
  return { ...entry, id: `${id}-${n}` };
}

function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((entry, i) => same(entry, b[i]));
  if (!isPlain(a) || !isPlain(b)) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => same(a[key], b[key]));
}

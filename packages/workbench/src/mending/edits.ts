import type { Edit } from '@sunlap/engine/numeric/notice';

/**
 * A copy with the changes made, one after another; what lies beside their places is shared.
 *
 * @returns null where a change has no place here: the file is another by now
 * @example applyEdits({ a: [1] }, [{ path: '/a/-', value: 2 }]) // { a: [1, 2] }
 */
export function applyEdits<T>(root: T, edits: readonly Edit[]): T | null {
  let out: unknown = root;
  for (const { path, value } of edits) {
    out = changed(out, path.split('/').slice(1), value);
    if (out === NO_PLACE) return null;
  }
  return out as T;
}

const NO_PLACE = Symbol('no place');

function changed(node: unknown, keys: readonly string[], value: unknown): unknown {
  if (keys.length === 0) return value;
  const [key, ...rest] = keys;
  if (Array.isArray(node)) {
    if (key === '-' && rest.length === 0) return [...node, value];
    const at = Number(key);
    if (!Number.isInteger(at) || at < 0 || at >= node.length) return NO_PLACE;
    const entry = changed(node[at], rest, value);
    return entry === NO_PLACE ? NO_PLACE : node.map((old, i) => (i === at ? entry : old));
  }
  if (typeof node !== 'object' || node === null) return NO_PLACE;
  const own = Object.hasOwn(node, key) ? (node as Record<string, unknown>)[key] : undefined;
  const entry = changed(own, rest, value);
  return entry === NO_PLACE ? NO_PLACE : { ...node, [key]: entry };
}

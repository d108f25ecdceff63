/** JSON pointer to its keys. @example keysOf('/loop/feed/0') // ['loop', 'feed', '0'] */
export function keysOf(pointer: string): string[] {
  return pointer === ''
    ? []
    : pointer
        .slice(1)
        .split('/')
        .map((k) => k.replaceAll('~1', '/').replaceAll('~0', '~'));
}

export function valueAt(root: unknown, pointer: string): unknown {
  let value = root;
  for (const key of keysOf(pointer)) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string, unknown>)[key];
  }
  return value;
}

/** A copy of `root` with one value replaced; everything beside the way to it is shared. */
export function withValue<T>(root: T, pointer: string, value: unknown): T {
  const step = (node: unknown, keys: string[]): unknown => {
    if (keys.length === 0) return value;
    const [key, ...rest] = keys;
    if (Array.isArray(node)) return node.map((entry, i) => (String(i) === key ? step(entry, rest) : entry));
    const record = (node ?? {}) as Record<string, unknown>;
    const old = Object.hasOwn(record, key) ? record[key] : undefined;
    return { ...record, [key]: step(old, rest) };
  };
  return step(root, keysOf(pointer)) as T;
}

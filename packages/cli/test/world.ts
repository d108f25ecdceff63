import { readFileSync } from 'node:fs';
import type { Io } from '../src/io';

/** A world of files in memory, so that commands can be tried without a disk. */
export function world(
  files: Record<string, string | Uint8Array> = {},
): Io & { text: string; errors: string; files: Map<string, string | Uint8Array> } {
  const stored = new Map(Object.entries(files));
  const bytes = (content: string | Uint8Array): Uint8Array =>
    typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return {
    text: '',
    errors: '',
    files: stored,
    columns: undefined,
    out(text) {
      this.text += text;
    },
    err(text) {
      this.errors += text;
    },
    async size(path) {
      const content = stored.get(path);
      return content === undefined ? { reason: 'there is no such file or folder' } : bytes(content).length;
    },
    async read(path) {
      return bytes(stored.get(path) ?? '');
    },
    realPath: async (path) => path.replace(/^\.\//, ''),
    async writeNew(path, text) {
      if (stored.has(path)) return { reason: 'there is a file of that name already; it is left as it is' };
      stored.set(path, text);
      return undefined;
    },
    async write(path, text) {
      stored.set(path, text);
      return undefined;
    },
    today: () => '2026-04-12',
  };
}

/** Text of one of the examples. */
export function example(name: string): string {
  return readFileSync(new URL(`../../../examples/${name}.json`, import.meta.url), 'utf8');
}

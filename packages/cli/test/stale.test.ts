import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
// @ts-expect-error a plain script beside the bundle, without types
import { isStale } from '../bin/stale.mjs';

let root = '';
const at = (seconds: number, ...path: string[]): string => {
  const file = join(root, ...path);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, '');
  utimesSync(file, seconds, seconds);
  return file;
};
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sunlap-'));
});
afterEach(() => rmSync(root, { recursive: true }));

describe('a bundle', () => {
  it('is stale when a source of any package was changed after it', () => {
    const bundle = at(1000, 'packages', 'cli', 'dist', 'main.mjs');
    at(900, 'packages', 'engine', 'src', 'sun', 'day.ts');
    expect(isStale(root, [bundle])).toBe(false);
    at(1001, 'packages', 'data', 'src', 'pipes.json');
    expect(isStale(root, [bundle])).toBe(true);
  });
  it('is not stale when it was looked at since, nor for a test or the other face', () => {
    const bundle = at(1000, 'packages', 'cli', 'dist', 'main.mjs');
    at(1500, 'packages', 'engine', 'src', 'day.ts');
    at(3000, 'packages', 'engine', 'test', 'day.test.ts');
    at(3000, 'packages', 'web', 'src', 'main.tsx');
    expect(isStale(root, [bundle, at(2000, '.build', 'cli')])).toBe(false);
  });
  it('is never stale where there are no sources', () => {
    expect(isStale(root, [at(1000, 'main.mjs'), join(root, 'none')])).toBe(false);
  });
});

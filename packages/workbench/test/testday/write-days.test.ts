import { readFileSync, writeFileSync } from 'node:fs';
import { readProject } from '@sunlap/project/file/read';
import { writeProject } from '@sunlap/project/file/write';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { quinceLife, ternLife } from './invented-lives';

/**
 * Writes the examples' invented test days anew, after their collector or loop has changed:
 *
 *   SUNLAP_INVENT_DAYS=1 npx vitest run packages/workbench/test/testday/write-days.test.ts
 */
const LIVES: [string, (p: Project) => Project][] = [
  ['quince-yard', quinceLife],
  ['tern-roof', ternLife],
];

describe.runIf(process.env.SUNLAP_INVENT_DAYS === '1')('inventing the test days of the examples', () => {
  it.each(LIVES)('%s', (name, life) => {
    const file = new URL(`../../../../examples/${name}.json`, import.meta.url);
    const read = readProject(readFileSync(file, 'utf8'));
    if (!read.ok) throw new Error(`${name} does not read`);
    const text = writeProject(life(read.project));
    expect(readProject(text).ok).toBe(true);
    writeFileSync(file, text);
  });
});

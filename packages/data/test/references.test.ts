import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { findReference } from '../src/references';

const PACKAGES = join(import.meta.dirname, '..', '..');

function sourcesUnder(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(folder, name));
}

test('every key that a docstring cites is in references.json', () => {
  const missing: string[] = [];
  let cited = 0;
  for (const name of ['engine', 'data', 'project', 'drawing', 'workbench'])
    for (const file of sourcesUnder(join(PACKAGES, name, 'src')))
      for (const match of readFileSync(file, 'utf8').matchAll(/@see ([\w, -]+?) in references\.json/g))
        for (const key of match[1].split(/, | and /)) {
          cited++;
          if (findReference(key) === undefined) missing.push(`${key} in ${file.slice(PACKAGES.length + 1)}`);
        }
  expect(missing).toEqual([]);
  expect(cited).toBeGreaterThan(10);
});

import { readFileSync } from 'node:fs';
import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';

/** One of the example projects. */
export function exampleProject(name: string): Project {
  const text = readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8');
  const read = readProject(text);
  if (!read.ok) throw new Error(`${name} is no project`);
  return read.project;
}

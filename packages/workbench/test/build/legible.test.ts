import { type BuildDrawing, buildSheet, textBox } from '@sunlap/drawing/buildPlan';
import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import tern from '../../../../examples/tern-roof.json';
import { build } from '../../src/build/build';
import { buildDrawings } from '../../src/build/drawings';
import { randomLayout } from './random-layout';

function read(file: unknown): Project {
  const answer = readProject(JSON.stringify(file));
  if (!answer.ok) throw new Error('the example does not read');
  return answer.project;
}

/** Tubes of the first pass of another number, pitch and length. */
function odd(count: number, pitch_m: number, length_m: number, direction: 'contour' | 'slope'): Project {
  const project = structuredClone(read(quince));
  const [section] = project.collector.sections;
  const bank = section.banks[0];
  if (bank.kind !== 'tubes') throw new Error('tubes expected');
  Object.assign(bank, { count, pitch_m, length_m });
  section.banks = [bank];
  section.handovers = [];
  section.direction = direction;
  project.collector.sections = [section];
  project.collector.plumbing = { section: section.id };
  project.collector.taps = [];
  return project;
}

const CASES: [string, Project][] = [
  ['quince', read(quince)],
  ['tern', read(tern)],
  ['two tubes far apart', odd(2, 1.2, 3, 'contour')],
  ['two tubes close', odd(2, 0.0826, 1.5, 'contour')],
  ['ninety close tubes', odd(90, 0.0826, 3, 'slope')],
  ['very long tubes', odd(12, 0.09, 40, 'contour')],
  ['short and steep', odd(30, 0.1, 1, 'slope')],
  ['one tube', odd(1, 0.1, 6, 'contour')],
  ...Array.from({ length: 12 }, (_, i): [string, Project] => [`layout ${700 + i}`, randomLayout(700 + i)]),
];

/** Pairs of texts whose letters would touch, and texts that leave the sheet. */
function clashes(drawing: BuildDrawing): string[] {
  const sheet = buildSheet(drawing);
  const texts = sheet.items.flatMap((item) =>
    item.kind === 'text' ? [{ text: item.text, ...textBox(item) }] : [],
  );
  const out: string[] = [];
  texts.forEach((a, i) => {
    if (a.left < -1 || a.right > sheet.width + 1 || a.top < 0 || a.bottom > sheet.height)
      out.push(`${drawing.id}: “${a.text}” leaves the sheet`);
    for (const b of texts.slice(i + 1))
      if (
        Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
        Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1
      )
        out.push(`${drawing.id}: “${a.text}” on “${b.text}”`);
  });
  return out;
}

describe('drawings', () => {
  it.each(CASES)('of %s keep every letter on the sheet and off every other', (_name, project) => {
    const drawings = buildDrawings(project, build(project, { scope: 'all' }).result);
    expect(drawings.length).toBeGreaterThan(4);
    expect(drawings.flatMap(clashes)).toEqual([]);
  });
});

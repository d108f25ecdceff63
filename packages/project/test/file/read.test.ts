import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { projectJsonSchema } from '../../src/file/json-schema';
import { migrate } from '../../src/file/migrate';
import { problemText } from '../../src/file/problem';
import { LARGEST_FILE_CHARACTERS, parseProject, readProject } from '../../src/file/read';
import { writeProject } from '../../src/file/write';
import { startProject, usualAnswers } from '../../src/start/start-project';

const examplesFolder = new URL('../../../../examples/', import.meta.url);
const examples = readdirSync(examplesFolder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => [name, readFileSync(new URL(name, examplesFolder), 'utf8')] as const);
const quince = examples.find(([name]) => name.startsWith('quince'))?.[1] ?? '';

/** The example with one place changed. */
function changed(path: (string | number)[], value: unknown): string {
  const file = JSON.parse(quince);
  let place = file;
  for (const key of path.slice(0, -1)) place = place[key];
  const last = path[path.length - 1];
  if (value === undefined) delete place[last];
  else place[last] = value;
  return JSON.stringify(file, null, 2);
}

function problemsOf(text: string): string[] {
  const read = readProject(text);
  return read.ok ? [] : read.problems.map(problemText);
}

describe('examples', () => {
  it.each(examples)('%s reads, is marked invented, and is written as it stands', (_, text) => {
    const read = readProject(text);
    if (!read.ok) throw new Error(read.problems.map(problemText).join('\n'));
    expect(read.project.invented).toBe(true);
    expect(writeProject(read.project)).toBe(text);
  });

  it('differ in kind: US and metric, north and south, tubes and coils', () => {
    const read = examples.map(([, text]) => JSON.parse(text));
    expect(new Set(read.map((project) => project.units))).toEqual(new Set(['us', 'metric']));
    expect(new Set(read.map((project) => Math.sign(project.site.latitude_deg)))).toEqual(new Set([1, -1]));
  });
});

describe('the published JSON Schema', () => {
  it('is the one that the format gives', () => {
    const published = readFileSync(
      new URL('../../../../docs/project-1.schema.json', import.meta.url),
      'utf8',
    );
    expect(JSON.parse(published)).toEqual(JSON.parse(JSON.stringify(projectJsonSchema())));
  });
});

describe('a starting project', () => {
  it.each(['us', 'metric'] as const)('in %s units is legal', (units) => {
    const read = readProject(writeProject(startProject(usualAnswers(units))));
    expect(read.ok ? [] : read.problems).toEqual([]);
  });
});

describe('bad files get their place and what was expected', () => {
  it('wrong type, with line and column', () => {
    const [first] = problemsOf(changed(['pool', 'wish_C'], 'warm'));
    expect(first).toMatch(/^\/pool\/wish_C \(line \d+, column \d+\): found "warm"; expected a number$/);
  });
  it('missing part', () => {
    expect(problemsOf(changed(['loop', 'pump'], undefined))[0]).toMatch(
      /^\/loop\/pump .*nothing is there; expected an object/,
    );
  });
  it('unknown key, with the one that was meant', () => {
    expect(problemsOf(changed(['site', 'latitute_deg'], 3))[0]).toMatch(/did you mean "latitude_deg"/);
  });
  it('negative length', () => {
    const path = ['collector', 'sections', 1, 'banks', 0, 'length_m'];
    expect(problemsOf(changed(path, -6))[0]).toMatch(
      /^\/collector\/sections\/1\/banks\/0\/length_m .*found -6; expected a number more than 0/,
    );
  });
  it('unknown kind of a part', () => {
    expect(problemsOf(changed(['loop', 'bypass', 'kind'], 'fourWay'))[0]).toMatch(
      /\/loop\/bypass\/kind .*"fourWay"; expected one of "none", "threeWay", "twoValves"/,
    );
  });
  it('empty file', () => {
    expect(problemsOf('')[0]).toMatch(/the file is empty/);
    expect(problemsOf('  \n\t')[0]).toMatch(/the file is empty/);
  });
  it('text that is not JSON, with its line', () => {
    expect(problemsOf('{\n "schemaVersion": 1,\n oops\n}')[0]).toMatch(/line 3, column 2.*not JSON/);
  });
  it('a newer version is refused and named', () => {
    expect(problemsOf(changed(['schemaVersion'], 7))[0]).toMatch(/version 7, written by a newer program/);
  });
  it.each([0, -1, 1.5, '1', null])('version %j is refused', (version) => {
    expect(problemsOf(changed(['schemaVersion'], version))[0]).toMatch(/^\/schemaVersion/);
  });
  it('keys that reach for prototypes are unknown keys, and change nothing', () => {
    const text = quince.replace(
      '"schemaVersion": 1,',
      '"schemaVersion": 1, "__proto__": { "polluted": true },',
    );
    expect(problemsOf(text)[0]).toMatch(/unknown key "__proto__"/);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
  it('a very large text is refused before it is parsed', () => {
    expect(problemsOf('x'.repeat(LARGEST_FILE_CHARACTERS + 1))[0]).toMatch(/million characters/);
  });
  it('a hostile depth of nesting is refused', () => {
    expect(problemsOf(`${'['.repeat(50_000)}${']'.repeat(50_000)}`)[0]).toMatch(/nested more than/);
  });
  it('a byte order mark is no fault', () => {
    expect(readProject(`\uFEFF${quince}`).ok).toBe(true);
  });
});

describe('migration', () => {
  const steps = {
    1: (file: Record<string, unknown>) => ({ ...file, second: file.first }),
    2: (file: Record<string, unknown>) => ({ ...file, third: file.second }),
  };
  it('steps through every version and leaves the input alone', () => {
    const old = Object.freeze({ schemaVersion: 1, first: 'x' });
    expect(migrate(old, 1, 3, steps)).toEqual({ schemaVersion: 3, first: 'x', second: 'x', third: 'x' });
  });
  it('a missing step is an error of ours', () => {
    expect(() => migrate({}, 1, 4, steps)).toThrow(/no migration from version 3/);
  });
});

describe('fuzz', () => {
  it('any text is answered, never thrown at', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json(), fc.string({ unit: 'binary' })), (text) => {
        const read = readProject(text);
        expect(read.ok ? 1 : read.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 400 },
    );
  });
  it('any value put anywhere in a good project is read or explained', () => {
    const places: (string | number)[][] = [];
    const walk = (value: unknown, path: (string | number)[]): void => {
      if (path.length > 0) places.push(path);
      if (Array.isArray(value)) {
        value.forEach((entry, i) => {
          walk(entry, [...path, i]);
        });
      } else if (typeof value === 'object' && value !== null) {
        for (const [key, entry] of Object.entries(value)) walk(entry, [...path, key]);
      }
    };
    walk(JSON.parse(quince), []);
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.anything(), (path, value) => {
        let text: string;
        try {
          text = changed(path, value);
        } catch {
          return; // not expressible as JSON
        }
        const read = readProject(text);
        if (!read.ok) {
          for (const problem of read.problems) {
            expect(problem.expected).not.toBe('');
            expect(problemText(problem)).not.toMatch(/undefined|\[object/);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
  it('a truncated file is refused', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: quince.trimEnd().length - 1 }), (length) => {
        expect(readProject(quince.slice(0, length)).ok).toBe(false);
      }),
      { numRuns: 100 },
    );
  });
  it('parseProject takes values that are no objects', () => {
    for (const value of [undefined, null, 3, 'x', [], () => 1]) expect(parseProject(value).ok).toBe(false);
  });
});

describe('a value that is already parsed', () => {
  it('is refused when it is nested without end, not run out of stack over', () => {
    let plumbing: object = { section: 'A' };
    for (let k = 0; k < 20_000; k++) plumbing = { series: [plumbing] };
    const project = startProject(usualAnswers('us'));
    const read = parseProject({ ...project, collector: { ...project.collector, plumbing } });
    expect(read.ok ? '' : read.problems.map(problemText).join()).toMatch(/nested more than 60 deep/);
    const round: Record<string, unknown> = { ...project };
    round.notes = [round, round];
    expect(parseProject(round).ok).toBe(false);
  });
});

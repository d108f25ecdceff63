import { findNodeAtLocation, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import * as z from 'zod/mini';
import { type Project, projectSchema, SCHEMA_VERSION } from '../schema/project';
import { explain } from './explain';
import { migrate } from './migrate';
import type { Problem } from './problem';
import { knownKeys } from './shape';

z.config({ jitless: true });

/** A project of this format is some tens of kilobytes; anything near this is another kind of file. */
export const LARGEST_FILE_CHARACTERS = 20_000_000;
const DEEPEST = 60;
const MOST_PROBLEMS = 30;

export type ReadResult =
  | { ok: true; project: Project; migratedFrom?: number }
  | { ok: false; problems: Problem[] };

const refuse = (found: string, expected: string, path = ''): ReadResult => ({
  ok: false,
  problems: [{ path, found, expected }],
});

const TOO_DEEP = refuse(`lists and objects nested more than ${DEEPEST} deep`, 'a project file');

/** Line and column of an offset, counted from 1. */
function lineColumn(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  const line = before.split('\n').length;
  return { line, column: offset - before.lastIndexOf('\n') };
}

function syntaxProblem(text: string, reason: string): Problem {
  const errors: ParseError[] = [];
  try {
    parseTree(text.slice(0, 1_000_000), errors);
  } catch {
    return { path: '', found: reason, expected: 'JSON' };
  }
  const first = errors[0];
  if (first === undefined) return { path: '', found: reason, expected: 'JSON' };
  const words = printParseErrorCode(first.error)
    .replaceAll(/([A-Z])/g, ' $1')
    .trim()
    .toLowerCase();
  return {
    path: '',
    found: `not JSON: ${words}`,
    expected: 'JSON as this program writes it',
    ...lineColumn(text, first.offset),
  };
}

/** Depth of nesting without recursion, so that a hostile file cannot exhaust the stack. */
function tooDeep(root: unknown): boolean {
  let level = new Set<unknown>([root]);
  for (let depth = 0; level.size > 0; depth++) {
    if (depth > DEEPEST) return true;
    const next = new Set<unknown>();
    for (const value of level) {
      if (typeof value !== 'object' || value === null) continue;
      for (const part of Object.values(value)) next.add(part);
    }
    level = next;
  }
  return false;
}

/** Adds line and column to problems whose place, or whose nearest existing parent, stands in the text. */
function placed(problems: Problem[], text: string): Problem[] {
  const tree = parseTree(text);
  if (tree === undefined) return problems;
  return problems.map((problem) => {
    const keys = problem.path
      .split('/')
      .slice(1)
      .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
    for (let n = keys.length; n >= 0; n--) {
      const path = keys.slice(0, n).map((key) => (/^\d+$/.test(key) ? Number(key) : key));
      const node = findNodeAtLocation(tree, path);
      if (node !== undefined) return { ...problem, ...lineColumn(text, node.offset) };
    }
    return problem;
  });
}

/**
 * Reads a project file: text in, a trusted project or a list of what is wrong out. Never throws, changes
 * nothing, and computes nothing from a file that it does not fully understand.
 */
export function readProject(text: string): ReadResult {
  if (text.length > LARGEST_FILE_CHARACTERS)
    return refuse(
      `${Math.round(text.length / 1e6)} million characters`,
      'a project file, well under 20 million',
    );
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (plain.trim() === '') return refuse('the file is empty', 'a project file; `sunlap init` writes one');
  let raw: unknown;
  try {
    raw = JSON.parse(plain);
  } catch (error) {
    return {
      ok: false,
      problems: [syntaxProblem(plain, error instanceof Error ? error.message : String(error))],
    };
  }
  if (tooDeep(raw)) return TOO_DEEP;
  const result = parseProject(raw);
  if (result.ok) return result;
  return { ok: false, problems: placed(result.problems.slice(0, MOST_PROBLEMS), plain) };
}

/** Same as {@link readProject}, for a value that is already parsed (the browser's own store). */
export function parseProject(raw: unknown): ReadResult {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw))
    return refuse('something other than an object', 'a project, { … }');
  if (tooDeep(raw)) return TOO_DEEP;
  const version = (raw as Record<string, unknown>).schemaVersion;
  if (version === undefined)
    return refuse('nothing is there', `the version of the format, ${SCHEMA_VERSION}`, '/schemaVersion');
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse(
      `found ${String(JSON.stringify(version)).slice(0, 40)}`,
      `the version of the format, a whole number from 1 to ${SCHEMA_VERSION}`,
      '/schemaVersion',
    );
  if (version > SCHEMA_VERSION)
    return refuse(
      `version ${version}, written by a newer program`,
      `version ${SCHEMA_VERSION} or older; get the newer program, the file is left as it is`,
      '/schemaVersion',
    );
  const current = migrate(raw as Record<string, unknown>, version, SCHEMA_VERSION);
  const parsed = projectSchema.safeParse(current);
  if (!parsed.success) return { ok: false, problems: explain(parsed.error.issues, current, knownKeys) };
  return version === SCHEMA_VERSION
    ? { ok: true, project: parsed.data }
    : { ok: true, project: parsed.data, migratedFrom: version };
}

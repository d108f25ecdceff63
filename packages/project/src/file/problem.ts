/** One thing in a file that keeps it from being read, in words for the person who will mend it. */
export interface Problem {
  /** JSON pointer into the file; empty for the file as a whole. */
  path: string;
  /** What is there. */
  found: string;
  /** What was expected there. */
  expected: string;
  /** Place in the text, counted from 1, where it is known. */
  line?: number;
  column?: number;
}

/** One line: place, what is there, what was expected. */
export function problemText(problem: Problem): string {
  const where = [
    problem.path === '' ? '' : problem.path,
    problem.line === undefined ? '' : `line ${problem.line}, column ${problem.column}`,
  ].filter((part) => part !== '');
  const place = where.length === 2 ? `${where[0]} (${where[1]})` : (where[0] ?? 'the file');
  return `${place}: ${problem.found}; expected ${problem.expected}`;
}

/** Place of a key list as a JSON pointer (RFC 6901). */
export function pointer(keys: readonly (string | number | symbol)[]): string {
  return keys.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

import type * as z from 'zod/mini';
import { type Problem, pointer } from './problem';

type Issue = z.core.$ZodIssue;
type Keys = readonly PropertyKey[];

/** What stands at a place of the parsed file, as short text. */
function shown(root: unknown, keys: Keys): string {
  let value: unknown = root;
  for (const key of keys) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return 'nothing is there';
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  if (value === undefined) return 'nothing is there';
  if (value === null) return 'found null';
  if (Array.isArray(value)) return `found a list of ${value.length}`;
  if (typeof value === 'object') return 'found an object';
  const text = JSON.stringify(value) ?? typeof value;
  return `found ${text.length > 40 ? `${text.slice(0, 37)}…` : text}`;
}

const TYPE_NAMES: Record<string, string> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text in quotes',
  boolean: 'true or false',
  array: 'a list [ … ]',
  tuple: 'a list [ … ] of fixed length',
  object: 'an object { … }',
};

const quoted = (values: readonly unknown[]): string =>
  values.length === 1
    ? JSON.stringify(values[0])
    : `one of ${values.map((v) => JSON.stringify(v)).join(', ')}`;

function bound(issue: Extract<Issue, { code: 'too_small' | 'too_big' }>): string {
  const low = issue.code === 'too_small';
  const limit = String(low ? issue.minimum : issue.maximum);
  if (issue.origin === 'array') return `a list with at ${low ? 'least' : 'most'} ${limit} entries`;
  if (issue.origin === 'string') return `text of at ${low ? 'least' : 'most'} ${limit} characters`;
  const word = low ? (issue.inclusive ? 'at least' : 'more than') : issue.inclusive ? 'at most' : 'less than';
  return `a number ${word} ${limit}`;
}

/** Number of single-letter edits between two words (Wagner & Fischer 1974), for "did you mean". */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
    }
    row = next;
  }
  return row[b.length];
}

/** The known key that a mistyped one most likely stands for, if any is near. */
export function nearest(key: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  let least = Math.max(2, Math.floor(key.length / 3)) + 1;
  for (const candidate of known) {
    const distance = editDistance(key.slice(0, 60), candidate);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/**
 * Zod's findings as problems in words.
 *
 * @param issues    what the schema found
 * @param root      the parsed file
 * @param keysAt    known keys of the object at a place, for suggestions
 */
export function explain(
  issues: readonly Issue[],
  root: unknown,
  keysAt: (keys: Keys) => readonly string[],
): Problem[] {
  return issues.flatMap((issue): Problem[] => {
    const path = pointer(issue.path);
    const found = shown(root, issue.path);
    switch (issue.code) {
      case 'invalid_type':
        return [{ path, found, expected: TYPE_NAMES[issue.expected] ?? issue.expected }];
      case 'too_small':
      case 'too_big':
        return [{ path, found, expected: bound(issue) }];
      case 'invalid_value':
        return [{ path, found, expected: quoted(issue.values) }];
      case 'invalid_format':
        return [{ path, found, expected: issue.message }];
      case 'unrecognized_keys':
        return issue.keys.map((key) => {
          const near = nearest(key, keysAt(issue.path));
          return {
            path: pointer([...issue.path, key]),
            found: `unknown key ${JSON.stringify(key.length > 60 ? `${key.slice(0, 57)}…` : key)}`,
            expected:
              near === undefined
                ? 'only keys of the format'
                : `only keys of the format; did you mean "${near}"`,
          };
        });
      case 'invalid_union': {
        const options = (issue as { options?: readonly unknown[] }).options;
        return [{ path, found, expected: options ? quoted(options) : 'another form' }];
      }
      default:
        return [{ path, found, expected: issue.message }];
    }
  });
}

import { nearest } from '@sunlap/project/file/explain';
import { WrongInput } from './io';

/** One option of a command. Every one but a switch takes a text that the command reads itself. */
export interface Option {
  /** Shown as the value in the help, e.g. `82F`; absent for a switch. */
  value?: string;
  about: string;
}

export interface Arguments {
  /** Words that are not options. */
  words: string[];
  text(name: string): string | undefined;
  on(name: string): boolean;
}

/** What a command takes, by its usage: its words, and one line that says how it is called. */
export interface Words {
  least: number;
  most: number;
  usage: string;
}

/**
 * Reads the arguments of one command: `--name value` or `--name=value` in any order with its words; after a bare
 * `--` all are words. A value may begin with a minus (`--latitude -33.9`), and so may a word that is a number
 * (`"-5 C"`).
 *
 * @throws {WrongInput} for an unknown option, a missing value, or a wrong number of words
 */
export function readArguments(
  argv: readonly string[],
  options: Readonly<Record<string, Option>>,
  words: Words,
): Arguments {
  const fail = (what: string): never => {
    throw new WrongInput(`${what}\nexpected: ${words.usage}`);
  };
  const texts = new Map<string, string>();
  const switches = new Set<string>();
  const found: string[] = [];
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i];
    if (word === '--') {
      found.push(...argv.slice(i + 1));
      break;
    }
    if (!word.startsWith('-') || word === '-' || /^-[\d.]/.test(word)) {
      found.push(word);
      continue;
    }
    const [, name, given] = /^--?([^=]*)(?:=([\s\S]*))?$/.exec(word) ?? ['', word, undefined];
    const option = word.startsWith('--') && Object.hasOwn(options, name) ? options[name] : undefined;
    if (option === undefined) fail(`there is no option ${word.split('=')[0]}${didYouMean(name, options)}`);
    else if (option.value === undefined) {
      if (given !== undefined) fail(`--${name} takes no value`);
      switches.add(name);
    } else {
      const next = argv[i + 1];
      const value = given ?? (next === undefined || next.startsWith('--') ? undefined : next);
      if (value === undefined)
        fail(`--${name} is given without its value; expected --${name} ${option.value}`);
      else texts.set(name, value);
      if (given === undefined) i++;
    }
  }
  if (found.length < words.least) fail(missing(found.length, words));
  if (found.length > words.most) fail(tooMany(found, words));
  return { words: found, text: (name) => texts.get(name), on: (name) => switches.has(name) };
}

/** `; did you mean --water?`, or nothing where no name is near. */
function didYouMean(name: string, options: Readonly<Record<string, Option>>): string {
  const near = nearest(name, Object.keys(options));
  return near === undefined ? '' : `; did you mean --${near}?`;
}

/** Names of a command's words, as its usage has them before the options. */
function wordNames(usage: string): string[] {
  return usage
    .replace(/^sunlap \S+ */, '')
    .split(/ (?=-)|\[-/)[0]
    .split(' ')
    .filter((w) => w !== '' && !w.startsWith('-') && !w.startsWith('['));
}

function missing(count: number, words: Words): string {
  const names = wordNames(words.usage).slice(count, words.least);
  return `${names.join(' and ') || 'a word'} ${names.length > 1 ? 'are' : 'is'} missing`;
}

function tooMany(found: readonly string[], words: Words): string {
  const extra = found.slice(words.most).map((w) => `“${w}”`);
  return words.most === 0
    ? `${extra.join(', ')}: no such word is expected`
    : `${extra.join(', ')} ${extra.length > 1 ? 'are' : 'is'} too much; a text with blanks goes in quotes`;
}

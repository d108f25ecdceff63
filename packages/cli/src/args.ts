import { type ParseArgsConfig, parseArgs } from 'node:util';
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

/**
 * Reads the arguments of one command.
 *
 * @throws {WrongInput} for an unknown option, a missing value, or a wrong number of words
 */
export function readArguments(
  argv: readonly string[],
  options: Readonly<Record<string, Option>>,
  words: { least: number; most: number; usage: string },
): Arguments {
  const config: NonNullable<ParseArgsConfig['options']> = {};
  for (const [name, option] of Object.entries(options)) {
    config[name] = { type: option.value === undefined ? 'boolean' : 'string' };
  }
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({
      args: withNegatives(argv, options),
      options: config,
      allowPositionals: true,
      strict: true,
    });
  } catch (error) {
    const text = (error instanceof Error ? error.message : String(error)).split('\n')[0];
    throw new WrongInput(`${text}\nexpected: ${words.usage}`);
  }
  if (parsed.positionals.length < words.least || parsed.positionals.length > words.most) {
    throw new WrongInput(`${parsed.positionals.length} words given\nexpected: ${words.usage}`);
  }
  return {
    words: parsed.positionals,
    text: (name) => {
      const value = parsed.values[name];
      return typeof value === 'string' ? value : undefined;
    },
    on: (name) => parsed.values[name] === true,
  };
}

/** `--latitude -33.9` is a value after its option, not another option: written as one for the reader of arguments. */
function withNegatives(argv: readonly string[], options: Readonly<Record<string, Option>>): string[] {
  const out: string[] = [];
  for (const word of argv) {
    const before = out.at(-1);
    if (before?.startsWith('--') && options[before.slice(2)]?.value !== undefined && /^-[\d.]/.test(word))
      out[out.length - 1] = `${before}=${word}`;
    else out.push(word);
  }
  return out;
}

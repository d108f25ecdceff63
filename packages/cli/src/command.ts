import type { Arguments, Option } from './args';
import type { Io } from './io';

/** One command of the program. */
export interface Command {
  name: string;
  /** After the name, e.g. `FILE [--json]`. */
  usage: string;
  about: string;
  options: Readonly<Record<string, Option>>;
  /** How many words it takes. */
  words: readonly [least: number, most: number];
  /** @returns the exit code */
  run(args: Arguments, io: Io): Promise<number>;
}

/** Options that every command with a result takes. */
export const OUTPUT_OPTIONS: Readonly<Record<string, Option>> = {
  json: { about: 'the whole result as JSON, SI units' },
  out: { value: 'FILE', about: 'write it there instead of to the terminal' },
  units: { value: 'us|metric', about: 'units of the table; those of the file when absent' },
};

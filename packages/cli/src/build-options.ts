import type { BuildOptions } from '@sunlap/workbench/build/options';
import type { Arguments, Option } from './args';
import { integerSolver } from './integer-solver';
import { WrongInput } from './io';

/** Options of every command that builds. */
export const BUILD_OPTIONS: Readonly<Record<string, Option>> = {
  scope: {
    value: 'heater|all',
    about: 'what the heater adds to a pool that runs, or everything; heater when absent',
  },
  tool: { value: 'ratchet|handSaw|chopSaw', about: 'what cuts: 0, 1 or 3 mm each; hand saw when absent' },
  join: { value: 'coupling|bell|none', about: 'how pipe longer than the stock is joined' },
  'no-unions': { about: 'no unions where sections meet feed and return' },
};

function oneOf<T extends string>(args: Arguments, name: string, allowed: readonly T[]): T | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const found = allowed.find((a) => a === text);
  if (found === undefined) throw new WrongInput(`--${name} ${text}: expected ${allowed.join(', ')}`);
  return found;
}

/** @throws {WrongInput} */
export async function buildOptionsOf(args: Arguments): Promise<BuildOptions> {
  const scope = oneOf(args, 'scope', ['heater', 'all'] as const);
  const tool = oneOf(args, 'tool', ['ratchet', 'handSaw', 'chopSaw'] as const);
  const join = oneOf(args, 'join', ['coupling', 'bell', 'none'] as const);
  const solver = await integerSolver();
  return {
    ...(scope ? { scope } : {}),
    ...(tool ? { tool } : {}),
    ...(join ? { join } : {}),
    ...(args.on('no-unions') ? { unions: false } : {}),
    ...(solver ? { solver } : {}),
  };
}

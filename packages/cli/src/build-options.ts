import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BuildOptions } from '@sunlap/workbench/build/options';
import type { Arguments, Option } from './args';
import { integerSolver } from './integer-solver';
import { WrongInput } from './io';
import { quantityOf } from './show';

/** Options of every command that builds; each goes before what the file says of it. */
export const BUILD_OPTIONS: Readonly<Record<string, Option>> = {
  scope: { value: 'heater|all', about: 'what the heater adds to a pool that runs, or everything' },
  tool: { value: 'ratchet|handSaw|chopSaw', about: 'what cuts: 0, 1 or 3 mm each' },
  kerf: { value: '2mm', about: 'width of a cut, when not the tool’s' },
  join: { value: 'coupling|bell|none', about: 'how pipe longer than the stock is joined' },
  unions: { value: 'yes|no', about: 'unions where sections meet feed and return' },
  primer: { value: 'yes|no', about: 'primer under cement' },
  spares: { value: '5%', about: 'share of small parts bought on top' },
  air: { value: '70F', about: 'air on the days of gluing' },
  water: { value: '105F', about: 'warmest water that runs through it, for what pipe may bear' },
};

function oneOf<T extends string>(args: Arguments, name: string, allowed: readonly T[]): T | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const found = allowed.find((a) => a === text);
  if (found === undefined) throw new WrongInput(`--${name} ${text}: expected ${allowed.join(', ')}`);
  return found;
}

function yesNo(args: Arguments, name: string): boolean | undefined {
  const word = oneOf(args, name, ['yes', 'no'] as const);
  return word === undefined ? undefined : word === 'yes';
}

function shareOf(args: Arguments, name: string): number | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const share = Number(/^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(text)?.[1] ?? Number.NaN) / 100;
  if (!(share >= 0 && share <= 1)) throw new WrongInput(`--${name} ${text}: expected 0% to 100%`);
  return share;
}

function kerfOf(args: Arguments, system: UnitSystem): number | undefined {
  const kerf_m = quantityOf(args, 'kerf', 'diameter', system);
  if (kerf_m !== undefined && !(kerf_m >= 0 && kerf_m <= 0.02))
    throw new WrongInput(`--kerf ${args.text('kerf')}: expected 0 to 20 mm`);
  return kerf_m;
}

/**
 * What the command line says of building; absent what it leaves to the file.
 *
 * @throws {WrongInput}
 */
export async function buildOptionsOf(args: Arguments, system: UnitSystem): Promise<BuildOptions> {
  return {
    scope: oneOf(args, 'scope', ['heater', 'all'] as const),
    tool: oneOf(args, 'tool', ['ratchet', 'handSaw', 'chopSaw'] as const),
    kerf_m: kerfOf(args, system),
    join: oneOf(args, 'join', ['coupling', 'bell', 'none'] as const),
    unions: yesNo(args, 'unions'),
    primer: yesNo(args, 'primer'),
    spares: shareOf(args, 'spares'),
    glueAir_C: quantityOf(args, 'air', 'temperature', system),
    water_C: quantityOf(args, 'water', 'temperature', system),
    solver: await integerSolver(),
  };
}

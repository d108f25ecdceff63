import { pipes } from '@sunlap/data/pipes';
import { pumps } from '@sunlap/data/pumps';
import { nearest } from '@sunlap/project/file/explain';
import { problemText } from '@sunlap/project/file/problem';
import { readProject } from '@sunlap/project/file/read';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { fileFaults } from '@sunlap/workbench/check/file-faults';
import type { Arguments } from './args';
import { WrongInput } from './io';
import { quantityOf, shower } from './show';

/** What a length of the first answers may be [m]: a garden's, not a lake's. Judgement but for the elevation. */
export const LENGTHS_m: Readonly<Record<string, readonly [least: number, most: number]>> = {
  elevation: [-450, 6000],
  'pool-length': [0.5, 100],
  'pool-width': [0.5, 100],
  'pool-depth': [0.2, 10],
  length: [0.3, 60],
  lift: [-5, 30],
};

/** A length of the first answers within what it may be; undefined when it is not given. @throws {WrongInput} */
export function lengthWithin(args: Arguments, name: string, system: UnitSystem): number | undefined {
  const kind: QuantityKind = 'length';
  const value = quantityOf(args, name, kind, system);
  const [least, most] = LENGTHS_m[name];
  if (value !== undefined && !(value >= least && value <= most)) {
    const show = shower(system);
    throw new WrongInput(
      `--${name} ${args.text(name)}: expected from ${show(least, kind)} to ${show(most, kind)}`,
    );
  }
  return value;
}

/** A row of a shelf; undefined when it is not given. @throws {WrongInput} for one that is not there */
export function rowOf(args: Arguments, name: string, shelf: 'pipe' | 'pump'): string | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const ids = (shelf === 'pipe' ? pipes : pumps).map((row) => row.id);
  if (ids.includes(text)) return text;
  const near = nearest(text, ids);
  const known = shelf === 'pump' ? ids.join(', ') : `a row such as ${ids.slice(0, 6).join(', ')}`;
  throw new WrongInput(
    `--${name} ${text}: no ${shelf} is known so; ${near ? `did you mean ${near}? ` : ''}expected ${shelf === 'pump' ? 'one of ' : ''}${known}`,
  );
}

/**
 * Degrees north or east as people write them.
 *
 * @param signs letters for plus and minus, `NS` or `EW`
 * @throws {WrongInput}
 * @example degreesOf(args, 'latitude', 90, 'NS') // 35.1 of `35.1`, `35.1N`, `35.1° N`
 */
export function degreesOf(args: Arguments, name: string, most: number, signs: string): number | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const m = new RegExp(`^\\s*([-−+]?)(\\d+(?:\\.\\d*)?|\\.\\d+)\\s*°?\\s*([${signs}]?)\\s*$`, 'i').exec(text);
  const minus = m && (m[1] === '-' || m[1] === '−');
  const turned = m && m[3].toUpperCase() === signs[1];
  const value = m && !(minus && m[3] !== '') ? Number(m[2]) * (minus || turned ? -1 : 1) : Number.NaN;
  if (!(Math.abs(value) <= most))
    throw new WrongInput(
      `--${name} ${text}: expected degrees from -${most} to ${most}, or as 35.1${signs[0]} and 35.1${signs[1]}`,
    );
  return value === 0 ? 0 : value;
}

/** Refuses a file that the other commands would refuse. @throws {WrongInput} with every reason */
export function refuseUnreadable(text: string): void {
  const read = readProject(text);
  const reasons = read.ok
    ? fileFaults(read.project).map((fault) => `${fault.path}: ${fault.message}`)
    : read.problems.map(problemText);
  if (reasons.length > 0)
    throw new WrongInput(
      `these answers together make no file that can be read:\n${reasons.join('\n')}\nnothing was written`,
    );
}

import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { usualUnit } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';
import { sayBeside } from '@sunlap/workbench/flow/say';
import type { Arguments } from './args';
import { WrongInput } from './io';

/**
 * Writes values in the person's units; beside another with a digit more where both would read alike.
 */
export type Show = (value: number | null | undefined, kind: QuantityKind, beside?: number | null) => string;

export function shower(system: UnitSystem): Show {
  return (value, kind, beside) => {
    if (value === null || value === undefined || !Number.isFinite(value)) return '—';
    return beside === null || beside === undefined
      ? formatQuantity(value, kind, system).text
      : sayBeside(value, beside, kind, system);
  };
}

/** Units of the table: what was asked for, else the file's own. */
export function systemOf(args: Arguments, ofFile: UnitSystem): UnitSystem {
  const asked = args.text('units');
  if (asked === undefined) return ofFile;
  if (asked === 'us' || asked === 'metric') return asked;
  throw new WrongInput(`--units ${asked}: expected us or metric`);
}

/** Reads a quantity of an option as people write it; undefined when the option is absent. */
export function quantityOf(
  args: Arguments,
  name: string,
  kind: QuantityKind,
  system: UnitSystem,
): number | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const read = parseQuantity(text, kind, usualUnit(kind, system));
  if (!read.ok) throw new WrongInput(`--${name} ${text}: ${read.message}`);
  return read.value;
}

/** Where the sun stands. @example sunHeight(-46.9) // '46.9° below the horizon' */
export function sunHeight(elevation_deg: number): string {
  const degrees = Math.abs(elevation_deg).toFixed(1);
  return `${degrees}° ${elevation_deg < 0 && degrees !== '0.0' ? 'below the horizon' : 'up'}`;
}

/** Least and most with a share, e.g. `83–112 %`. */
export function shareRange(least: number, most: number): string {
  return `${(100 * least).toFixed(0)}–${(100 * most).toFixed(0)} %`;
}

import { formatQuantity } from '@sunlap/project/units/format';
import type { UnitSystem } from '@sunlap/project/units/kinds';

/** Shorter than this a piece is measured with a caliper, longer with a tape [m]. */
const CALIPER_M = 0.15;
/** From here on it is a coil, and centimetres do [m]. */
const COIL_M = 12;

/**
 * A length as a person cuts it: tenths of a millimetre or thousandths of an inch by the caliper, whole millimetres or
 * sixteenths by the tape.
 *
 * @example cutLength(2.5226, 'us') // '8 ft 3-5/16 in'
 * @example cutLength(1.3284, 'metric') // '1328 mm'
 */
export function cutLength(length_m: number, system: UnitSystem): string {
  if (length_m < CALIPER_M) return formatQuantity(length_m, 'diameter', system).text;
  if (length_m >= COIL_M) return formatQuantity(length_m, 'length', system).text;
  if (system === 'metric' || length_m < 1) return formatQuantity(length_m, 'smallLength', system).text;
  return formatQuantity(length_m, 'length', system, { fraction: 16 }).text;
}

/** What tubes of whole sticks would spare; nothing where they are whole. */
export function wholeStickWords(values: { wholeStick_m: number | null }, system: UnitSystem): string {
  if (values.wholeStick_m === null) return '';
  return ` Tubes of ${cutLength(values.wholeStick_m, system)} would be whole sticks.`;
}

/**
 * A number for a text whose reader rounds it himself, in his own unit: to a millionth, never in powers of ten. Rounding
 * here too would round twice.
 *
 * @example exact(2 / 3) // '0.666667'
 */
export function exact(value: number): string {
  return String(Number(value.toFixed(6)));
}

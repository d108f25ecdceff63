/**
 * A physics function was asked for something outside its range: a programmer's mistake or a value that
 * should have been caught at the door. The person's own data never reaches a person as this error; it
 * becomes a notice.
 */
export class DomainError extends RangeError {
  readonly quantity: string;
  readonly value: unknown;
  readonly allowed: string;

  /**
   * @param quantity name of the quantity, as a person would say it
   * @param value    what was given
   * @param allowed  allowed range, as text, e.g. `(0, ∞)`
   */
  constructor(quantity: string, value: unknown, allowed: string) {
    super(`${quantity} = ${String(value)}, allowed ${allowed}`);
    this.name = 'DomainError';
    this.quantity = quantity;
    this.value = value;
    this.allowed = allowed;
  }
}

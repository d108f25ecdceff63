import { signal } from '@preact/signals';
import type { Field } from '../parts/field';

/** Fields of the sheet that is shown, for the palette. */
export const sheetFields = signal<readonly Field[]>([]);

let waiting: readonly Field[] = [];
export function registerFields(fields: readonly Field[]): void {
  waiting = fields;
  queueMicrotask(() => {
    if (sheetFields.peek() !== waiting) sheetFields.value = waiting;
  });
}

import { expect, test } from 'vitest';
import { readNominal } from '../../src/units/nominal';

test.each([
  ['3/4', '3/4'],
  ['3/4 in', '3/4'],
  ['1-1/2"', '1-1/2'],
  ['1 1/2 inch', '1-1/2'],
  ['1½″', '1-1/2'],
  ['1.5', '1-1/2'],
  ['50', '50'],
  ['DN 50', '50'],
  ['50 mm', '50'],
])('%s is size %s', (text, size) => {
  expect(readNominal(text)).toBe(size);
});

test.each(['', 'big', '1/3', '3 ft', '-1', '1e9'])('%s is no size', (text) => {
  expect(readNominal(text)).toBeUndefined();
});

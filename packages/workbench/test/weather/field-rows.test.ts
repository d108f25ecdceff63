import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FieldRows, fieldRows } from '../../src/weather/field-rows';
import { splitTable, strictNumber } from '../../src/weather/table';

function rowsOf(text: string): FieldRows {
  const rows = fieldRows(text);
  if ('message' in rows) throw new Error(rows.message);
  return rows;
}

describe('rows read where they stand', () => {
  // Invariant: the platform's own reading of a decimal, to the last bit.
  it('numbers are what the platform makes of them, and nothing else is one', () => {
    const decimal = fc
      .tuple(
        fc.constantFrom('', '-', '+'),
        fc.stringMatching(/^\d{0,9}$/),
        fc.constantFrom('', '.'),
        fc.stringMatching(/^\d{0,9}$/),
        fc.constantFrom('', '', 'e3', 'E-7'),
      )
      .map((parts) => parts.join(''));
    const odd = fc.constantFrom(
      '0x10',
      '1_000',
      'Infinity',
      'NaN',
      '',
      ' ',
      '1 2',
      '١',
      '.',
      '-',
      '1.2.3',
      '--1',
    );
    fc.assert(
      fc.property(fc.oneof(decimal, odd), fc.constantFrom('', ' ', '\t'), (text, blank) => {
        const row = rowsOf(`7,${blank}${text}${blank},8`).row(0);
        expect(row.number(1)).toBe(strictNumber(text.trim()));
        expect(row.text(1)).toBe(text.trim());
        expect([row.length, row.number(0), row.number(2), row.text(3)]).toEqual([3, 7, 8, '']);
        expect(row.number(3)).toBeNaN();
      }),
      { seed: 2, numRuns: 600 },
    );
  });

  // Invariant: the general reader of quoted tables, field by field.
  it('splits as the general reader does', () => {
    const line = fc.array(fc.constantFrom('1', ' 2.5 ', '', 'ü', '\u00a0', 'x y'), {
      minLength: 1,
      maxLength: 80,
    });
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 6 }),
        fc.constantFrom('\n', '\r\n'),
        (lines, end) => {
          const text = lines.map((fields) => fields.join(',')).join(end);
          const [mine, table] = [rowsOf(text), splitTable(text)];
          if ('message' in table) throw new Error(table.message);
          expect(mine.count).toBe(table.rows.length);
          table.rows.forEach((fields, i) => {
            const row = mine.row(i);
            expect(row.length).toBe(fields.length);
            expect(fields.map((_, k) => row.text(k))).toEqual(fields.map((f) => f.trim()));
            expect(row.isBlank()).toBe(fields.every((f) => f.trim() === ''));
            expect(mine.lineOf(i)).toBe(table.lineOf(i));
          });
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { toHouse } from '../../src/units/convert';
import { formatQuantity } from '../../src/units/format';
import type { QuantityKind } from '../../src/units/kinds';
import { fieldUnit, KINDS, unitsOf, usualUnit } from '../../src/units/kinds';
import { readNominal } from '../../src/units/nominal';
import { parseQuantity } from '../../src/units/parse';

const kinds = Object.keys(KINDS) as QuantityKind[];
const kind = fc.constantFrom(...kinds);
const pieces = fc.constantFrom(
  ...'0 1 7 12 3/4 1/0 ½ ¾ . , - + e 1e9 1e400 \' " ′ ″ ft in m m2 per / % ° C F K gpm psi Hg : 1,234.5 €'.split(
    ' ',
  ),
  ' ',
  '\u00A0',
  '\u{1F3CA}',
  '\uD800',
);
const typed = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 90 }),
  fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join('')),
  fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join(' ')),
);

test('any text is read as a finite value or refused with a place inside the text; never a throw', () => {
  fc.assert(
    fc.property(typed, kind, (text, of) => {
      const read = parseQuantity(text, of);
      if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
      else {
        expect(read.index).toBeGreaterThanOrEqual(0);
        expect(read.index).toBeLessThanOrEqual(text.length);
        expect(read.message.length).toBeGreaterThan(20);
      }
      readNominal(text);
    }),
    { numRuns: 4000, seed: 11 },
  );
});

test('what was read, written canonically, reads as the same quantity', () => {
  fc.assert(
    fc.property(typed, kind, (text, of) => {
      const read = parseQuantity(text, of);
      if (!read.ok) return;
      const again = parseQuantity(read.canonicalText, of);
      expect(again).toMatchObject({ ok: true });
      // nine digits are written; an offset temperature near its zero loses some of them
      if (again.ok)
        expect(Math.abs(again.value - read.value)).toBeLessThanOrEqual(1e-8 * (300 + Math.abs(read.value)));
    }),
    { numRuns: 4000, seed: 12 },
  );
});

const sized = fc
  .tuple(fc.double({ min: -6, max: 8, noNaN: true }), fc.boolean())
  .map(([power, negative]) => (negative ? -1 : 1) * 10 ** power);

test('what is shown reads back as exactly what is shown, close to what was meant', () => {
  fc.assert(
    fc.property(sized, kind, fc.constantFrom('us' as const, 'metric' as const), (meant, of, system) => {
      fc.pre(!(of === 'temperature' && meant < -273) && !(of === 'count' && meant < 0));
      const shown = formatQuantity(meant, of, system);
      const read = parseQuantity(shown.text, of, of === 'money' ? '' : usualUnit(of, 'metric'));
      expect(read, shown.text).toMatchObject({ ok: true });
      if (!read.ok) return;
      const unit = shown.unit === '' ? 'ft' : shown.unit;
      const step =
        of === 'money' || of === 'count' ? 1 : Math.abs(toHouse(1, of, unit) - toHouse(0, of, unit));
      const stood = of === 'money' || of === 'count' ? shown.value : toHouse(shown.value, of, unit);
      expect(Math.abs(read.value - stood)).toBeLessThanOrEqual(1e-9 * (Math.abs(stood) + step));
      // three significant digits, or half a unit of the coarsest rule
      expect(Math.abs(read.value - meant)).toBeLessThanOrEqual(0.051 * Math.abs(meant) + 0.51 * step);
    }),
    { numRuns: 4000, seed: 13 },
  );
});

test('the number of a shown value, typed bare over it, means the same value', () => {
  fc.assert(
    fc.property(sized, kind, fc.constantFrom('us' as const, 'metric' as const), (meant, of, system) => {
      fc.pre(KINDS[of].dimension !== undefined && !(of === 'temperature' && meant < -273));
      const shown = formatQuantity(meant, of, system);
      const read = parseQuantity(shown.number, of, fieldUnit(of, system, meant));
      const whole = parseQuantity(shown.text, of);
      expect(read.ok && whole.ok && Math.abs(read.value - whole.value), shown.text).toBeLessThanOrEqual(
        1e-9 * Math.abs(whole.ok ? whole.value : 0),
      );
    }),
    { numRuns: 3000, seed: 14 },
  );
});

test('every written form of every unit is read as that unit', () => {
  for (const of of kinds)
    for (const unit of unitsOf(of))
      for (const name of unit.names) {
        const read = parseQuantity(`2 ${name}`, of);
        expect(read, `2 ${name} as ${of}`).toMatchObject({ ok: true, unit: unit.id });
      }
});

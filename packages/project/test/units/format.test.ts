import { describe, expect, test } from 'vitest';
import type { FormatOptions } from '../../src/units/format';
import { formatQuantity } from '../../src/units/format';
import type { QuantityKind, UnitSystem } from '../../src/units/kinds';
import { fieldUnit } from '../../src/units/kinds';

const IN = 0.0254;

describe('formatQuantity', () => {
  const rows: ReadonlyArray<readonly [number, QuantityKind, UnitSystem, string, FormatOptions?]> = [
    [12.954, 'length', 'us', '42 ft 6 in'],
    [12.954, 'length', 'metric', '12.95 m'],
    [6.5 * IN, 'length', 'us', '6-1/2 in'],
    [-5.5 * 0.3048, 'length', 'us', '-5 ft 6 in'],
    [11.99 * IN, 'length', 'us', '1 ft'],
    [1830.14, 'length', 'us', '6004 ft'],
    [1e5, 'length', 'metric', '100\u00A0000.0 m'],
    [2.714 * IN, 'smallLength', 'us', '2-11/16 in'],
    [2.714 * IN, 'smallLength', 'us', '2-3/4 in', { rounding: 'up' }],
    [2.7 * IN, 'smallLength', 'us', '2-11/16 in', { rounding: 'down' }],
    [2.75 * IN, 'smallLength', 'us', '2-3/4 in', { rounding: 'up' }],
    [0.0681, 'smallLength', 'metric', '69 mm', { rounding: 'up' }],
    [0.84 * IN, 'diameter', 'us', '0.84 in'],
    [0.02134, 'diameter', 'metric', '21.3 mm'],
    [100 * IN, 'diameter', 'us', '100 in'],
    [20 * IN, 'diameter', 'us', '20 in'],
    [0.11, 'diameter', 'metric', '110 mm'],
    [1, 'diameter', 'metric', '1000 mm'],
    [0.00113562, 'flow', 'us', '18.0 gpm'],
    [0.00113562, 'flow', 'metric', '68.1 L/min'],
    [250 / 9, 'temperature', 'us', '82.0 °F'],
    [-0.01, 'temperature', 'metric', '0.0 °C'],
    [10, 'head', 'us', '32.8 ft'],
    [68948, 'pressure', 'us', '10.0 psi'],
    [68948, 'pressure', 'metric', '68.9 kPa'],
    [68948, 'pressure', 'metric', '0.6895 bar', { unit: 'bar' }],
    [850, 'power', 'us', '850 W'],
    [1190, 'power', 'metric', '1190 W'],
    [1190, 'heatRate', 'metric', '1.19 kW'],
    [1 / 96, 'slope', 'us', '1/8 in per ft'],
    [0.0104, 'slope', 'metric', '1.04 %'],
    [0.345, 'ratio', 'metric', '34.5 %'],
    [18.5, 'angle', 'us', '18.5°'],
    [75.24, 'time', 'us', '75.2 s'],
    [56.8, 'volume', 'us', '15,005 gal'],
    [0.02, 'volume', 'metric', '20.0 L'],
    [12.5, 'money', 'us', '12.50 USD', { currency: 'USD' }],
    [12, 'count', 'us', '12'],
  ];
  for (const [value, kind, system, text, options] of rows)
    test(`${value} as ${kind} in ${system} → ${text}`, () => {
      expect(formatQuantity(value, kind, system, options).text).toBe(text);
    });

  test('heat in US units carries the kilowatts beside it', () => {
    expect(formatQuantity(11957, 'heatRate', 'us')).toMatchObject({
      text: '40,799 Btu/h',
      beside: '12.0 kW',
    });
    expect(formatQuantity(11957, 'heatRate', 'metric').beside).toBeUndefined();
  });

  test('number, unit and value stand apart for faces that set them apart', () => {
    expect(formatQuantity(0.00113562, 'flow', 'us')).toEqual({
      text: '18.0 gpm',
      number: '18.0',
      unit: 'gpm',
      value: 18,
    });
  });

  test('a bare number typed over a shown value is in the unit that stands there', () => {
    expect(fieldUnit('volume', 'metric', 0.02)).toBe('L');
    expect(fieldUnit('volume', 'metric', 57)).toBe('m³');
    expect(fieldUnit('length', 'us', 6.5 * IN)).toBe('in');
    expect(fieldUnit('length', 'us', 12)).toBe('ft');
    expect(fieldUnit('heatRate', 'metric', 850)).toBe('W');
    expect(fieldUnit('flow', 'us')).toBe('gpm');
  });

  test('what is not a number is never shown as one', () => {
    expect(() => formatQuantity(Number.NaN, 'flow', 'us')).toThrow('finite');
  });
});

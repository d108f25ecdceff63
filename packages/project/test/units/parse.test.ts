import { describe, expect, test } from 'vitest';
import type { QuantityKind } from '../../src/units/kinds';
import { parseQuantity } from '../../src/units/parse';

const IN = 0.0254;
const FT = 0.3048;
const GPM = 3.785411784e-3 / 60;

/** Values by definition of the units (verified: NIST SP 811 appendix B); tolerance is floating point. */
const READS: ReadonlyArray<readonly [string, QuantityKind, string, number]> = [
  ['3/4 in', 'smallLength', 'mm', 0.75 * IN],
  ['1-1/2"', 'smallLength', 'mm', 1.5 * IN],
  ['1 1/2 in', 'smallLength', 'mm', 1.5 * IN],
  ['1½″', 'diameter', 'mm', 1.5 * IN],
  ['½ in.', 'diameter', 'mm', 0.5 * IN],
  ['42 ft 6 in', 'length', 'm', 42.5 * FT],
  ['42\' 6"', 'length', 'm', 42.5 * FT],
  ['42\'-6 1/2"', 'length', 'm', (42 + 6.5 / 12) * FT],
  ['42′ 6″', 'length', 'm', 42.5 * FT],
  ['42’6”', 'length', 'm', 42.5 * FT],
  ["5' 6", 'length', 'm', 5.5 * FT],
  ['5 feet and 6 inches', 'length', 'm', 5.5 * FT],
  ['-5 ft 6 in', 'length', 'm', -5.5 * FT],
  ['1 m 20 cm', 'length', 'ft', 1.2],
  ['7', 'length', 'ft', 7 * FT],
  ['1,5', 'length', 'm', 1.5],
  ['0,500 m', 'length', 'm', 0.5],
  ['1.2e3 mm', 'smallLength', 'mm', 1.2],
  ['1,250', 'length', 'ft', 1250 * FT],
  ['1,250 ft', 'length', 'm', 1250 * FT],
  ['12,34 m', 'length', 'm', 12.34],
  ['1,250,000 m', 'length', 'm', 1_250_000],
  ['320 sq. ft.', 'area', 'm²', 320 * FT * FT],
  ['30 m^2', 'area', 'ft²', 30],
  ['15,000 gal', 'volume', 'm³', 15000 * 3.785411784e-3],
  ['57 m³', 'volume', 'gal', 57],
  ['18 gpm', 'flow', 'L/min', 18 * GPM],
  ['18 gallons per minute', 'flow', 'L/min', 18 * GPM],
  ['95 L/min', 'flow', 'gpm', 0.095 / 60],
  ['95 l / min', 'flow', 'gpm', 0.095 / 60],
  ['5.7 m3/h', 'flow', 'gpm', 5.7 / 3600],
  ['82F', 'temperature', '°C', 250 / 9],
  ['82 °F', 'temperature', '°C', 250 / 9],
  ['82°', 'temperature', '°F', 250 / 9],
  ['27.5 C', 'temperature', '°F', 27.5],
  ['27,5 ℃', 'temperature', '°F', 27.5],
  ['−5', 'temperature', '°C', -5],
  ['300 K', 'temperature', '°C', 26.85],
  ['4 °F', 'temperatureDifference', 'K', 20 / 9],
  ['10 psi', 'pressure', 'kPa', 68947.57293168],
  ['23 inHg', 'pressure', 'kPa', 23 * 3386.388640341],
  ['23 in. Hg', 'pressure', 'kPa', 23 * 3386.388640341],
  ['1.2 bar', 'pressure', 'kPa', 1.2e5],
  ['7 kPa', 'pressure', 'psi', 7000],
  ['10 psi', 'head', 'm', 68947.57293168 / 9806.65],
  ['35 ft of head', 'head', 'm', 35 * FT],
  ['5 mph', 'windSpeed', 'm/s', 5 * 0.44704],
  ['12,500 Btu/h', 'heatRate', 'kW', 12500 * 0.29307107017222],
  ['12 500 BTU per hour', 'heatRate', 'kW', 12500 * 0.29307107017222],
  ['1 hp', 'power', 'W', 745.699871582],
  ['12 kWh', 'energy', 'kWh', 4.32e7],
  ['800 W/m²', 'irradiance', 'W/m²', 800],
  ['250 Btu/h·ft²', 'irradiance', 'W/m²', 250 * 3.154590745063],
  ['20 MJ/m2', 'irradiation', 'kWh/m²', 2e7],
  ['18.5°', 'angle', '°', 18.5],
  ['33° 52′ 10″ S', 'angle', '°', -(33 + 52 / 60 + 10 / 3600)],
  ['SSE', 'bearing', '°', 157.5],
  ['due north-west', 'bearing', '°', 315],
  ['170', 'bearing', '°', 170],
  ['1/8 in per ft', 'slope', '%', 1 / 96],
  ['1/4" per foot', 'slope', '%', 1 / 48],
  ['1 in per 10 ft', 'slope', '%', 1 / 120],
  ['2 %', 'slope', 'in/ft', 0.02],
  ['1/8', 'slope', 'in/ft', 1 / 96],
  ['1:40', 'slope', '%', 1 / 40],
  ['1 in 40', 'slope', '%', 1 / 40],
  ['1 in 40 ft', 'slope', '%', 1 / 480],
  ['10 mm/m', 'slope', '%', 0.01],
  ['45 degrees', 'slope', '%', 1],
  ['1 h 30 min', 'time', 's', 5400],
  ['1h30', 'time', 's', 5400],
  ['15,2 s', 'time', 's', 15.2],
  ['35 %', 'ratio', '%', 0.35],
  ['35', 'ratio', '%', 0.35],
  ['0.35', 'ratio', '1', 0.35],
  ['$12.50', 'money', 'USD', 12.5],
  ['1.234,50 €', 'money', 'EUR', 1234.5],
  ['16 ¢', 'money', 'USD', 0.16],
  ['65 lb 8 oz', 'mass', 'kg', 65.5 * 0.45359237],
  ['12', 'count', '', 12],
  ['1,200', 'count', '', 1200],
];

describe('what people write', () => {
  test.each(READS)('%s as %s (bare: %s)', (text, kind, preferred, expected) => {
    const read = parseQuantity(text, kind, kind === 'count' ? undefined : preferred);
    expect(read).toMatchObject({ ok: true });
    // 1e-11 relative: a handful of roundings in double precision, and factors quoted to 13 digits above
    if (read.ok)
      expect(Math.abs(read.value - expected)).toBeLessThanOrEqual(1e-11 * Math.abs(expected) + 1e-15);
  });

  test.each([
    ['42\' 6"', 'length', '42 ft 6 in'],
    ['1.5 "', 'smallLength', '1-1/2 in'],
    ['12,500 btu/h', 'heatRate', '12500 Btu/h'],
    ['82 f', 'temperature', '82 °F'],
    ['-3 c', 'temperature', '-3 °C'],
  ] as const)('%s as %s is written %s', (text, kind, canonical) => {
    expect(parseQuantity(text, kind)).toMatchObject({ ok: true, canonicalText: canonical });
  });
});

describe('what cannot be read says what, where, and what was expected', () => {
  test.each([
    ['', 'flow', 0, 'Nothing was typed'],
    ['fast', 'flow', 0, 'number was expected'],
    ['18 gp', 'flow', 3, '“gp” is not a unit of flow'],
    ['18 psi', 'flow', 3, 'not a unit of flow'],
    ['10-12 gpm', 'flow', 2, 'could not be read'],
    ['5 m2', 'length', 4, 'needs its unit'],
    ['5ft2', 'length', 4, 'needs its unit'],
    ['5 ft 14 in', 'length', 5, 'whole ft or more'],
    ['5.5 ft 6 in', 'length', 7, 'Only the last part'],
    ['1 3/0 in', 'length', 0, '0 below the line'],
    ['1 5/4 in', 'length', 0, 'not a part of one'],
    ['1,23,4 m', 'length', 0, 'points and commas'],
    ['1,250 m', 'length', 0, 'is 1250 or 1.25'],
    ['1,250', 'length', 0, 'write it without the comma'],
    ['1e999 m', 'length', 0, 'too large'],
    ['-300 C', 'temperature', 0, '−273.15'],
    ['2.5', 'count', 0, 'whole number'],
    ['$5', 'money', 0, 'counts in EUR'],
    ['7 bananas', 'mass', 2, '“bananas” is not a unit of mass'],
  ] as const)('%s as %s', (text, kind, index, words) => {
    const read = parseQuantity(text, kind, kind === 'money' ? 'EUR' : undefined);
    expect(read).toMatchObject({ ok: false, index });
    if (!read.ok) {
      expect(read.message).toContain(words);
      expect(read.message).toContain(read.example);
    }
  });

  test('the index points into the text as typed, not as tidied', () => {
    expect(parseQuantity('  ½   bananas', 'mass')).toMatchObject({ ok: false, index: 6 });
  });

  test('a field whose unit its kind lacks is a programming mistake', () => {
    expect(() => parseQuantity('5', 'flow', 'psi')).toThrow('unit of flow');
  });
});

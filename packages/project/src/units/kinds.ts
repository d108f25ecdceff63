import type { Dimension, Unit } from './unitTable';
import { UNITS } from './unitTable';

/** What a field holds. Several kinds share a dimension and differ in how they are shown. */
export type QuantityKind =
  | 'length'
  | 'smallLength'
  | 'diameter'
  | 'area'
  | 'volume'
  | 'flow'
  | 'temperature'
  | 'temperatureDifference'
  | 'pressure'
  | 'head'
  | 'speed'
  | 'windSpeed'
  | 'power'
  | 'heatRate'
  | 'energy'
  | 'irradiance'
  | 'irradiation'
  | 'angle'
  | 'bearing'
  | 'slope'
  | 'time'
  | 'ratio'
  | 'money'
  | 'mass'
  | 'count';

export type UnitSystem = 'us' | 'metric';

/** How many digits: significant ones, decimals, a fraction of the unit, or feet with inches in fractions. */
export type Digits =
  | { significant: number }
  | { decimals: number }
  | { fraction: number }
  | { feetInches: number };

/** A unit and its digits, used for magnitudes under `below` (house unit); the last rule has no bound. */
export interface DisplayRule {
  unit: string;
  digits: Digits;
  below?: number;
}

export interface KindSpec {
  /** As said to a person: "not a unit of …". */
  words: string;
  /** Undefined for money and count, which have no table of units. */
  dimension?: Dimension;
  /** Suffix of project and result fields. */
  suffix: string;
  us: readonly DisplayRule[];
  metric: readonly DisplayRule[];
  examples: { us: string; metric: string };
}

const one = (unit: string, digits: Digits): readonly DisplayRule[] => [{ unit, digits }];
const sig = (significant: number): Digits => ({ significant });
const dec = (decimals: number): Digits => ({ decimals });
const both = (rules: readonly DisplayRule[]) => ({ us: rules, metric: rules });
const LENGTH_METRIC: readonly DisplayRule[] = [
  { unit: 'm', digits: dec(2), below: 100 },
  { unit: 'm', digits: dec(1) },
];
const HEAT_METRIC: readonly DisplayRule[] = [
  { unit: 'W', digits: sig(3), below: 999.5 },
  { unit: 'kW', digits: sig(3) },
];

export const KINDS: Readonly<Record<QuantityKind, KindSpec>> = {
  length: {
    words: 'length',
    dimension: 'length',
    suffix: 'm',
    us: [
      { unit: 'ft', digits: { feetInches: 8 }, below: 30.48 },
      { unit: 'ft', digits: { feetInches: 1 }, below: 304.8 },
      { unit: 'ft', digits: dec(0) },
    ],
    metric: LENGTH_METRIC,
    examples: { us: '42 ft 6 in', metric: '12.95 m' },
  },
  smallLength: {
    words: 'length',
    dimension: 'length',
    suffix: 'm',
    us: one('in', { fraction: 16 }),
    metric: one('mm', dec(0)),
    examples: { us: '2-3/4 in', metric: '70 mm' },
  },
  diameter: {
    words: 'length',
    dimension: 'length',
    suffix: 'm',
    us: one('in', dec(3)),
    metric: one('mm', dec(1)),
    examples: { us: '0.84 in', metric: '21.3 mm' },
  },
  area: {
    words: 'area',
    dimension: 'area',
    suffix: 'm2',
    us: one('ft²', sig(3)),
    metric: one('m²', sig(3)),
    examples: { us: '320 sq ft', metric: '30 m²' },
  },
  volume: {
    words: 'volume',
    dimension: 'volume',
    suffix: 'm3',
    us: one('gal', sig(3)),
    metric: [
      { unit: 'L', digits: sig(3), below: 0.9995 },
      { unit: 'm³', digits: sig(3) },
    ],
    examples: { us: '15,000 gal', metric: '57 m³' },
  },
  flow: {
    words: 'flow',
    dimension: 'flow',
    suffix: 'm3s',
    us: one('gpm', sig(3)),
    metric: one('L/min', sig(3)),
    examples: { us: '18 gpm', metric: '68 L/min' },
  },
  temperature: {
    words: 'temperature',
    dimension: 'temperature',
    suffix: 'C',
    us: one('°F', dec(1)),
    metric: one('°C', dec(1)),
    examples: { us: '82 °F', metric: '28 °C' },
  },
  temperatureDifference: {
    words: 'temperature difference',
    dimension: 'temperatureDifference',
    suffix: 'K',
    us: one('°F', dec(1)),
    metric: one('K', dec(1)),
    examples: { us: '4 °F', metric: '2.2 K' },
  },
  pressure: {
    words: 'pressure',
    dimension: 'pressure',
    suffix: 'Pa',
    us: one('psi', sig(3)),
    metric: one('kPa', sig(3)),
    examples: { us: '10 psi', metric: '70 kPa' },
  },
  head: {
    words: 'head',
    dimension: 'head',
    suffix: 'm',
    us: one('ft', sig(3)),
    metric: one('m', sig(3)),
    examples: { us: '35 ft', metric: '10.5 m' },
  },
  speed: {
    words: 'speed',
    dimension: 'speed',
    suffix: 'ms',
    us: one('ft/s', sig(3)),
    metric: one('m/s', sig(3)),
    examples: { us: '6 ft/s', metric: '1.8 m/s' },
  },
  windSpeed: {
    words: 'speed',
    dimension: 'speed',
    suffix: 'ms',
    us: one('mph', sig(2)),
    metric: one('m/s', sig(2)),
    examples: { us: '5 mph', metric: '2.2 m/s' },
  },
  power: {
    words: 'power',
    dimension: 'power',
    suffix: 'W',
    ...both(one('W', dec(0))),
    examples: { us: '1100 W', metric: '1100 W' },
  },
  heatRate: {
    words: 'heat rate',
    dimension: 'power',
    suffix: 'W',
    us: one('Btu/h', sig(3)),
    metric: HEAT_METRIC,
    examples: { us: '12,500 Btu/h', metric: '3.7 kW' },
  },
  energy: {
    words: 'energy',
    dimension: 'energy',
    suffix: 'J',
    ...both(one('kWh', sig(3))),
    examples: { us: '12 kWh', metric: '12 kWh' },
  },
  irradiance: {
    words: 'irradiance',
    dimension: 'irradiance',
    suffix: 'Wm2',
    ...both(one('W/m²', dec(0))),
    examples: { us: '800 W/m²', metric: '800 W/m²' },
  },
  irradiation: {
    words: 'irradiation',
    dimension: 'irradiation',
    suffix: 'Jm2',
    ...both(one('kWh/m²', sig(3))),
    examples: { us: '5.6 kWh/m²', metric: '20 MJ/m²' },
  },
  angle: {
    words: 'angle',
    dimension: 'angle',
    suffix: 'deg',
    ...both(one('°', dec(1))),
    examples: { us: '18.5°', metric: '18.5°' },
  },
  bearing: {
    words: 'direction',
    dimension: 'angle',
    suffix: 'deg',
    ...both(one('°', dec(0))),
    examples: { us: '170° or SSE', metric: '170° or SSE' },
  },
  slope: {
    words: 'slope',
    dimension: 'slope',
    suffix: 'slope',
    us: [
      { unit: 'in/ft', digits: { fraction: 32 }, below: 1 / 12 },
      { unit: 'in/ft', digits: { fraction: 8 } },
    ],
    metric: one('%', sig(3)),
    examples: { us: '1/8 in per ft', metric: '1.0 %' },
  },
  time: {
    words: 'time',
    dimension: 'time',
    suffix: 's',
    ...both([
      { unit: 's', digits: sig(3), below: 119.5 },
      { unit: 'min', digits: sig(3), below: 7199 },
      { unit: 'h', digits: sig(3), below: 72 * 3600 },
      { unit: 'd', digits: sig(3) },
    ]),
    examples: { us: '15.2 s', metric: '15.2 s' },
  },
  ratio: {
    words: 'share',
    dimension: 'ratio',
    suffix: 'ratio',
    ...both(one('%', dec(1))),
    examples: { us: '35 %', metric: '35 %' },
  },
  money: {
    words: 'money',
    suffix: 'money',
    ...both([
      { unit: '', digits: dec(2), below: 1000 },
      { unit: '', digits: dec(0) },
    ]),
    examples: { us: '$12.50', metric: '12.50' },
  },
  mass: {
    words: 'mass',
    dimension: 'mass',
    suffix: 'kg',
    us: one('lb', sig(3)),
    metric: one('kg', sig(3)),
    examples: { us: '65 lb', metric: '30 kg' },
  },
  count: { words: 'count', suffix: 'count', ...both(one('', dec(0))), examples: { us: '12', metric: '12' } },
};

/** Units a kind accepts; none for money and count. */
export function unitsOf(kind: QuantityKind): readonly Unit[] {
  const dimension = KINDS[kind].dimension;
  return dimension === undefined ? [] : UNITS[dimension];
}

/** The rule by which a value of that size is shown. */
export function ruleOf(kind: QuantityKind, system: UnitSystem, value: number): DisplayRule {
  const rules = KINDS[kind][system];
  return rules.find((rule) => !(Math.abs(value) >= (rule.below ?? Infinity))) ?? rules[rules.length - 1];
}

/** The unit of a kind in a system for a value of ordinary size. */
export function usualUnit(kind: QuantityKind, system: UnitSystem): string {
  const rules = KINDS[kind][system];
  return rules[kind === 'volume' || kind === 'heatRate' ? rules.length - 1 : 0].unit;
}

/**
 * What a bare number means when it is typed over a shown value: the unit in which that value stands there.
 * @example fieldUnit('volume', 'metric', 0.02) // 'L', for a pail
 * @example fieldUnit('length', 'us', 0.1651) // 'in', over 6-1/2 in
 */
export function fieldUnit(kind: QuantityKind, system: UnitSystem, shown?: number): string {
  if (shown === undefined || !Number.isFinite(shown) || shown === 0) return usualUnit(kind, system);
  const rule = ruleOf(kind, system, shown);
  return 'feetInches' in rule.digits && Math.abs(shown) < 0.3048 ? 'in' : rule.unit;
}

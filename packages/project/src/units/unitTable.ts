/**
 * Every unit a person may type, by dimension, with its exact factor to the house unit.
 *
 *   house value = (number + offset) · factor
 *
 * Factors come from definitions: inch 0.0254 m, pound 0.45359237 kg, US gallon 231 in³, imperial gallon
 * 4.54609 L, Btu (International Table) 1055.05585262 J, standard gravity 9.80665 m/s²; columns of mercury and
 * water are the *conventional* ones (13 595.1 and 1000 kg/m³).
 * @see nistSp811 in references.json (appendix B)
 */

export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'flow'
  | 'temperature'
  | 'temperatureDifference'
  | 'pressure'
  | 'head'
  | 'speed'
  | 'power'
  | 'energy'
  | 'irradiance'
  | 'irradiation'
  | 'angle'
  | 'slope'
  | 'time'
  | 'ratio'
  | 'mass';

export interface Unit {
  /** As written behind a number, and as stored in settings. */
  id: string;
  factor: number;
  offset?: number;
  /** Other ways to write it: lower case, `per` as `/`, no full stops, powers as plain digits. */
  names: readonly string[];
  /** Units that may follow it in a compound (`42 ft 6 in`), the first also without being named (`42 ft 6`). */
  smaller?: readonly string[];
  /** False where a number that follows must name its unit (`1 m 20 cm`). */
  bareSmaller?: boolean;
}

const INCH = 0.0254;
const FOOT = 0.3048;
const GALLON = 231 * INCH ** 3;
const IMPERIAL_GALLON = 4.54609e-3;
const POUND = 0.45359237;
const GRAVITY = 9.80665;
const BTU = 1055.05585262;
const PSI = (POUND * GRAVITY) / INCH ** 2;
const WATER_COLUMN = 1000 * GRAVITY;
const MERCURY_COLUMN = 13595.1 * GRAVITY;
const FOOT2 = FOOT ** 2;
const FOOT3 = FOOT ** 3;

const unit = (id: string, factor: number, names: string, more: Partial<Unit> = {}): Unit => ({
  id,
  factor,
  names: [id, ...(names === '' ? [] : names.split('|'))],
  ...more,
});

const LENGTH: readonly Unit[] = [
  unit('m', 1, 'meter|meters|metre|metres', { smaller: ['cm', 'mm'], bareSmaller: false }),
  unit('cm', 0.01, 'centimeter|centimeters|centimetre|centimetres', { smaller: ['mm'], bareSmaller: false }),
  unit('mm', 0.001, 'millimeter|millimeters|millimetre|millimetres'),
  unit('km', 1000, 'kilometer|kilometers|kilometre|kilometres'),
  unit('in', INCH, '"|inch|inches|ins'),
  unit('ft', FOOT, "'|foot|feet", { smaller: ['in'] }),
  unit('yd', 3 * FOOT, 'yard|yards|yds', { smaller: ['ft', 'in'], bareSmaller: false }),
  unit('mi', 5280 * FOOT, 'mile|miles'),
];

const withColumn = (of: string, names: string): string =>
  names
    .split('|')
    .flatMap((name) => [`${name} of ${of}`, `${name} ${of}`])
    .join('|');

const PRESSURE: readonly Unit[] = [
  unit('Pa', 1, 'pascal|pascals'),
  unit('hPa', 100, ''),
  unit('kPa', 1000, 'kilopascal|kilopascals'),
  unit('MPa', 1e6, ''),
  unit('mbar', 100, 'millibar|millibars'),
  unit('bar', 1e5, 'bars'),
  unit('atm', 101325, ''),
  unit('psi', PSI, 'psig|lb/in2|lbf/in2|lb/sq in|pounds/square inch|#'),
  unit(
    'inHg',
    INCH * MERCURY_COLUMN,
    `in hg|"hg|" hg|${withColumn('mercury', 'in|inch|inches|"')}|in of hg|inches hg`,
  ),
  unit('mmHg', 0.001 * MERCURY_COLUMN, `mm hg|torr|mm of mercury`),
];

const WATER_HEIGHT: readonly Unit[] = [
  unit('inH2O', INCH, `in h2o|inwc|in wc|"wc|${withColumn('water', 'in|inch|inches|"')}`),
  unit('ftH2O', FOOT, `ft h2o|${withColumn('water', "ft|foot|feet|'")}`),
  unit('mH2O', 1, `m h2o|mwc|m wc|${withColumn('water', 'm|meters|metres')}`),
];

const scaled = (units: readonly Unit[], by: number): Unit[] =>
  units.map((u) => ({ ...u, factor: u.factor * by }));

export const UNITS: Readonly<Record<Dimension, readonly Unit[]>> = {
  length: LENGTH,
  area: [
    unit('m²', 1, 'm2|sq m|sqm|square meter|square meters|square metre|square metres'),
    unit('cm²', 1e-4, 'cm2|sq cm'),
    unit('mm²', 1e-6, 'mm2|sq mm'),
    unit('ft²', FOOT2, 'ft2|sq ft|sqft|sf|square foot|square feet'),
    unit('in²', INCH ** 2, 'in2|sq in|sqin|square inch|square inches'),
    unit('yd²', 9 * FOOT2, 'yd2|sq yd|square yard|square yards'),
  ],
  volume: [
    unit('m³', 1, 'm3|cu m|cubic meter|cubic meters|cubic metre|cubic metres'),
    unit('L', 1e-3, 'l|liter|liters|litre|litres|ltr|dm3'),
    unit('mL', 1e-6, 'ml|cm3|cc|milliliter|milliliters|millilitre|millilitres'),
    unit('gal', GALLON, 'gallon|gallons|gals|us gal|us gallon|us gallons'),
    unit('qt', GALLON / 4, 'quart|quarts|qts'),
    unit('pt', GALLON / 8, 'pint|pints'),
    unit('fl oz', GALLON / 128, 'fluid ounce|fluid ounces|floz'),
    unit('imp gal', IMPERIAL_GALLON, 'imperial gallon|imperial gallons|uk gal|impgal'),
    unit('ft³', FOOT3, 'ft3|cu ft|cuft|cubic foot|cubic feet'),
  ],
  flow: [
    unit('m³/s', 1, 'm3/s|m3/sec'),
    unit('m³/h', 1 / 3600, 'm3/h|m3/hr|m3/hour|cubic meters/hour|cubic metres/hour|cmh'),
    unit('L/s', 1e-3, 'l/s|l/sec|lps|liters/second|litres/second'),
    unit(
      'L/min',
      1e-3 / 60,
      'l/min|lpm|l/m|liters/minute|litres/minute|liters/min|litres/min|liter/min|litre/min',
    ),
    unit('L/h', 1e-3 / 3600, 'l/h|l/hr|lph|liters/hour|litres/hour'),
    unit('gpm', GALLON / 60, 'gal/min|us gpm|usgpm|gallons/minute|gallons/min|gal/minute|us gal/min'),
    unit('gph', GALLON / 3600, 'gal/h|gal/hr|gallons/hour|gal/hour'),
    unit('gal/s', GALLON, 'gps|gallons/second'),
    unit('imp gpm', IMPERIAL_GALLON / 60, 'igpm|imp gal/min|imperial gallons/minute'),
    unit('ft³/min', FOOT3 / 60, 'ft3/min|cfm|cu ft/min'),
    unit('ft³/s', FOOT3, 'ft3/s|cfs'),
  ],
  temperature: [
    unit('°C', 1, 'c|deg c|degc|° c|degrees c|degree c|celsius|degrees celsius|centigrade'),
    unit('°F', 5 / 9, 'f|deg f|degf|° f|degrees f|degree f|fahrenheit|degrees fahrenheit', { offset: -32 }),
    unit('K', 1, 'kelvin', { offset: -273.15 }),
  ],
  temperatureDifference: [
    unit('K', 1, 'kelvin|kelvins'),
    unit('°C', 1, 'c|deg c|degc|° c|degrees c|celsius|degrees celsius'),
    unit('°F', 5 / 9, 'f|deg f|degf|° f|degrees f|fahrenheit|degrees fahrenheit'),
  ],
  pressure: [...PRESSURE, ...scaled(WATER_HEIGHT, WATER_COLUMN)],
  head: [
    unit('m', 1, 'meter|meters|metre|metres|m of head|m head|meters of head|metres of head'),
    unit('cm', 0.01, ''),
    unit('mm', 0.001, ''),
    unit('ft', FOOT, "'|foot|feet|ft of head|ft head|feet of head|feet head|tdh ft"),
    unit('in', INCH, '"|inch|inches'),
    ...WATER_HEIGHT,
    ...scaled(PRESSURE, 1 / WATER_COLUMN),
  ],
  speed: [
    unit('m/s', 1, 'm/sec|mps|meters/second|metres/second'),
    unit('km/h', 1 / 3.6, 'kmh|kph|km/hr|kilometers/hour|kilometres/hour'),
    unit('ft/s', FOOT, 'fps|ft/sec|feet/second'),
    unit('ft/min', FOOT / 60, 'fpm'),
    unit('mph', 0.44704, 'mi/h|miles/hour'),
    unit('kn', 1852 / 3600, 'kt|kts|knot|knots'),
  ],
  power: [
    unit('W', 1, 'watt|watts'),
    unit('kW', 1000, 'kilowatt|kilowatts'),
    unit('hp', 550 * FOOT * POUND * GRAVITY, 'horsepower|bhp'),
    unit('metric hp', 75 * GRAVITY, 'ps|cv|ch|pk'),
    unit('Btu/h', BTU / 3600, 'btuh|btu/hr|btu/hour|btu per hour'),
    unit('kBtu/h', BTU / 3.6, 'mbh|kbtu/hr'),
    unit('kcal/h', 4186.8 / 3600, 'kcal/hr'),
  ],
  energy: [
    unit('J', 1, 'joule|joules'),
    unit('kJ', 1e3, ''),
    unit('MJ', 1e6, ''),
    unit('GJ', 1e9, ''),
    unit('Wh', 3600, 'wh'),
    unit('kWh', 3.6e6, 'kilowatt hours|kw h'),
    unit('MWh', 3.6e9, ''),
    unit('Btu', BTU, 'btus'),
    unit('kBtu', 1e3 * BTU, ''),
    unit('MMBtu', 1e6 * BTU, 'million btu'),
    unit('therm', 1e5 * BTU, 'therms'),
  ],
  irradiance: [
    unit('W/m²', 1, 'w/m2|w/sq m|watts/m2'),
    unit('kW/m²', 1000, 'kw/m2'),
    unit(
      'Btu/h·ft²',
      BTU / 3600 / FOOT2,
      'btu/h ft2|btu/h-ft2|btu/h/ft2|btu/hr/ft2|btu/hr-ft2|btu/hr ft2|btu/(h ft2)',
    ),
  ],
  irradiation: [
    unit('J/m²', 1, 'j/m2'),
    unit('MJ/m²', 1e6, 'mj/m2'),
    unit('kWh/m²', 3.6e6, 'kwh/m2'),
    unit('Wh/m²', 3600, 'wh/m2'),
    unit('Btu/ft²', BTU / FOOT2, 'btu/ft2|btu/sq ft'),
  ],
  angle: [
    unit('°', 1, 'deg|degree|degrees', { smaller: ['′', '″'] }),
    unit('′', 1 / 60, "'|arcmin", { smaller: ['″'] }),
    unit('″', 1 / 3600, '"|arcsec'),
    unit('rad', 180 / Math.PI, 'radian|radians'),
  ],
  slope: [
    unit('%', 0.01, 'percent|pct'),
    unit('in/ft', 1 / 12, '"/ft|"/foot|"/\'|in/foot|inch/foot|inches/foot|inch/ft|inches/ft|in/\''),
    unit('mm/m', 0.001, 'mm/metre|mm/meter|‰'),
    unit('cm/m', 0.01, 'cm/metre|cm/meter'),
    unit('m/m', 1, 'ft/ft|in/in|mm/mm'),
  ],
  time: [
    unit('s', 1, 'sec|secs|second|seconds'),
    unit('min', 60, 'm|mins|minute|minutes', { smaller: ['s'] }),
    unit('h', 3600, 'hr|hrs|hour|hours', { smaller: ['min', 's'] }),
    unit('d', 86400, 'day|days', { smaller: ['h', 'min'], bareSmaller: false }),
    unit('wk', 604800, 'week|weeks'),
    unit('yr', 365.25 * 86400, 'year|years|y'),
  ],
  ratio: [unit('%', 0.01, 'percent|pct'), unit('1', 1, 'x')],
  mass: [
    unit('kg', 1, 'kilogram|kilograms|kilo|kilos'),
    unit('g', 1e-3, 'gram|grams'),
    unit('t', 1000, 'tonne|tonnes'),
    unit('lb', POUND, 'lbs|pound|pounds|#', { smaller: ['oz'] }),
    unit('oz', POUND / 16, 'ounce|ounces'),
  ],
};

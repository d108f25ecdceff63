import { STANDARD_ATMOSPHERE_PA, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

const R_DRY_AIR = 287.042; // ASHRAE Handbook—Fundamentals 2017 ch. 1 eq. 1 [J/kg·K]
const MASS_RATIO = 0.621945; // molar mass of water / of dry air, ASHRAE 2017 ch. 1 eq. 20 [–]
const CP_DRY_AIR = 1006; // ASHRAE 2017 ch. 1 eq. 30 [J/kg·K]
const CP_VAPOUR = 1860; // ASHRAE 2017 ch. 1 eq. 30 [J/kg·K]

const AIR_MIN = -60;
const AIR_MAX = 200;

function kelvin(temperature: number): number {
  if (!(temperature >= AIR_MIN && temperature <= AIR_MAX))
    throw new DomainError('air temperature', temperature, `[${AIR_MIN}, ${AIR_MAX}] °C`);
  return temperature + ZERO_CELSIUS_K;
}

function checkPressure(pressure: number): void {
  if (!(pressure > 0 && pressure < Infinity)) throw new DomainError('air pressure', pressure, '(0, ∞) Pa');
}

/** ln of the saturation pressure over liquid water [Pa], ASHRAE 2017 ch. 1 eq. 6, T [K]. */
function lnSaturation(T: number): number {
  return (
    -5.8002206e3 / T +
    1.3914993 +
    T * (-4.8640239e-2 + T * (4.1764768e-5 - T * 1.4452093e-8)) +
    6.5459673 * Math.log(T)
  );
}

/**
 * Saturation pressure of water vapour over liquid water (Hyland & Wexler 1983; ASHRAE
 * Handbook—Fundamentals 2017 ch. 1 eq. 6). Over *liquid* below 0 °C too: relative humidity and dew point of
 * weather records are reckoned so. The source gives 0…200 °C; carried further down it stays within
 * 0.2 % of Murphy & Koop 2005 for supercooled water to −20 °C and within 0.8 % to −40 °C.
 *
 * @param temperature [°C], −60…200
 * @returns [Pa]
 * @throws {DomainError} outside that range
 * @example saturationPressure(25) // 3169.2
 * @see ashrae2017 in references.json
 */
export function saturationPressure(temperature: number): number {
  return Math.exp(lnSaturation(kelvin(temperature)));
}

/**
 * Partial pressure of water vapour from relative humidity over liquid water.
 *
 * @param temperature      dry-bulb temperature [°C], −60…200
 * @param relativeHumidity [–], 0…1
 * @returns [Pa]
 * @throws {DomainError} outside those ranges
 * @example vapourPressureFromHumidity(22, 0.5) // 1323
 */
export function vapourPressureFromHumidity(temperature: number, relativeHumidity: number): number {
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1))
    throw new DomainError('relative humidity', relativeHumidity, '[0, 1]');
  return relativeHumidity * saturationPressure(temperature);
}

/**
 * Dew point from vapour pressure: Newton on ln of `saturationPressure`, to 1e-9 K.
 *
 * @param vapourPressure partial pressure of water vapour [Pa], from that at −60 °C (1.9 Pa) to that at 200 °C
 * @returns [°C]
 * @throws {DomainError} outside that range
 * @example dewPointFromVapourPressure(1323) // 11.1
 */
export function dewPointFromVapourPressure(vapourPressure: number): number {
  const least = saturationPressure(AIR_MIN);
  const most = saturationPressure(AIR_MAX);
  if (!(vapourPressure >= least && vapourPressure <= most))
    throw new DomainError(
      'vapour pressure',
      vapourPressure,
      `[${least.toPrecision(3)}, ${most.toPrecision(4)}] Pa`,
    );
  const target = Math.log(vapourPressure);
  let T = 290;
  // ln p is nearly linear in 1/T: Newton in 1/T converges in 3 to 6 steps over the whole range.
  for (let step = 0; step < 30; step++) {
    const slope =
      5.8002206e3 / T ** 2 - 4.8640239e-2 + 2 * 4.1764768e-5 * T - 3 * 1.4452093e-8 * T ** 2 + 6.5459673 / T;
    const next = 1 / (1 / T + (lnSaturation(T) - target) / (slope * T * T));
    const change = Math.abs(next - T);
    T = next;
    if (change < 1e-9) break;
  }
  return T - ZERO_CELSIUS_K;
}

/**
 * Dew point from relative humidity. A humidity so low that the dew point would lie under −60 °C is refused.
 *
 * @param temperature      dry-bulb temperature [°C], −60…200
 * @param relativeHumidity [–], (0, 1]
 * @returns [°C]
 * @throws {DomainError} outside those ranges
 * @example dewPointFromHumidity(25, 0.8) // 21.31
 */
export function dewPointFromHumidity(temperature: number, relativeHumidity: number): number {
  return dewPointFromVapourPressure(vapourPressureFromHumidity(temperature, relativeHumidity));
}

/**
 * Relative humidity over liquid water from dew point. Above 1 when the dew point is above the temperature:
 * the caller decides what an impossible reading means.
 *
 * @param temperature dry-bulb temperature [°C], −60…200
 * @param dewPoint    [°C], −60…200
 * @returns [–]
 * @throws {DomainError} outside those ranges
 * @example humidityFromDewPoint(25, 15) // 0.538
 */
export function humidityFromDewPoint(temperature: number, dewPoint: number): number {
  return saturationPressure(dewPoint) / saturationPressure(temperature);
}

/**
 * Humidity ratio, mass of vapour per mass of dry air (ASHRAE 2017 ch. 1 eq. 20).
 *
 *   W = 0.621945·pw/(p − pw)
 *
 * @param vapourPressure partial pressure of water vapour [Pa], 0 ≤ pw < p
 * @param pressure       total pressure [Pa], > 0
 * @returns [kg/kg]
 * @throws {DomainError} outside those ranges
 * @example humidityRatio(3000, 101325) // 0.018976
 */
export function humidityRatio(vapourPressure: number, pressure: number): number {
  checkPressure(pressure);
  if (!(vapourPressure >= 0 && vapourPressure < pressure))
    throw new DomainError('vapour pressure', vapourPressure, '[0, total pressure) Pa');
  return (MASS_RATIO * vapourPressure) / (pressure - vapourPressure);
}

/**
 * Density of moist air as an ideal gas (ASHRAE 2017 ch. 1 eq. 26 and 11).
 *
 *   ρ = (p − pw)/(R·T) + 0.621945·pw/(R·T)
 *
 * @param temperature    [°C], −60…200
 * @param pressure       total pressure [Pa], > 0
 * @param vapourPressure partial pressure of water vapour [Pa], 0 ≤ pw < p; dry air when left out
 * @returns [kg/m³]
 * @throws {DomainError} outside those ranges
 * @example airDensity(20, 101325) // 1.2041
 */
export function airDensity(temperature: number, pressure: number, vapourPressure = 0): number {
  checkPressure(pressure);
  if (!(vapourPressure >= 0 && vapourPressure < pressure))
    throw new DomainError('vapour pressure', vapourPressure, '[0, total pressure) Pa');
  return (pressure - (1 - MASS_RATIO) * vapourPressure) / (R_DRY_AIR * kelvin(temperature));
}

/**
 * Dynamic viscosity of air (Sutherland; US Standard Atmosphere 1976 eq. 51).
 *
 *   µ = β·T^1.5/(T + S)      β = 1.458e-6 kg/(s·m·√K)      S = 110.4 K
 *
 * @param temperature [°C], −60…200
 * @returns [Pa·s]
 * @throws {DomainError} outside that range
 * @example airViscosity(15) // 1.7894e-5
 * @see usStandardAtmosphere1976 in references.json
 */
export function airViscosity(temperature: number): number {
  const T = kelvin(temperature);
  return (1.458e-6 * T * Math.sqrt(T)) / (T + 110.4);
}

/**
 * Thermal conductivity of air (US Standard Atmosphere 1976 eq. 53).
 *
 *   k = 2.64638e-3·T^1.5/(T + 245.4·10^(−12/T))
 *
 * @param temperature [°C], −60…200
 * @returns [W/m·K]
 * @throws {DomainError} outside that range
 * @example airConductivity(15) // 2.5326e-2
 * @see usStandardAtmosphere1976 in references.json
 */
export function airConductivity(temperature: number): number {
  const T = kelvin(temperature);
  return (2.64638e-3 * T * Math.sqrt(T)) / (T + 245.4 * Math.exp((-12 * Math.LN10) / T));
}

/**
 * Isobaric heat capacity of moist air per mass of the mixture, the values of ASHRAE's enthalpy equation
 * (2017 ch. 1 eq. 30): 1006 J/kg·K for dry air, 1860 for vapour.
 *
 * @param ratio humidity ratio [kg/kg], ≥ 0; dry air when left out
 * @returns [J/kg·K]
 * @throws {DomainError} outside that range
 * @example airHeatCapacity() // 1006
 */
export function airHeatCapacity(ratio = 0): number {
  if (!(ratio >= 0 && ratio < Infinity)) throw new DomainError('humidity ratio', ratio, '[0, ∞)');
  return (CP_DRY_AIR + CP_VAPOUR * ratio) / (1 + ratio);
}

/**
 * Prandtl number of dry air, µ·cp/k.
 *
 * @param temperature [°C], −60…200
 * @returns [–]
 * @throws {DomainError} outside that range
 * @example airPrandtl(15) // 0.711
 */
export function airPrandtl(temperature: number): number {
  return (airViscosity(temperature) * CP_DRY_AIR) / airConductivity(temperature);
}

/**
 * Pressure of the standard atmosphere at an elevation (ASHRAE 2017 ch. 1 eq. 3).
 *
 *   p = 101325·(1 − 2.25577e-5·z)^5.2559
 *
 * @param elevation above sea level [m], −5000…11000
 * @returns [Pa]
 * @throws {DomainError} outside that range
 * @example pressureAtElevation(1000) // 89874
 */
export function pressureAtElevation(elevation: number): number {
  if (!(elevation >= -5000 && elevation <= 11_000))
    throw new DomainError('elevation', elevation, '[−5000, 11000] m');
  return STANDARD_ATMOSPHERE_PA * (1 - 2.25577e-5 * elevation) ** 5.2559;
}

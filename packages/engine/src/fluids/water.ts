import { ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/*
 * Liquid water at 0.1 MPa, IAPWS SR6-08(2011), "Revised Supplementary Release on Properties of Liquid Water
 * at 0.1 MPa". The thermodynamic part is one Gibbs function, so that density, expansion, heat capacity and
 * enthalpy agree with each other exactly:
 *
 *   g/(R·Tr) = c1 + c2·τ + c3·τ·ln τ + Σ aᵢ·αⁿⁱ + Σ bᵢ·βᵐⁱ          (eq. 1)
 *   v·p0/(R·Tr) = a5 + Σ aᵢ·αⁿⁱ + Σ bᵢ·βᵐⁱ                          (eq. 2)
 *   τ = T/Tr    α = Tr/(Ta − T)    β = Tr/(T − Tb)
 *
 * The release covers 253.15 to 383.15 K; this house uses 0 to 100 °C. Pressure in a pool's loop changes
 * density by under 2e-4 and viscosity by less, which is left out.
 */
const R = 461.51805; // specific gas constant of the release [J/kg·K]
const TR = 10; // reducing temperature [K]
const TA = 593; // [K]
const TB = 232; // [K]
const P0 = 1e5; // [Pa]

// Coefficients of eq. 1 as [factor, power].
const C1 = -2.452093414e2;
const C3 = -8.983025854;
const G_ALPHA = [
  [-1.661470539e5, 4],
  [2.70878164e6, 5],
  [-1.557191544e8, 7],
] as const;
const G_BETA = [
  [-8.237426256e-1, 2],
  [1.908956353, 3],
  [-2.017597384, 4],
  [8.546361348e-1, 5],
] as const;

// Coefficients of eq. 2 as [factor, power].
const V_0 = 1.93763157e-2;
const V_ALPHA = [
  [6.74458446e3, 4],
  [-2.22521604e5, 5],
  [1.00231247e8, 7],
  [-1.63552118e9, 8],
  [8.32299658e9, 9],
] as const;
const V_BETA = [
  [5.78545292e-3, 1],
  [-1.53195665e-2, 2],
  [3.11337859e-2, 3],
  [-4.23546241e-2, 4],
  [3.38713507e-2, 5],
  [-1.19946761e-2, 6],
] as const;

const VISCOSITY = [
  [280.68, -1.9],
  [511.45, -7.7],
  [61.131, -19.6],
  [0.45903, -40],
] as const;
const CONDUCTIVITY = [
  [1.663, -1.15],
  [-1.7781, -3.4],
  [1.1567, -6],
  [-0.432115, -7.6],
] as const;

type Terms = readonly (readonly [factor: number, power: number])[];

function sum(terms: Terms, x: number): number {
  let total = 0;
  for (const [factor, power] of terms) total += factor * x ** power;
  return total;
}

function kelvin(temperature: number): number {
  if (!(temperature >= 0 && temperature <= 100))
    throw new DomainError('water temperature', temperature, '[0, 100] °C');
  return temperature + ZERO_CELSIUS_K;
}

/** Specific volume [m³/kg] at T [K], SR6-08 eq. 2. */
function specificVolume(T: number): number {
  return ((R * TR) / P0) * (V_0 + sum(V_ALPHA, TR / (TA - T)) + sum(V_BETA, TR / (T - TB)));
}

/**
 * Density of liquid water at 0.1 MPa (IAPWS SR6-08, eq. 2). Uncertainty 1e-6 relative up to 40 °C.
 *
 * @param temperature [°C], 0…100
 * @returns [kg/m³]
 * @throws {DomainError} outside that range
 * @example waterDensity(30) // 995.65
 * @see iapwsSr6 in references.json
 */
export function waterDensity(temperature: number): number {
  return 1 / specificVolume(kelvin(temperature));
}

/**
 * Volumetric thermal expansion of liquid water at 0.1 MPa, (1/v)·(∂v/∂T)_p (from IAPWS SR6-08, eq. 2).
 * Negative below 3.98 °C.
 *
 * @param temperature [°C], 0…100
 * @returns [1/K]
 * @throws {DomainError} outside that range
 * @example waterExpansion(20) // 2.068e-4
 * @see iapwsSr6 in references.json
 */
export function waterExpansion(temperature: number): number {
  const T = kelvin(temperature);
  const α = TR / (TA - T);
  const β = TR / (T - TB);
  let slope = 0;
  for (const [a, n] of V_ALPHA) slope += n * a * α ** (n + 1);
  for (const [b, m] of V_BETA) slope -= m * b * β ** (m + 1);
  return ((R / P0) * slope) / specificVolume(T);
}

/**
 * Isobaric heat capacity of liquid water at 0.1 MPa, −T·(∂²g/∂T²)_p (IAPWS SR6-08, eq. 1).
 *
 * @param temperature [°C], 0…100
 * @returns [J/kg·K]
 * @throws {DomainError} outside that range
 * @example waterHeatCapacity(30) // 4179.8
 * @see iapwsSr6 in references.json
 */
export function waterHeatCapacity(temperature: number): number {
  const T = kelvin(temperature);
  const τ = T / TR;
  const α = TR / (TA - T);
  const β = TR / (T - TB);
  let curvature = 0;
  for (const [a, n] of G_ALPHA) curvature += n * (n + 1) * a * α ** (n + 2);
  for (const [b, m] of G_BETA) curvature += m * (m + 1) * b * β ** (m + 2);
  return -R * (C3 + τ * curvature);
}

/**
 * Specific enthalpy of liquid water at 0.1 MPa, g − T·(∂g/∂T)_p (IAPWS SR6-08, eq. 1). Zero at the triple
 * point on the scale of IAPWS-95, so 0.06 kJ/kg at 0 °C. Heat held by a body of water is mass × this, which
 * stays exact when the temperature changes.
 *
 * @param temperature [°C], 0…100
 * @returns [J/kg]
 * @throws {DomainError} outside that range
 * @example waterEnthalpy(30) - waterEnthalpy(20) // 41818
 * @see iapwsSr6 in references.json
 */
export function waterEnthalpy(temperature: number): number {
  const T = kelvin(temperature);
  const τ = T / TR;
  const α = TR / (TA - T);
  const β = TR / (T - TB);
  let h = C1 - C3 * τ;
  for (const [a, n] of G_ALPHA) h += a * α ** n * (1 - n * τ * α);
  for (const [b, m] of G_BETA) h += b * β ** m * (1 + m * τ * β);
  return R * TR * h;
}

/**
 * Dynamic viscosity of liquid water at 0.1 MPa (IAPWS SR6-08, eq. 7). Uncertainty 1 %, 0.17 % at 20 °C.
 *
 *   µ/(1 µPa·s) = Σ aᵢ·(T/300 K)^bᵢ
 *
 * @param temperature [°C], 0…100
 * @returns [Pa·s]
 * @throws {DomainError} outside that range
 * @example waterViscosity(20) // 1.0016e-3
 * @see iapwsSr6 in references.json
 */
export function waterViscosity(temperature: number): number {
  return 1e-6 * sum(VISCOSITY, kelvin(temperature) / 300);
}

/**
 * Thermal conductivity of liquid water at 0.1 MPa (IAPWS SR6-08, eq. 8). Uncertainty 1.5 %.
 *
 *   λ/(1 W/m·K) = Σ cᵢ·(T/300 K)^dᵢ
 *
 * @param temperature [°C], 0…100
 * @returns [W/m·K]
 * @throws {DomainError} outside that range
 * @example waterConductivity(25) // 0.6065
 * @see iapwsSr6 in references.json
 */
export function waterConductivity(temperature: number): number {
  return sum(CONDUCTIVITY, kelvin(temperature) / 300);
}

/**
 * Prandtl number of liquid water at 0.1 MPa, µ·c/λ.
 *
 * @param temperature [°C], 0…100
 * @returns [–]
 * @throws {DomainError} outside that range
 * @example waterPrandtl(30) // 5.424
 */
export function waterPrandtl(temperature: number): number {
  return (waterViscosity(temperature) * waterHeatCapacity(temperature)) / waterConductivity(temperature);
}

// Auxiliary equation for the vapour pressure of IAPWS-95 (Wagner & Pruß 2002, eq. 2.5; also IAPWS SR1-86).
const T_CRITICAL = 647.096; // [K]
const P_CRITICAL = 22.064e6; // [Pa]
const VAPOUR = [
  [-7.85951783, 1],
  [1.84408259, 1.5],
  [-11.7866497, 3],
  [22.6807411, 3.5],
  [-15.9618719, 4],
  [1.80122502, 7.5],
] as const;

/**
 * Vapour pressure of liquid water (auxiliary equation of IAPWS-95, Wagner & Pruß 2002 eq. 2.5).
 *
 *   ln(p/pc) = (Tc/T)·Σ aᵢ·θ^eᵢ      θ = 1 − T/Tc
 *
 * Uncertainty 0.02 %. Above pure water, not above moist air: evaporation uses `saturationPressure`.
 *
 * @param temperature [°C], 0…100
 * @returns [Pa]
 * @throws {DomainError} outside that range
 * @example waterVapourPressure(30) // 4247
 * @see wagnerPruss2002 in references.json
 */
export function waterVapourPressure(temperature: number): number {
  const T = kelvin(temperature);
  return P_CRITICAL * Math.exp((T_CRITICAL / T) * sum(VAPOUR, 1 - T / T_CRITICAL));
}

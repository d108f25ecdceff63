/** Standard acceleration of gravity [m/s²], ISO 80000-3, exact by definition. */
export const GRAVITY_MS2 = 9.80665;
/** Stefan–Boltzmann constant [W/m²K⁴], CODATA 2018 (exact in the SI since 2019). */
export const STEFAN_BOLTZMANN = 5.670374419e-8;
/** 0 °C in kelvin, exact by definition. */
export const ZERO_CELSIUS_K = 273.15;
/** Standard atmosphere at sea level [Pa], ISO 2533, exact by definition. */
export const STANDARD_ATMOSPHERE_PA = 101_325;

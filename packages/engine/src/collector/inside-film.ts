import { DomainError } from '../numeric/errors';

/** Ends of the linear blend from laminar to turbulent [Reynolds number]. */
export const LAMINAR_END = 2300;
export const TURBULENT_START = 4000;

/** The two published branches are 7 % apart where they meet, at x* = 0.03: from here to there they are bridged [–]. */
const BRIDGE_FROM = 0.027;
const BRIDGE_TO = 0.04;

/**
 * Tube-mean Nusselt number of laminar flow at constant heat flux with developing temperature profile (Shah).
 *
 *   x* = (L/D)/(Re·Pr)      1.953 x*^(−⅓) for x* ≤ 0.03, else 4.364 + 0.0722/x*
 *
 * As published the second begins 7 % above the end of the first, so that more flow would take up less. Between
 * x* = 0.027 and 0.04 a straight line over ln x* joins them: falling all the way, within 3 % of the first and 6 % of
 * the second; outside it is as published.
 *
 * @param xStar  [–], > 0
 * @throws {DomainError} outside that range
 * @example nusseltLaminar(0.0264) // 6.56
 * @see shah1978 in references.json
 */
export function nusseltLaminar(xStar: number): number {
  if (!(xStar > 0)) throw new DomainError('x*', xStar, '> 0');
  if (xStar <= BRIDGE_FROM) return developing(xStar);
  if (xStar >= BRIDGE_TO) return developed(xStar);
  const [from, to] = [developing(BRIDGE_FROM), developed(BRIDGE_TO)];
  return from + ((to - from) * Math.log(xStar / BRIDGE_FROM)) / Math.log(BRIDGE_TO / BRIDGE_FROM);
}

const developing = (xStar: number): number => 1.953 / Math.cbrt(xStar);
const developed = (xStar: number): number => 4.364 + 0.0722 / xStar;

/**
 * Nusselt number of turbulent flow in a smooth tube (Gnielinski 1976).
 *
 *   f = (0.790 ln Re − 1.64)^−2      Nu = (f/8)(Re − 1000)Pr / [1 + 12.7 √(f/8) (Pr^⅔ − 1)]
 *
 * @param re  Reynolds number [–], 3000…5·10⁶
 * @param pr  Prandtl number [–], 0.5…2000
 * @throws {DomainError} outside those ranges
 * @example nusseltTurbulent(1e4, 5) // 69.91
 * @see gnielinski1976 in references.json; Incropera eq. 8.62
 */
export function nusseltTurbulent(re: number, pr: number): number {
  if (!(re >= 3000 && re <= 5e6)) throw new DomainError('Reynolds number', re, '[3000, 5e6]');
  if (!(pr >= 0.5 && pr <= 2000)) throw new DomainError('Prandtl number', pr, '[0.5, 2000]');
  const g = 0.79 * Math.log(re) - 1.64;
  const f8 = 1 / (8 * g * g);
  return (f8 * (re - 1000) * pr) / (1 + 12.7 * Math.sqrt(f8) * (Math.cbrt(pr) ** 2 - 1));
}

/**
 * Tube-mean Nusselt number in a straight tube, any flow: laminar to 2300, Gnielinski from 4000, linear in Re
 * between. Flow standing still keeps the developed laminar value.
 *
 * @param re           Reynolds number [–], ≥ 0
 * @param pr           Prandtl number [–], 0.5…2000
 * @param lengthOverD  L/D of the tube [–], > 0
 * @param laminarGain  natural convection's gain on the laminar part [–], 1 leaves it out
 * @throws {DomainError} outside those ranges
 * @example nusseltTube(6710, 5.41, 1899) // 49.5
 */
export function nusseltTube(re: number, pr: number, lengthOverD: number, laminarGain = 1): number {
  if (!(re >= 0 && re < Infinity)) throw new DomainError('Reynolds number', re, '[0, ∞)');
  if (!(lengthOverD > 0)) throw new DomainError('length over diameter', lengthOverD, '> 0');
  if (!(laminarGain >= 1 && laminarGain <= 2)) throw new DomainError('laminar gain', laminarGain, '[1, 2]');
  if (re >= TURBULENT_START) return nusseltTurbulent(Math.min(re, 5e6), pr);
  if (re < 1e-6) return 4.364 * laminarGain;
  if (re <= LAMINAR_END) return laminarGain * nusseltLaminar(lengthOverD / (re * pr));
  const low = laminarGain * nusseltLaminar(lengthOverD / (LAMINAR_END * pr));
  const high = nusseltTurbulent(TURBULENT_START, pr);
  return low + ((high - low) * (re - LAMINAR_END)) / (TURBULENT_START - LAMINAR_END);
}

/**
 * Nusselt number in a coiled tube (Schmidt 1967 as in the VDI heat atlas, from memory).
 *
 *   laminar   3.66 + 0.08·[1 + 0.8 δ^0.9]·Re^m·Pr^⅓,  m = 0.5 + 0.2903 δ^0.194,  δ = D/D_coil
 *   to Re_c = 2300·(1 + 8.6 δ^0.45); from 2.2·10⁴ Gnielinski's form with f/8 = 0.03955 Re^−¼ + 0.00335 √δ;
 *   linear in Re between.
 *
 * Never below the straight tube's developed laminar value.
 *
 * @param re         Reynolds number [–], ≥ 0
 * @param pr         Prandtl number [–], 0.5…2000
 * @param boreRatio  D/D_coil [–], (0, 0.5]
 * @throws {DomainError} outside those ranges
 * @example nusseltCoil(1000, 5.4, 0.02) // 15.28
 */
export function nusseltCoil(re: number, pr: number, boreRatio: number): number {
  if (!(re >= 0 && re < Infinity)) throw new DomainError('Reynolds number', re, '[0, ∞)');
  if (!(pr >= 0.5 && pr <= 2000)) throw new DomainError('Prandtl number', pr, '[0.5, 2000]');
  if (!(boreRatio > 0 && boreRatio <= 0.5))
    throw new DomainError('bore over coil diameter', boreRatio, '(0, 0.5]');
  const critical = 2300 * (1 + 8.6 * boreRatio ** 0.45);
  const laminar = (r: number) =>
    Math.max(
      4.364,
      3.66 + 0.08 * (1 + 0.8 * boreRatio ** 0.9) * r ** (0.5 + 0.2903 * boreRatio ** 0.194) * Math.cbrt(pr),
    );
  const turbulent = (r: number) => {
    const f8 = 0.03955 * r ** -0.25 + 0.00335 * Math.sqrt(boreRatio);
    return (f8 * r * pr) / (1 + 12.7 * Math.sqrt(f8) * (Math.cbrt(pr) ** 2 - 1));
  };
  const upper = Math.max(2.2e4, critical * 1.05);
  if (re <= critical) return laminar(re);
  if (re >= upper) return turbulent(re);
  const low = laminar(critical);
  return low + ((turbulent(upper) - low) * (re - critical)) / (upper - critical);
}

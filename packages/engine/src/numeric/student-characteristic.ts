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
 * What depends on ν alone is worked out once; the function returned costs some thirty exponentials.
 *
 * @param dof degrees of freedom ν [–], 0.5…60
 * @returns φ of a frequency w ≥ 0 [–], 0…1
 * @throws {DomainError} ν outside its range, or w negative or NaN
 * @example studentCharacteristic(1)(1) // 0.3678794 = 1/e
 */
export function studentCharacteristic(dof: number): (w: number) => number {
  if (!(dof >= 0.5 && dof <= 60)) throw new DomainError('degrees of freedom', dof, '[0.5, 60]');
  const a = dof / 2;
  const root = Math.sqrt(dof);
  const constant = Math.log(0.5 * STEP) - lnGamma(a) - (a - 1) * Math.LN2;
  const excess: number[] = []; // cosh t − 1
  const raised: number[] = []; // 2·cosh(a·t)
  return (w) => {
    if (!(w >= 0)) throw new DomainError('frequency', w, '[0, ∞)');
    const x = root * w;
    if (x < 1e-7) return 1;
    let sum = 1;
    for (let i = 1; i < 400; i++) {
      if (i > excess.length) {
        const t = i * STEP;
        excess.push(2 * Math.sinh(t / 2) ** 2);
        raised.push(2 * Math.cosh(a * t));
      }
      const term = Math.exp(-x * excess[i - 1]!) * raised[i - 1]!;
      sum += term;
      if (term < 1e-11 * sum && excess[i - 1]! * x > a) break;
    }
    return Math.exp(constant + Math.log(sum) - x + a * Math.log(x));
  };
}

/** Step of the trapezoidal rule in t; at 0.2 its error is below 1e-9 up to 60 degrees of freedom. */
const STEP = 0.2;

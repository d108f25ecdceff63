import { DomainError } from './errors';

/** A stream of independent numbers, uniform on [0, 1). */
export type Random = () => number;

/**
 * Seeded uniform random numbers: sfc32 (Chris Doty-Humphrey, PractRand), its 128 bits of state filled from the
 * seed by splitmix32, the first twelve draws thrown away. 53-bit numbers from two 32-bit draws. The same seed
 * gives the same stream on every machine: only 32-bit integer arithmetic is used. Not for secrets.
 *
 * @param seed any finite number; low and high 32 bits and 32 bits of the fraction count
 * @returns a stream
 * @throws {DomainError} seed not finite
 * @example createRandom(1)() // the same number every time
 */
export function createRandom(seed: number): Random {
  if (!Number.isFinite(seed)) throw new DomainError('seed', seed, 'finite');
  const whole = Math.floor(seed);
  let mix = whole | 0;
  const fill = (): number => {
    mix = (mix + 0x9e3779b9) | 0;
    let z = mix ^ (mix >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let a = fill();
  mix ^= Math.floor(whole / 0x1_0000_0000) | 0;
  let b = fill();
  mix ^= Math.floor((seed - whole) * 0x1_0000_0000) | 0;
  let c = fill();
  let counter = 1;
  const bits = (): number => {
    const t = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + t) | 0;
    return t >>> 0;
  };
  for (let i = 0; i < 12; i++) bits();
  return () => ((bits() >>> 5) * 0x400_0000 + (bits() >>> 6)) / 0x20_0000_0000_0000;
}

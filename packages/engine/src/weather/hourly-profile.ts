import { DomainError } from '../numeric/errors';

/**
 * Share of a day's global irradiation that falls between two hour angles (Collares-Pereira & Rabl 1979),
 * integrated and normalised, so that the day's shares add up to 1 exactly.
 *
 *   r ∝ (a + b·cos ω)·(cos ω − cos ω_s)
 *   a = 0.409 + 0.5016·sin(ω_s − 60°)      b = 0.6609 − 0.4767·sin(ω_s − 60°)
 *
 * (Duffie & Beckman eq. 2.13.2). Hour angles beyond sunset count as sunset.
 *
 * @param sunset ω_s [rad], 0…π
 * @param from   hour angle, west positive [rad]
 * @param to     [rad], ≥ from
 * @returns [–], 0…1; 0 when the sun does not rise
 * @throws {DomainError} outside those ranges
 * @example // Madison, 23 August, 1 to 2 in the afternoon: 0.117
 * hourShare(1.777, Math.PI / 12, Math.PI / 6)
 */
export function hourShare(sunset: number, from: number, to: number): number {
  if (!(sunset >= 0 && sunset <= Math.PI + 1e-12))
    throw new DomainError('sunset hour angle', sunset, '[0, π]');
  if (!(to >= from)) throw new DomainError('end of the interval', to, '≥ its start');
  if (sunset < 1e-6) return 0;
  const c = Math.cos(sunset);
  const s60 = Math.sin(sunset - Math.PI / 3);
  const a = 0.409 + 0.5016 * s60;
  const b = 0.6609 - 0.4767 * s60;
  const integral = (w: number): number =>
    a * (Math.sin(w) - c * w) + b * (w / 2 + Math.sin(2 * w) / 4 - c * Math.sin(w));
  const clip = (w: number): number => Math.min(sunset, Math.max(-sunset, w));
  return (integral(clip(to)) - integral(clip(from))) / (2 * integral(sunset));
}

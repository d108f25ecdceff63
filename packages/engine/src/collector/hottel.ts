import { DomainError } from '../numeric/errors';

/**
 * Share of a hemisphere's diffuse light that meets a flat row of tubes of even pitch (Hottel).
 *
 *   F = 1 − √(1 − r²) + r·arccos r,  r = D/P
 *
 * @param diameterOverPitch  r [–], (0, 1]
 * @throws {DomainError} outside that range
 * @example rowShare(0.5) // 0.657573
 * @see hottel1967 in references.json
 */
export function rowShare(diameterOverPitch: number): number {
  const r = diameterOverPitch;
  if (!(r > 0 && r <= 1)) throw new DomainError('D/P', r, '(0, 1]');
  return 1 - Math.sqrt(1 - r * r) + r * Math.acos(r);
}

/**
 * View factor of a tube in such a row to the hemisphere on one side: (X/π)·F, X = P/D.
 *
 * @param pitchOverDiameter  X [–], ≥ 1
 * @example tubeToSide(2) // 0.418624
 */
export function tubeToSide(pitchOverDiameter: number): number {
  return (pitchOverDiameter / Math.PI) * rowShare(1 / pitchOverDiameter);
}

/**
 * View factor of a tube in such a row to both its neighbours (crossed strings).
 *
 *   (2/π)[√(X² − 1) + arcsin(1/X) − X]
 *
 * @param pitchOverDiameter  X [–], ≥ 1
 * @throws {DomainError} outside that range
 * @example tubeToNeighbours(2) // 0.162752
 */
export function tubeToNeighbours(pitchOverDiameter: number): number {
  const x = pitchOverDiameter;
  if (!(x >= 1)) throw new DomainError('P/D', x, '≥ 1');
  return (2 / Math.PI) * (Math.sqrt(x * x - 1) + Math.asin(1 / x) - x);
}

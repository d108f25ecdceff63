import { DomainError } from '../numeric/errors';

/** A woven screen by its wires, or by one share somebody measured or read on the label. */
export type ScreenMesh =
  | {
      readonly kind: 'woven';
      /** Wires per metre in the two directions [1/m]; 18 per inch is 708.66. */
      readonly wires1_perM: number;
      readonly wires2_perM: number;
      readonly wireDiameter_m: number;
    }
  | { readonly kind: 'typed'; readonly openness: number };

/**
 * Share of light that passes a woven screen along a direction given in the screen's own frame.
 *
 *   τ = max(0, 1 − n₁·d/cosθ₁) · max(0, 1 − n₂·d/cosθ₂)
 *
 * θ₁ is the angle between normal and direction as seen along the wires of family 1. A round wire always
 * shows its diameter across the ray, so its shadow on the screen's plane widens with 1/cosθ. At normal
 * incidence this is (1 − n₁d)(1 − n₂d), the projected openness. Scattering by the wires is not counted.
 *
 * @param mesh    woven or typed; a typed openness holds at every angle
 * @param normal  |s·n| of the unit direction [–], 0…1
 * @param across1 component of the direction in the plane, across the wires of family 1 [–]
 * @param across2 the same for family 2 [–]
 * @returns transmitted share [–]
 * @throws {DomainError} for a mesh without gaps
 * @example // 18 × 14 per inch of 0.011 in wire, straight through: 0.679
 * screenTransmittance({kind: 'woven', wires1_perM: 708.66, wires2_perM: 551.18, wireDiameter_m: 2.794e-4}, 1, 0, 0)
 */
export function screenTransmittance(
  mesh: ScreenMesh,
  normal: number,
  across1: number,
  across2: number,
): number {
  if (mesh.kind === 'typed') {
    if (!(mesh.openness >= 0 && mesh.openness <= 1))
      throw new DomainError('screen openness', mesh.openness, '[0, 1]');
    return mesh.openness;
  }
  const d = mesh.wireDiameter_m;
  if (!(d > 0)) throw new DomainError('wire diameter', d, '(0, ∞) m');
  for (const n of [mesh.wires1_perM, mesh.wires2_perM])
    if (!(n >= 0 && n * d < 1)) throw new DomainError('wires per metre × diameter', n * d, '[0, 1)');
  if (!(normal > 1e-9)) return 0;
  const widen1 = Math.sqrt(normal * normal + across1 * across1) / normal;
  const widen2 = Math.sqrt(normal * normal + across2 * across2) / normal;
  return Math.max(0, 1 - mesh.wires1_perM * d * widen1) * Math.max(0, 1 - mesh.wires2_perM * d * widen2);
}

/**
 * Share of evenly spread light that passes a flat screen: τ weighted by cosθ over the hemisphere.
 *
 *   τ_d = (1/π)·∫∫ τ(θ, φ)·cosθ·sinθ dθ dφ
 *
 * Midpoint rule in sin²θ and φ, 200 × 64 points; repeatable to 1e-4.
 *
 * @returns hemispherical openness [–]
 * @example // 18 × 14 per inch of 0.011 in wire: 0.56
 */
export function hemisphericalOpenness(mesh: ScreenMesh): number {
  const rings = 200;
  const spokes = 64;
  let sum = 0;
  for (let i = 0; i < rings; i++) {
    const sin2 = (i + 0.5) / rings;
    const sin = Math.sqrt(sin2);
    const cos = Math.sqrt(1 - sin2);
    for (let j = 0; j < spokes; j++) {
      const phi = ((j + 0.5) / spokes) * (Math.PI / 2);
      sum += screenTransmittance(mesh, cos, sin * Math.cos(phi), sin * Math.sin(phi));
    }
  }
  return sum / (rings * spokes);
}

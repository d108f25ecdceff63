const RAD = Math.PI / 180;

/** Upper ends of the clearness bins, Perez et al. 1990 table 1. */
const BIN_ENDS = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2];

/** f11 f12 f13 f21 f22 f23 for each bin; Perez et al. 1990 table 6, "all sites composite". */
const COEFFICIENTS = [
  [-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  [0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  [0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  [1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  [0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
];

/**
 * Circumsolar and horizon brightening of Perez et al. 1990 ("all sites composite").
 *
 *   ε = [(D + DNI)/D + 1.041 z³]/(1 + 1.041 z³)      Δ = D·m/I₀
 *   F₁ = max(0, f11 + f12 Δ + f13 z)                 F₂ = f21 + f22 Δ + f23 z      (z in radians)
 *
 * @param sunZenith_deg          [deg], 0…90
 * @param directNormal_Wm2       [W/m²], ≥ 0
 * @param diffuseHorizontal_Wm2  [W/m²], > 0
 * @param extraterrestrial_Wm2   [W/m²], > 0
 * @param airMass                relative, not corrected for pressure [–]
 * @see perez1990 in references.json
 */
export function circumsolarAndHorizon(
  sunZenith_deg: number,
  directNormal_Wm2: number,
  diffuseHorizontal_Wm2: number,
  extraterrestrial_Wm2: number,
  airMass: number,
): { f1: number; f2: number } {
  const z = sunZenith_deg * RAD;
  const k = 1.041 * z ** 3;
  const d = diffuseHorizontal_Wm2;
  const eps = ((d + directNormal_Wm2) / d + k) / (1 + k);
  const delta = (d * airMass) / extraterrestrial_Wm2;
  let bin = 0;
  while (bin < BIN_ENDS.length && eps >= BIN_ENDS[bin]) bin += 1;
  const [f11, f12, f13, f21, f22, f23] = COEFFICIENTS[bin];
  return { f1: Math.max(0, f11 + f12 * delta + f13 * z), f2: f21 + f22 * delta + f23 * z };
}

import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Outline } from '@sunlap/project/schema/pool';

const RAD = Math.PI / 180;
/** Corners that stand for a curve. */
const ROUND = 32;

/**
 * Corners of the water seen from above, in yard axes. Length lies east–west before it is turned clockwise; an L
 * lacks its north-east corner, mirrored its north-west one. Curves become 32 corners on an outline of the same area.
 *
 * @example outlinePoints({ kind: 'rectangle', x_m: 0, y_m: 0, length_m: 8, width_m: 4 })[0] // [-4, -2]
 */
export function outlinePoints(outline: Outline): PlanPoint[] {
  if (outline.kind === 'polygon') return outline.points.map(([x, y]) => [x, y] as const);
  const local: (readonly [number, number])[] = [];
  if (outline.kind === 'round' || outline.kind === 'oval') {
    const a = (outline.kind === 'round' ? outline.diameter_m : outline.length_m) / 2;
    const b = (outline.kind === 'round' ? outline.diameter_m : outline.width_m) / 2;
    // a polygon inside the curve would lack 0.6 % of its area
    const swell = Math.sqrt((2 * Math.PI) / ROUND / Math.sin((2 * Math.PI) / ROUND));
    for (let k = 0; k < ROUND; k++) {
      const t = (2 * Math.PI * k) / ROUND;
      local.push([a * swell * Math.cos(t), b * swell * Math.sin(t)]);
    }
  } else {
    const x = outline.length_m / 2;
    const y = outline.width_m / 2;
    const cx = outline.kind === 'L' ? x - Math.min(outline.cutLength_m, 0.98 * outline.length_m) : x;
    const cy = outline.kind === 'L' ? y - Math.min(outline.cutWidth_m, 0.98 * outline.width_m) : y;
    local.push([-x, -y], [x, -y]);
    if (outline.kind !== 'L') local.push([x, y], [-x, y]);
    else if (outline.mirrored === true) local.push([x, y], [-cx, y], [-cx, cy], [-x, cy]);
    else local.push([x, cy], [cx, cy], [cx, y], [-x, y]);
  }
  const turn = (outline.turn_deg ?? 0) * RAD;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return local.map(([x, y]) => [outline.x_m + x * c + y * s, outline.y_m - x * s + y * c] as const);
}

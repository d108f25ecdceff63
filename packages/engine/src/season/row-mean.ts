import { plasticAngleFactor } from '../collector/cylinder-angle';
import { type RowFrame, rowFrame, sunOnRow } from '../collector/row-frame';
import { type RowLight, type RowOptics, rowLight } from '../collector/row-light';
import { type RowSight, visibleWidths } from '../collector/row-sight';
import { lightOnPlane, type SkyLight, type SkyModel } from '../sun/plane';

const DEG = 180 / Math.PI;
/** Directions of the sun across the tubes at which widths are tabulated, one a degree. */
const NODES = 360;

/** Light of one moment on a plane and behind it; shared by all rows of that plane. */
export interface PlaneMoment {
  readonly sky: SkyLight;
  readonly tilt_deg: number;
  /** Direct with circumsolar, facing the sun [W/m²]. */
  normal_Wm2: number;
  /** From the sky on the front and on the rear, and from the ground on the front [W/m²]. */
  frontSky_Wm2: number;
  frontGround_Wm2: number;
  rearSky_Wm2: number;
  readonly albedo: number;
}

/** Light on both sides of a plane at one moment. */
export function planeMoment(
  sky: SkyLight,
  tilt_deg: number,
  facing_deg: number,
  albedo: number,
  model: SkyModel,
): PlaneMoment {
  const front = lightOnPlane(sky, tilt_deg, facing_deg, albedo, model);
  const back = lightOnPlane(sky, 180 - tilt_deg, (facing_deg + 180) % 360, albedo, model);
  return {
    sky,
    tilt_deg,
    normal_Wm2: sky.directNormal_Wm2 + front.circumsolarNormal_Wm2,
    frontSky_Wm2: front.background_Wm2 + front.horizon_Wm2,
    frontGround_Wm2: front.ground_Wm2,
    rearSky_Wm2: back.background_Wm2 + back.horizon_Wm2,
    albedo,
  };
}

/**
 * A row of tubes reduced to its mean: what `rowLight` says on the average of the tubes asked for, at a
 * hundredth of its cost. Everything after the first hit is linear in the light that meets tubes, in the light
 * that passes between them, and in the two hemispheres' diffuse light, so that four probes of `rowLight` fix it;
 * the visible width is a table over the sun's angle across the tubes, one node a degree.
 */
export interface RowMean {
  readonly frame: RowFrame;
  readonly open: boolean;
  readonly absorptance: number;
  readonly width_m: number;
  readonly frontShare: number;
  /** Mean visible width of the members [m] and sum over the whole row [m], by angle across. */
  readonly mean_m: Float64Array;
  readonly sum_m: Float64Array;
  /** Absorbed after the first hit per light on tubes and per light passed [m]. */
  readonly afterTubes: number;
  readonly afterGaps: number;
  readonly backingTubes: number;
  readonly backingGaps: number;
  /** Absorbed per unit of diffuse light on the front and on the rear [m]. */
  readonly front: number;
  readonly rear: number;
  readonly backingFront: number;
}

/** Light absorbed by a metre of mean tube, and by the backing. */
export interface MeanLight {
  beam_Wm: number;
  diffuse_Wm: number;
  backingBeam_Wm2: number;
  backingDiffuse_Wm2: number;
}

/**
 * Reduces a row.
 *
 * @param frame   axes of the row
 * @param sight   what its tubes see
 * @param optics  absorptance, backing
 * @param members places of the tubes over which the mean runs; all when left out
 */
export function rowMean(
  frame: RowFrame,
  sight: RowSight,
  optics: RowOptics,
  members: readonly number[] = Array.from({ length: sight.count }, (_, i) => i),
): RowMean {
  const { mean, sum } = widthTables(sight, members);
  const probe = probes(sight, optics, members);
  return {
    frame,
    open: optics.backing === null,
    absorptance: optics.absorptance,
    width_m: sight.width_m,
    frontShare: sight.frontShare,
    mean_m: mean,
    sum_m: sum,
    ...probe,
  };
}

interface WidthTables {
  readonly mean: Float64Array;
  readonly sum: Float64Array;
}

/** Widths depend on the row alone: kept while it stays, whatever its plane, colour and backing do. */
const known = new WeakMap<RowSight, Map<string, WidthTables>>();

function widthTables(sight: RowSight, members: readonly number[]): WidthTables {
  const ofRow = known.get(sight) ?? new Map<string, WidthTables>();
  known.set(sight, ofRow);
  const key = members.length === sight.count ? 'all' : members.join(' ');
  const found = ofRow.get(key);
  if (found) return found;
  const mean = new Float64Array(NODES);
  const sum = new Float64Array(NODES);
  const widths = new Float64Array(sight.count);
  const order = Int32Array.from({ length: sight.count }, (_, i) => i);
  const flat = isFlat(sight);
  for (let k = 0; k < NODES; k++) {
    const angle = ((k - NODES / 2) / NODES) * 2 * Math.PI;
    // a row in one plane looks the same from behind
    const twin = flat && Math.abs(angle) > Math.PI / 2 ? Math.sign(angle) * Math.PI - angle : null;
    if (twin !== null) continue;
    visibleWidths(sight.row, Math.sin(angle), Math.cos(angle), widths, order);
    for (let i = 0; i < sight.count; i++) sum[k] += widths[i];
    for (const i of members) mean[k] += widths[i] / members.length;
  }
  if (flat)
    for (let k = 0; k < NODES; k++) {
      const angle = k - NODES / 2;
      if (Math.abs(angle) <= 90) continue;
      const twin = Math.sign(angle) * 180 - angle + NODES / 2;
      mean[k] = mean[twin];
      sum[k] = sum[twin];
    }
  const made = { mean, sum };
  ofRow.set(key, made);
  return made;
}

function isFlat(sight: RowSight): boolean {
  for (let i = 1; i < sight.count; i++) if (sight.row.depth_m[i] !== sight.row.depth_m[0]) return false;
  return true;
}

function probes(sight: RowSight, optics: RowOptics, members: readonly number[]) {
  const level = rowFrame(0, 180, 0);
  const overturned = rowFrame(180, 180, 0);
  const of = (values: Float64Array): number => members.reduce((s, i) => s + values[i], 0) / members.length;
  const sky = (zenith: number, direct: number, diffuse: number): SkyLight => ({
    sunZenith_deg: zenith,
    sunAzimuth_deg: 180,
    directNormal_Wm2: direct,
    diffuseHorizontal_Wm2: diffuse,
    extraterrestrial_Wm2: 1367,
  });
  const at = (frame: RowFrame, s: SkyLight): RowLight =>
    rowLight(frame, sight, optics, { sky: s, albedo: 0, model: 'isotropic' });
  const beam = (zenith: number) => {
    const light = at(level, sky(zenith, 1, 0));
    const onTubes = light.incidentBeam_Wm.reduce((s, v) => s + v, 0) / sight.width_m;
    const passed = Math.max(0, Math.cos(zenith / DEG) - onTubes);
    const first = optics.absorptance * plasticAngleFactor(0) * of(light.incidentBeam_Wm);
    return { onTubes, passed, after: of(light.beam_Wm) - first, backing: light.backingBeam_Wm2 };
  };
  const a = beam(0);
  const b = beam(60);
  const det = a.onTubes * b.passed - b.onTubes * a.passed;
  const solve = (u: number, v: number): readonly [number, number] =>
    Math.abs(det) > 1e-9
      ? [(u * b.passed - v * a.passed) / det, (a.onTubes * v - b.onTubes * u) / det]
      : [a.onTubes > 0 ? u / a.onTubes : 0, 0];
  const [afterTubes, afterGaps] = solve(a.after, b.after);
  const [backingTubes, backingGaps] = solve(a.backing, b.backing);
  const front = at(level, sky(95, 0, 1));
  const rear = at(overturned, sky(95, 0, 1));
  return {
    afterTubes,
    afterGaps,
    backingTubes,
    backingGaps,
    front: of(front.diffuse_Wm),
    rear: optics.backing === null ? of(rear.diffuse_Wm) : 0,
    backingFront: front.backingDiffuse_Wm2,
  };
}

/**
 * Light on the mean tube of a row.
 *
 * @param row      from {@link rowMean}
 * @param plane    light of the moment on the row's plane
 * @param skyShare share of the sky still seen past obstacles [–]
 * @param out      receives the light, direct as if fully sunlit
 */
export function rowMeanLight(row: RowMean, plane: PlaneMoment, skyShare: number, out: MeanLight): void {
  const { sky } = plane;
  const sun = sunOnRow(row.frame, sky.sunZenith_deg, sky.sunAzimuth_deg);
  const isUp = sky.sunZenith_deg < 90;
  const fromFront = sun.normal > 0;
  const light = isUp && (fromFront || row.open) ? plane.normal_Wm2 : 0;
  let onTubes = 0;
  let through = 0;
  let first = 0;
  if (light > 0) {
    const x = (Math.atan2(sun.across, sun.normal) / (2 * Math.PI) + 0.5) * NODES;
    const k = Math.floor(x) % NODES;
    const next = (k + 1) % NODES;
    const f = x - Math.floor(x);
    const beta = sun.cosBeta * light;
    onTubes = (beta * (row.sum_m[k] + (row.sum_m[next] - row.sum_m[k]) * f)) / row.width_m;
    first = beta * (row.mean_m[k] + (row.mean_m[next] - row.mean_m[k]) * f);
    through = fromFront ? Math.max(0, light * sun.normal - onTubes) : 0;
    first *= row.absorptance * plasticAngleFactor(Math.min(90, Math.acos(Math.min(1, sun.cosBeta)) * DEG));
  }
  out.beam_Wm = first + row.afterTubes * onTubes + row.afterGaps * through;
  out.backingBeam_Wm2 = row.backingTubes * onTubes + row.backingGaps * through;
  const frontDiffuse = plane.frontSky_Wm2 * skyShare + plane.frontGround_Wm2;
  let rearDiffuse = 0;
  if (row.open) {
    const onStrip = fromFront ? light * sun.normal : 0;
    const passed = onStrip > 0 ? through / onStrip : 1;
    const direct = isUp ? sky.directNormal_Wm2 * Math.max(0, Math.cos(sky.sunZenith_deg / DEG)) : 0;
    const under =
      plane.albedo * (direct * passed + sky.diffuseHorizontal_Wm2 * skyShare * (1 - row.frontShare));
    rearDiffuse = plane.rearSky_Wm2 * skyShare + (under * (1 + Math.cos(plane.tilt_deg / DEG))) / 2;
  }
  out.diffuse_Wm = row.front * frontDiffuse + row.rear * rearDiffuse;
  out.backingDiffuse_Wm2 = row.backingFront * frontDiffuse;
}

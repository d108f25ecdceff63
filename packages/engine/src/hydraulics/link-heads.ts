import { coil } from './coil';
import { churchillMany, friction } from './friction';
import { COIL, type CompiledLaws, PIPE, PLAIN, PUMP } from './link-laws';
import type { FrictionLaw } from './network-types';

/** Under this Reynolds number friction is 64/Re to the last bit. */
const LAMINAR_RE = 500;
/** Stands for no flow where a formula divides by Re. */
const LEAST_RE = 1e-6;
/** Speed at which laws are first linearised [m/s]: an ordinary speed in pool pipe. */
const FIRST_SPEED = 0.5;

const f = { f: 0, reSlope: 0 };
const pumpOut = { value: 0, slope: 0 };
/** Pipes past creeping and laminar flow, gathered in each evaluation; grows to the largest network seen. */
let gathered = gather(64);

function gather(n: number) {
  return {
    at: new Int32Array(n),
    re: new Float64Array(n),
    roughness: new Float64Array(n),
    f: new Float64Array(n),
    reSlope: new Float64Array(n),
  };
}

/**
 * Head and slope of links at given mass flows, without tees and buoyancy.
 *
 * @param laws   compiled laws
 * @param which  places of the links
 * @param law    friction law
 * @param flow   mass flow of each of `which` [kg/s]
 * @param head   receives head lost [m]
 * @param slope  receives dh/dm [m·s/kg]
 * @param extraForward  quadratic coefficients to add, per link of the description (constant tees), or null
 * @param extraBackward the same for flow backwards
 */
export function evaluateLaws(
  laws: CompiledLaws,
  which: Int32Array,
  law: FrictionLaw,
  flow: Float64Array,
  head: Float64Array,
  slope: Float64Array,
  extraForward: Float64Array | null,
  extraBackward: Float64Array | null,
): void {
  const { kind, creeping, line, quadForward, quadBackward, scale, reynolds, roughness } = laws;
  if (gathered.at.length < which.length) gathered = gather(which.length);
  const { at, re } = gathered;
  let count = 0;
  for (let n = 0; n < which.length; n++) {
    const i = which[n]!;
    const m = flow[n]!;
    const size = Math.abs(m);
    let quad = m < 0 ? quadBackward[i]! : quadForward[i]!;
    if (extraForward !== null) quad += m < 0 ? extraBackward![i]! : extraForward[i]!;
    const m0 = creeping[i]!;
    let h = line[i]! * m;
    let d = line[i]!;
    if (size >= m0) {
      h += quad * m * size;
      d += 2 * quad * size;
    } else {
      h += (quad * m * (m0 * m0 + m * m)) / (2 * m0);
      d += (quad * (m0 * m0 + 3 * m * m)) / (2 * m0);
    }
    const type = kind[i]!;
    if (type === PIPE) {
      const r = size * reynolds[i]!;
      if (r < LAMINAR_RE) {
        const laminar = (64 * scale[i]!) / reynolds[i]!;
        h += laminar * m;
        d += laminar;
      } else {
        at[count] = n;
        re[count] = r;
        gathered.roughness[count] = roughness[i]!;
        count++;
      }
    } else if (type !== PLAIN) {
      addOther(laws, i, m, type);
      h += other.head;
      d += other.slope;
    }
    head[n] = h;
    slope[n] = d;
  }
  churchillMany(count, re, gathered.roughness, gathered.f, gathered.reSlope);
  if (law !== 'churchill') replaceUnknown(law, count);
  for (let k = 0; k < count; k++) {
    const n = at[k]!;
    const m = flow[n]!;
    const size = Math.abs(m);
    const c = scale[which[n]!]! * size;
    const factor = gathered.f[k]!;
    head[n] = head[n]! + c * factor * m;
    slope[n] = slope[n]! + c * (2 * factor + gathered.reSlope[k]!);
  }
}

/** Between Re 2000 and 4000, the other law's factor in place of Churchill's. */
function replaceUnknown(law: FrictionLaw, count: number): void {
  for (let k = 0; k < count; k++) {
    friction(law, gathered.re[k]!, gathered.roughness[k]!, f);
    gathered.f[k] = f.f;
    gathered.reSlope[k] = f.reSlope;
  }
}

const other = { head: 0, slope: 0 };

/** Coils and running pumps: few, so one by one. */
function addOther(laws: CompiledLaws, i: number, m: number, type: number): void {
  const scale = laws.scale[i]!;
  if (type === COIL) {
    const re = Math.max(Math.abs(m) * laws.reynolds[i]!, LEAST_RE);
    coil(re, laws.roughness[i]!, laws.coilRatio[i]!, laws.coilCritical[i]!, f);
    const size = re / laws.reynolds[i]!;
    other.head = scale * f.f * m * size;
    other.slope = scale * size * (2 * f.f + f.reSlope);
  } else if (type === PUMP) {
    const speed = laws.pumpSpeed[i]!;
    laws.pumps[i]!.head(m / (laws.density[i]! * speed), pumpOut);
    other.head = -scale * speed * speed * pumpOut.value;
    other.slope = (-scale * speed * pumpOut.slope) / laws.density[i]!;
  }
}

/**
 * A straight line for each law, for the first step from nothing: the chord to an ordinary speed, which has
 * no preferred direction; a pump from shut-off to the end of its curve.
 */
export function firstLine(
  laws: CompiledLaws,
  which: Int32Array,
  law: FrictionLaw,
  flow: Float64Array,
  head: Float64Array,
  slope: Float64Array,
  extraForward: Float64Array | null,
  extraBackward: Float64Array | null,
): void {
  for (let n = 0; n < which.length; n++) flow[n] = FIRST_SPEED / laws.speed[which[n]!]!;
  evaluateLaws(laws, which, law, flow, head, slope, extraForward, extraBackward);
  for (let n = 0; n < which.length; n++) {
    const i = which[n]!;
    const pump = laws.pumps[i];
    if (pump) {
      const top = laws.scale[i]! * laws.pumpSpeed[i]! ** 2 * pump.shutOffHead_m;
      head[n] = -top;
      slope[n] = top / (pump.span_m3s * laws.pumpSpeed[i]! * laws.density[i]!);
    } else {
      slope[n] = head[n]! / flow[n]!;
      head[n] = 0;
    }
    flow[n] = 0;
  }
}

/** Head a running pump has at no flow, on the reference density [m]; 0 for anything else. */
export function headAtRest(laws: CompiledLaws, i: number): number {
  const pump = laws.pumps[i];
  return pump ? laws.scale[i]! * laws.pumpSpeed[i]! ** 2 * pump.shutOffHead_m : 0;
}

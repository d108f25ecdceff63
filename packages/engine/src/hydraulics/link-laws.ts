import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import { coil, coilCriticalReynolds } from './coil';
import { churchillMany, friction } from './friction';
import type { FrictionLaw, LinkLaw, NetworkDescription, NetworkLink } from './network-types';
import { type PreparedPump, preparePump } from './pump';

/**
 * Under this Reynolds number quadratic losses go over to a straight line, with the same value and slope at
 * the join: creeping flow has no quadratic loss, and a slope of zero at rest would stop Newton (judgement).
 */
const CREEPING_RE = 50;
/** Under this Reynolds number friction is 64/Re to the last bit. */
const LAMINAR_RE = 500;
/** Stands for no flow where a formula divides by Re. */
const LEAST_RE = 1e-6;
/** Speed at which laws are first linearised [m/s]: an ordinary speed in pool pipe. */
const FIRST_SPEED = 0.5;
/** Loss coefficient of a stopped pump when none is given (judgement). */
const STOPPED_PUMP = 4;

const PLAIN = 0;
const PIPE = 1;
const COIL = 2;
const PUMP = 3;

/** Link laws as flat arrays: head h(m) = line·m + quad·m·|m| + friction − pump, on the reference density. */
export interface CompiledLaws {
  readonly kind: Uint8Array;
  readonly bore: Float64Array;
  /** velocity per mass flow [1/(kg/m³·m²)] */
  readonly speed: Float64Array;
  /** Reynolds number per mass flow [s/kg] */
  readonly reynolds: Float64Array;
  readonly density: Float64Array;
  /** mass flow at which a quadratic loss becomes a line [kg/s] */
  readonly creeping: Float64Array;
  readonly line: Float64Array;
  /** quadratic coefficient forwards and backwards [m/(kg/s)²] */
  readonly quadForward: Float64Array;
  readonly quadBackward: Float64Array;
  /** friction: h = scale·f·m² */
  readonly scale: Float64Array;
  readonly roughness: Float64Array;
  readonly coilRatio: Float64Array;
  readonly coilCritical: Float64Array;
  readonly pumpSpeed: Float64Array;
  readonly pumps: (PreparedPump | undefined)[];
  readonly oneWay: Uint8Array;
  /** 1: out of the system from the start (closed by the caller, or Kv = 0) */
  readonly closed: Uint8Array;
  /** head source of buoyancy, from → to [m] */
  readonly buoyancy: Float64Array;
}

/** Empty arrays for a number of links. */
export function emptyLaws(n: number): CompiledLaws {
  const f = () => new Float64Array(n);
  return {
    kind: new Uint8Array(n),
    bore: f(),
    speed: f(),
    reynolds: f(),
    density: f(),
    creeping: f(),
    line: f(),
    quadForward: f(),
    quadBackward: f(),
    scale: f(),
    roughness: f(),
    coilRatio: f(),
    coilCritical: f(),
    pumpSpeed: f(),
    pumps: new Array<PreparedPump | undefined>(n).fill(undefined),
    oneWay: new Uint8Array(n),
    closed: new Uint8Array(n),
    buoyancy: f(),
  };
}

/**
 * Turns the laws of a description into arrays, in place.
 *
 * @throws {DomainError} for a law or a fluid outside its range, with the link's id
 */
export function compileLaws(description: NetworkDescription, out: CompiledLaws): void {
  const reference = description.referenceDensity_kgm3;
  if (!(reference > 0 && reference < Infinity))
    throw new DomainError('reference density', reference, '(0, ∞) kg/m³');
  for (let i = 0; i < description.links.length; i++) {
    const link = description.links[i]!;
    const density = link.density_kgm3 ?? reference;
    const viscosity = link.viscosity_Pas ?? description.viscosity_Pas;
    const bore = link.law.bore_m;
    if (!(density > 0 && density < Infinity)) fail(link, 'density', density, '(0, ∞) kg/m³');
    if (!(viscosity > 0 && viscosity < Infinity)) fail(link, 'viscosity', viscosity, '(0, ∞) Pa·s');
    if (!(bore > 0 && bore < Infinity)) fail(link, 'bore', bore, '(0, ∞) m');
    const area = (Math.PI / 4) * bore * bore;
    out.bore[i] = bore;
    out.density[i] = density;
    out.speed[i] = 1 / (density * area);
    out.reynolds[i] = bore / (area * viscosity);
    out.creeping[i] = CREEPING_RE / out.reynolds[i]!;
    const z = description.nodes;
    out.buoyancy[i] =
      density === reference
        ? 0
        : (1 - density / reference) * (z[link.to]!.elevation_m - z[link.from]!.elevation_m);
    out.kind[i] = PLAIN;
    out.line[i] = 0;
    out.oneWay[i] = 0;
    out.closed[i] = link.closed ? 1 : 0;
    out.pumps[i] = undefined;
    compileLaw(out, i, link, link.law, reference, viscosity, area);
  }
}

function compileLaw(
  out: CompiledLaws,
  i: number,
  link: NetworkLink,
  law: LinkLaw,
  reference: number,
  viscosity: number,
  area: number,
): void {
  const density = out.density[i]!;
  const weight = reference * GRAVITY_MS2;
  /** head per coefficient and (kg/s)² */
  const velocityHead = 1 / (2 * density * area * area * weight);
  let forward = 0;
  let backward: number | undefined;
  switch (law.kind) {
    case 'pipe':
    case 'coil': {
      if (!(law.length_m >= 0 && law.length_m < Infinity)) fail(link, 'length', law.length_m, '[0, ∞) m');
      const relative = law.roughness_m / law.bore_m;
      if (!(relative >= 0 && relative <= 0.05)) fail(link, 'roughness over bore', relative, '[0, 0.05]');
      out.kind[i] = law.length_m > 0 ? PIPE : PLAIN;
      out.scale[i] = (law.length_m / law.bore_m) * velocityHead;
      out.roughness[i] = relative;
      forward = coefficient(link, law.minorLoss ?? 0) * velocityHead;
      if (law.kind === 'coil' && law.length_m > 0) {
        const ratio = law.bore_m / law.coilDiameter_m;
        if (!(ratio > 0 && ratio <= 0.5)) fail(link, 'bore over coil diameter', ratio, '(0, 0.5]');
        out.kind[i] = COIL;
        out.coilRatio[i] = ratio;
        out.coilCritical[i] = coilCriticalReynolds(ratio);
      }
      break;
    }
    case 'fitting':
      forward = coefficient(link, law.coefficient) * velocityHead;
      backward = coefficient(link, law.reverseCoefficient ?? law.coefficient) * velocityHead;
      break;
    case 'outlet':
      forward = coefficient(link, law.exitLoss ?? 1) * velocityHead;
      backward = coefficient(link, law.entranceLoss ?? 0.5) * velocityHead;
      break;
    case 'valve':
      if (!(law.kv_m3h >= 0)) fail(link, 'Kv', law.kv_m3h, '[0, ∞] m³/h');
      if (law.kv_m3h === 0) out.closed[i] = 1;
      // Δp = 1e5·(3600·m/(ρ·Kv))²·ρ/1000
      else forward = (1e5 * 3600 ** 2) / (law.kv_m3h * law.kv_m3h * density * 1000 * weight);
      break;
    case 'filter':
      if (!(law.k1 >= 0 && law.k1 < Infinity)) fail(link, 'k1', law.k1, '[0, ∞) 1/m³');
      out.line[i] = (law.k1 * viscosity) / (density * weight);
      if (!(law.k2 >= 0 && law.k2 < Infinity)) fail(link, 'k2', law.k2, '[0, ∞) 1/m⁴');
      forward = law.k2 / (density * weight);
      break;
    case 'device': {
      if (!(law.ratedLoss_Pa >= 0 && law.ratedLoss_Pa < Infinity))
        fail(link, 'rated loss', law.ratedLoss_Pa, '[0, ∞) Pa');
      if (!(law.ratedFlow_m3s > 0)) fail(link, 'rated flow', law.ratedFlow_m3s, '(0, ∞) m³/s');
      const rated = law.ratedFlow_m3s * reference;
      // known with water of about the reference density; quadratic in velocity, so over ρ
      forward = (law.ratedLoss_Pa / (rated * rated * weight)) * (reference / density);
      break;
    }
    case 'pump':
      if (!(law.speed >= 0 && law.speed < Infinity)) fail(link, 'speed', law.speed, '[0, ∞)');
      out.oneWay[i] = law.checkValve ? 1 : 0;
      if (law.speed === 0) {
        forward = coefficient(link, law.stoppedLoss ?? STOPPED_PUMP) * velocityHead;
      } else {
        out.kind[i] = PUMP;
        out.pumpSpeed[i] = law.speed;
        out.pumps[i] = preparePump(law.curve);
        // head of water of the link's density, on the reference
        out.scale[i] = density / reference;
      }
      break;
    case 'checkValve':
      forward = coefficient(link, law.coefficient) * velocityHead;
      out.oneWay[i] = 1;
      break;
  }
  out.quadForward[i] = forward;
  out.quadBackward[i] = backward ?? forward;
}

function coefficient(link: NetworkLink, k: number): number {
  if (!(k >= 0 && k < Infinity)) fail(link, 'loss coefficient', k, '[0, ∞)');
  return k;
}

function fail(link: NetworkLink, quantity: string, value: unknown, allowed: string): never {
  throw new DomainError(`${quantity} of ${link.id}`, value, allowed);
}

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

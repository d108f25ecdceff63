import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import { coilCriticalReynolds } from './coil';
import type { LinkLaw, NetworkDescription, NetworkLink } from './network-types';
import { LEAST_PUMP_SPEED, type PreparedPump, preparePump } from './pump';

/**
 * Under this Reynolds number quadratic losses go over to a straight line, with the same value and slope at
 * the join: creeping flow has no quadratic loss, and a slope of zero at rest would stop Newton (judgement).
 */
const CREEPING_RE = 50;
/** Loss coefficient of a stopped pump when none is given (judgement). */
const STOPPED_PUMP = 4;

/** Kinds of compiled law beyond line and square. */
export const PLAIN = 0;
export const PIPE = 1;
export const COIL = 2;
export const PUMP = 3;

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
      if (law.speed < LEAST_PUMP_SPEED) {
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

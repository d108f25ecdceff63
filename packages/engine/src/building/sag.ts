import { DomainError } from '../numeric/errors';

/** How a span is held: `simple` hinged at both ends; `end` the last span of a run over three equal spans. */
export type SpanKind = 'simple' | 'end';

/** Sag/(w·L⁴/EI): 5/384, and the end span of a continuous run (Roark; 0.00688 for three equal spans). */
const SAG_FACTOR: Record<SpanKind, number> = { simple: 5 / 384, end: 0.0069 };

/**
 * Steepest slope/(sag/L), at the outer support: 16/5, and 0.025/0.0069. A uniformly loaded span drains by
 * itself from this fall on.
 */
const SLOPE_FACTOR: Record<SpanKind, number> = { simple: 3.2, end: 3.6 };

/**
 * Sag of a filled pipe over one clear span, support face to support face.
 *
 *   simple: 5·w·L⁴/(384·E·I)      end span of a continuous run: 0.0069·w·L⁴/(E·I)
 *
 * Small-deflection theory: meant for sag under a twentieth of the span. E is the long-term, hot modulus of
 * the wall (PVC 1.2–1.5 GPa at 23 °C over years, about 0.8 GPa hot, assumed), not the catalogue's.
 *
 * @param weight       filled weight per length [N/m], ≥ 0
 * @param clearSpan    [m], ≥ 0
 * @param modulus      long-term modulus of the wall [Pa], > 0
 * @param secondMoment of the wall's section [m⁴], > 0
 * @param kind         how the span is held
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example sagOfSpan(4.134, 0.762, 0.8e9, 7.121e-9, 'end') // 0.0017
 */
export function sagOfSpan(
  weight: number,
  clearSpan: number,
  modulus: number,
  secondMoment: number,
  kind: SpanKind,
): number {
  if (!(weight >= 0 && weight < Infinity)) throw new DomainError('weight per length', weight, '[0, ∞) N/m');
  if (!(clearSpan >= 0 && clearSpan < Infinity)) throw new DomainError('clear span', clearSpan, '[0, ∞) m');
  if (!(modulus > 0 && modulus < Infinity)) throw new DomainError('modulus', modulus, '(0, ∞) Pa');
  if (!(secondMoment > 0 && secondMoment < Infinity))
    throw new DomainError('second moment of area', secondMoment, '(0, ∞) m⁴');
  return (SAG_FACTOR[kind] * weight * clearSpan ** 4) / (modulus * secondMoment);
}

/**
 * Clear span between the faces of supports: spacing of their centres less their bearing width.
 *
 * @param spacing centre to centre [m], > 0
 * @param bearing width that carries [m], 0 ≤ bearing < spacing
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example clearSpan(0.8, 0.038) // 0.762
 */
export function clearSpan(spacing: number, bearing: number): number {
  if (!(spacing > 0 && spacing < Infinity)) throw new DomainError('support spacing', spacing, '(0, ∞) m');
  if (!(bearing >= 0 && bearing < spacing)) throw new DomainError('bearing width', bearing, '[0, spacing) m');
  return spacing - bearing;
}

/**
 * Fall per length from which a uniformly loaded, straight pipe has no low point left: its steepest rise,
 * 3.2 × sag/span (simple) or 3.6 × sag/span (end span of a continuous run).
 *
 * @param sag  [m], ≥ 0
 * @param span [m], > 0
 * @param kind how the span is held
 * @returns [m/m]
 * @throws {DomainError} outside those ranges
 * @example leastDrainingFall(0.0017, 0.762, 'end') // 0.0080
 */
export function leastDrainingFall(sag: number, span: number, kind: SpanKind): number {
  return SLOPE_FACTOR[kind] * sagRatio(sag, span);
}

/**
 * Fall per length to build to: 4 × sag/span, because pipe is not straight, and twice the height error of a
 * support over the span on top, because one support may stand high and the next low.
 *
 * @param sag         [m], ≥ 0
 * @param span        [m], > 0
 * @param heightError of a support, either way [m], ≥ 0
 * @returns [m/m]
 * @throws {DomainError} outside those ranges
 * @example askedDrainingFall(0.0017, 0.762, 0) // 0.0089
 */
export function askedDrainingFall(sag: number, span: number, heightError: number): number {
  if (!(heightError >= 0 && heightError < Infinity))
    throw new DomainError('height error', heightError, '[0, ∞) m');
  return 4 * sagRatio(sag, span) + (2 * heightError) / span;
}

function sagRatio(sag: number, span: number): number {
  if (!(sag >= 0 && sag < Infinity)) throw new DomainError('sag', sag, '[0, ∞) m');
  if (!(span > 0 && span < Infinity)) throw new DomainError('span', span, '(0, ∞) m');
  return sag / span;
}

/**
 * Shape of a sagged span, 1 at its lowest. End span: hinge at the outer support (ξ = 0), moment 0.1·w·L² at
 * the inner one, as in three equal spans.
 *
 * @param position along the span over its length [–], 0…1
 * @param kind     how the span is held
 * @returns deflection over the sag [–]
 * @throws {DomainError} outside that range
 * @example spanShape(0.5, 'simple') // 1
 */
export function spanShape(position: number, kind: SpanKind): number {
  if (!(position >= 0 && position <= 1)) throw new DomainError('position in the span', position, '[0, 1]');
  const ξ = position;
  const uniform = (ξ - 2 * ξ ** 3 + ξ ** 4) / 24;
  if (kind === 'simple') return uniform / SAG_FACTOR.simple;
  return (uniform - (0.1 * (ξ - ξ ** 3)) / 6) / 0.006884;
}

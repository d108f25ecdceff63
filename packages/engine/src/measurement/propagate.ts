import { DomainError } from '../numeric/errors';
import { type Component, type Contribution, contributions, type Shape } from './component';
import { type Combined, combine } from './coverage';

/** An input quantity of a measurement model. */
export interface Input {
  name: string;
  value: number;
  standardUncertainty: number;
  /** Infinity when left out */
  dof?: number;
  /** normal when left out */
  shape?: Shape;
}

/** Correlation coefficient r of two inputs, by their place in the list. */
export interface Correlated {
  first: number;
  second: number;
  r: number;
}

export interface Propagated extends Combined {
  value: number;
  components: Component[];
  contributions: Contribution[];
}

/**
 * Law of propagation of uncertainty (JCGM 100:2008, 5.1 and 5.2), u_c² = ΣΣ c_i c_j u_i u_j r_ij, each c_i·u_i
 * found as half the change of the model between x_i − u_i and x_i + u_i (5.1.3, note 2).
 *
 * Welch–Satterthwaite holds for independent inputs only. Inputs joined by correlation, directly or through a
 * third, are therefore merged first into one component with their joint variance; it is taken as normal, since
 * r alone says nothing about shape, and its degrees of freedom are the smallest of the group: exact for n
 * simultaneous readings (all n − 1, as in annex H.2), on the wide side otherwise.
 *
 * @param model       f(x), [unit of the result]
 * @param inputs      values and standard uncertainties, ≥ 0
 * @param correlation pairs that are not independent; each pair once
 * @param coverage    probability of the interval [–]
 * @throws {DomainError} negative uncertainty, |r| > 1, a pair that is none, or r that cannot be together
 * @example propagate(([a, b]) => a * b, [{ name: 'a', value: 2, standardUncertainty: 0.1 }, …]).value
 */
export function propagate(
  model: (x: readonly number[]) => number,
  inputs: readonly Input[],
  correlation: readonly Correlated[] = [],
  coverage = 0.95,
): Propagated {
  const x = inputs.map((i) => i.value);
  const effects = inputs.map((input, i) => {
    const u = input.standardUncertainty;
    if (!(u >= 0 && u < Infinity))
      throw new DomainError(`standard uncertainty of ${input.name}`, u, '[0, ∞)');
    return (model(x.with(i, x[i]! + u)) - model(x.with(i, x[i]! - u))) / 2;
  });
  const components = groups(inputs.length, correlation).map((members) =>
    joined(members, inputs, effects, correlation),
  );
  const kept = components.filter((c) => c.effect !== 0);
  return {
    value: model(x),
    ...combine(kept, coverage),
    components: kept,
    contributions: contributions(kept),
  };
}

/** Sets of inputs joined by correlation. */
function groups(count: number, correlation: readonly Correlated[]): number[][] {
  const group = Array.from({ length: count }, (_, i) => i);
  for (const { first, second, r } of correlation) {
    if (!(first >= 0 && first < count && second >= 0 && second < count && first !== second))
      throw new DomainError('correlated pair', `${first}, ${second}`, `two of 0…${count - 1}`);
    if (!(Math.abs(r) <= 1)) throw new DomainError('correlation coefficient', r, '[−1, 1]');
    if (r === 0) continue;
    const from = group[second]!;
    const to = group[first]!;
    for (let i = 0; i < count; i++) if (group[i] === from) group[i] = to;
  }
  return [...new Set(group)].map((g) => group.flatMap((own, i) => (own === g ? [i] : [])));
}

function joined(
  members: readonly number[],
  inputs: readonly Input[],
  effects: readonly number[],
  correlation: readonly Correlated[],
): Component {
  const names = members.map((i) => inputs[i]!.name);
  const first = inputs[members[0]!]!;
  if (members.length === 1)
    return {
      source: first.name,
      label: first.name,
      effect: effects[members[0]!]!,
      dof: first.dof ?? Infinity,
      shape: first.shape ?? 'normal',
    };
  let variance = members.reduce((sum, i) => sum + effects[i]! ** 2, 0);
  const scale = variance;
  for (const { first: i, second: j, r } of correlation)
    if (members.includes(i)) variance += 2 * r * effects[i]! * effects[j]!; // JCGM 100 eq. 16
  if (!(variance >= -1e-9 * scale)) throw new DomainError('joint variance', variance, '[0, ∞)');
  return {
    source: names.join('+'),
    label: `${names.join(', ')} together`,
    effect: Math.sqrt(Math.max(0, variance)),
    dof: Math.min(...members.map((i) => inputs[i]!.dof ?? Infinity)),
    shape: 'normal',
  };
}

import { DomainError } from '../numeric/errors';
import type { Random } from '../numeric/random';
import { drawNormal, drawRectangular, drawStudent, drawTriangular } from '../numeric/random-draws';
import { mean, standardDeviation } from '../numeric/statistics';
import { normalCdf } from '../numeric/statistics-normal';
import type { Correlated, Input } from './propagate';

export interface Simulated {
  value: number;
  standardUncertainty: number;
  /** ends of the probabilistically symmetric interval */
  lower: number;
  upper: number;
  /** model values, ascending */
  draws: Float64Array;
}

/**
 * Propagation of distributions by drawing (JCGM 101:2008, clause 7). Inputs with finite degrees of freedom are
 * drawn from a scaled and shifted t (6.4.9), limits from their rectangle or triangle. Correlated inputs are
 * drawn through a Gaussian copula; between two rectangles its coefficient is 2·sin(πr/6), which gives the
 * rectangles themselves the correlation r. In a correlated model, inputs with finite degrees of freedom are
 * drawn normal.
 *
 * @param model       f(x) [unit of the result]
 * @param inputs      as for `propagate`
 * @param random      seeded stream
 * @param draws       how many [–], ≥ 100
 * @param correlation pairs that are not independent
 * @param coverage    probability of the interval [–]
 * @throws {DomainError} too few draws, or correlations that cannot be together
 * @example simulate(([a, b]) => a + b, inputs, createRandom(1), 100_000)
 */
export function simulate(
  model: (x: readonly number[]) => number,
  inputs: readonly Input[],
  random: Random,
  draws: number,
  correlation: readonly Correlated[] = [],
  coverage = 0.95,
): Simulated {
  if (!(draws >= 100)) throw new DomainError('draws', draws, '≥ 100');
  const root = correlation.length > 0 ? choleskyOf(inputs, correlation) : undefined;
  const values = new Float64Array(draws);
  for (let k = 0; k < draws; k++) {
    const x = root
      ? correlatedDraw(inputs, root, random)
      : inputs.map((i) => i.value + i.standardUncertainty * standardDraw(i, random));
    values[k] = model(x);
  }
  values.sort();
  const tail = Math.floor((draws * (1 - coverage)) / 2);
  const list = Array.from(values);
  return {
    value: mean(list),
    standardUncertainty: standardDeviation(list),
    lower: values[tail]!,
    upper: values[draws - 1 - tail]!,
    draws: values,
  };
}

function standardDraw(input: Input, random: Random): number {
  if (input.dof !== undefined && input.dof < Infinity) return drawStudent(random, input.dof);
  if (input.shape === 'rectangular') return Math.sqrt(3) * drawRectangular(random);
  if (input.shape === 'triangular') return Math.sqrt(6) * drawTriangular(random);
  return drawNormal(random);
}

function correlatedDraw(inputs: readonly Input[], root: readonly number[][], random: Random): number[] {
  const z = inputs.map(() => drawNormal(random));
  return inputs.map((input, i) => {
    const y = root[i]!.reduce((sum, l, j) => sum + l * z[j]!, 0);
    return input.value + input.standardUncertainty * shaped(input, y);
  });
}

function shaped(input: Input, y: number): number {
  if (input.shape === 'rectangular') return Math.sqrt(3) * (2 * normalCdf(y) - 1);
  if (input.shape === 'triangular') {
    const p = normalCdf(y);
    return Math.sqrt(6) * (p < 0.5 ? Math.sqrt(2 * p) - 1 : 1 - Math.sqrt(2 * (1 - p)));
  }
  return y;
}

function choleskyOf(inputs: readonly Input[], correlation: readonly Correlated[]): number[][] {
  const n = inputs.length;
  const matrix: number[][] = inputs.map((_, i) => inputs.map((__, j) => (i === j ? 1 : 0)));
  for (const { first, second, r } of correlation) {
    const boxes = inputs[first]!.shape === 'rectangular' && inputs[second]!.shape === 'rectangular';
    matrix[first]![second] = boxes ? 2 * Math.sin((Math.PI * r) / 6) : r;
    matrix[second]![first] = matrix[first]![second]!;
  }
  const root = matrix.map((row) => row.map(() => 0));
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= root[i]![k]! * root[j]![k]!;
      if (i === j) {
        if (!(rest > -1e-9)) throw new DomainError('correlation matrix', rest, 'positive semi-definite');
        root[i]![i] = Math.sqrt(Math.max(0, rest));
      } else root[i]![j] = root[j]![j]! > 0 ? rest / root[j]![j]! : 0;
    }
  return root;
}

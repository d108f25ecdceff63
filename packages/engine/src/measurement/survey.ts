import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { normalQuantile } from '../numeric/statistics-normal';

/** A tube of the bank as a survey sees it. */
export interface SurveyTube {
  name: string;
  /** flow the network gives it when nothing is wrong [m³/s] */
  networkFlow_m3s: number;
  /** temperature at its outlet for a flow through it [°C]; at flow 0 its equilibrium temperature */
  outlet_C: (flow_m3s: number) => number;
  /** of a tube that stands still, how likely air rather than dirt is the reason [–]; 0.5 when nothing is known */
  airShare?: number;
}

/** What is believed before the survey. All of it common practice, judged. */
export interface SurveyPrior {
  /** relative standard uncertainty of the network's flow in one sound tube [–] */
  flowSpread: number;
  /** probability that a tube stands still [–] */
  still: number;
  /** probability that it is choked to 5…60 % of its flow [–] */
  choked: number;
  /** relative standard uncertainty common to all tubes of outlet minus inlet temperature [–]: sun, wind, total flow */
  riseSpread: number;
}

export const SURVEY_PRIOR: SurveyPrior = { flowSpread: 0.15, still: 0.04, choked: 0.03, riseSpread: 0.1 };

export interface TubeFinding {
  name: string;
  /** its part of the flow [–], posterior mean, with the 95 % interval */
  share: number;
  lower: number;
  upper: number;
  /** its part by the network [–] */
  networkShare: number;
  /** probabilities; they add to 1 */
  runs: number;
  choked: number;
  blocked: number;
  airBound: number;
  finding: 'runs' | 'choked' | 'blocked' | 'airBound';
}

export interface SurveyResult {
  tubes: TubeFinding[];
  /** names of tubes that more likely than not do not run as they should, most certain first */
  suspects: string[];
  notices: Notice[];
}

/** Flows a tube may have, as parts of the network's, with their prior weights. */
interface Hypothesis {
  factor: number;
  weight: number;
  state: 'runs' | 'choked' | 'still';
  /** what its outlet may be off by alone, as a share of its rise above the inlet [–] */
  ownSpread: number;
}

/**
 * Tube hypotheses: a sound tube log-normal about the network's flow, a choked one log-uniform from 5 to 60 %,
 * one that stands still. A slow tube sits nearer its equilibrium, which wind and shade move tube by tube: its outlet
 * gets a spread of its own. Each distribution is cut into pieces of equal probability.
 */
function hypotheses(prior: SurveyPrior): Hypothesis[] {
  const sound = 31;
  const choked = 48;
  const runs = 1 - prior.still - prior.choked;
  const list: Hypothesis[] = [
    { factor: 0, weight: prior.still, state: 'still', ownSpread: prior.riseSpread },
  ];
  for (let i = 0; i < choked; i++)
    list.push({
      factor: 0.05 * 12 ** ((i + 0.5) / choked),
      weight: prior.choked / choked,
      state: 'choked',
      ownSpread: prior.riseSpread / 2,
    });
  for (let i = 0; i < sound; i++)
    list.push({
      factor: Math.exp(prior.flowSpread * normalQuantile((i + 0.5) / sound)),
      weight: runs / sound,
      state: 'runs',
      ownSpread: 0,
    });
  return list;
}

/**
 * Bayes' rule for a bank: every tube is independent once what is common to all of them (a shift of the
 * thermometer, a scale of all rises, where a hand draws its lines) is fixed; that common part is summed over.
 * Shares are flows over the sum of the posterior mean flows.
 *
 * @param tubes      at least two
 * @param prior      what is believed before
 * @param commons    values of the common part, of equal prior weight, each with its scale of all rises
 * @param likelihood probability (density) of what was found at tube i if its outlet were at so many °C, give or take its own spread [K]
 * @param inlet      inlet temperature [°C]
 * @throws {DomainError} fewer than two tubes, a network flow not above 0, or probabilities that are none
 * @example surveyed(tubes, SURVEY_PRIOR, commons, likelihood, 28).suspects // ['bank 1 tube 7']
 */
export function surveyed<C extends { scale: number }>(
  tubes: readonly SurveyTube[],
  prior: SurveyPrior,
  commons: readonly C[],
  likelihood: (tube: number, outlet_C: number, own_K: number, common: C) => number,
  inlet: number,
): SurveyResult {
  if (!(tubes.length >= 2)) throw new DomainError('number of tubes', tubes.length, '≥ 2');
  if (!(prior.still >= 0 && prior.choked >= 0 && prior.still + prior.choked < 1))
    throw new DomainError('probability of faults', prior.still + prior.choked, '[0, 1)');
  const list = hypotheses(prior);
  const outlets = tubes.map((tube) => {
    if (!(tube.networkFlow_m3s > 0 && tube.networkFlow_m3s < Infinity))
      throw new DomainError(`network flow of ${tube.name}`, tube.networkFlow_m3s, '(0, ∞) m³/s');
    return list.map((h) => tube.outlet_C(h.factor * tube.networkFlow_m3s));
  });
  const posterior = posteriors(list, outlets, commons, likelihood, inlet);
  return findings(tubes, list, posterior);
}

/** Probability of each hypothesis of each tube, the common part summed over. */
function posteriors<C extends { scale: number }>(
  list: readonly Hypothesis[],
  outlets: readonly number[][],
  commons: readonly C[],
  likelihood: (tube: number, outlet_C: number, own_K: number, common: C) => number,
  inlet: number,
): Float64Array[] {
  const count = list.length;
  const sums = outlets.map(() => new Float64Array(count));
  let top = -Infinity;
  for (const common of commons) {
    let log = 0;
    const joint = new Float64Array(outlets.length * count);
    for (const [i, row] of outlets.entries()) {
      let total = 0;
      for (let k = 0; k < count; k++) {
        const { weight, ownSpread } = list[k]!;
        const rise = row[k]! - inlet;
        const p = weight * likelihood(i, inlet + common.scale * rise, ownSpread * Math.abs(rise), common);
        joint[i * count + k] = p;
        total += p;
      }
      // nothing fits: the tube says nothing about itself or the common part
      if (!(total > 0)) for (let k = 0; k < count; k++) joint[i * count + k] = list[k]!.weight;
      else for (let k = 0; k < count; k++) joint[i * count + k]! /= total;
      log += Math.log(Math.max(total, 1e-300));
    }
    // running sums relative to the likeliest common value so far
    if (log > top) {
      const shrink = Math.exp(top - log);
      for (const tube of sums) for (let k = 0; k < count; k++) tube[k]! *= shrink;
      top = log;
    }
    const weight = Math.exp(log - top);
    if (weight < 1e-9) continue;
    sums.forEach((tube, i) => {
      for (let k = 0; k < count; k++) tube[k]! += weight * joint[i * count + k]!;
    });
  }
  return sums.map((tube) => {
    const total = tube.reduce((sum, p) => sum + p, 0);
    return tube.map((p) => p / total);
  });
}

function findings(
  tubes: readonly SurveyTube[],
  list: readonly Hypothesis[],
  posterior: readonly Float64Array[],
): SurveyResult {
  const flows = tubes.map((tube, i) =>
    list.reduce((sum, h, k) => sum + posterior[i]![k]! * h.factor * tube.networkFlow_m3s, 0),
  );
  const total = flows.reduce((sum, v) => sum + v, 0);
  const network = tubes.reduce((sum, tube) => sum + tube.networkFlow_m3s, 0);
  const found = tubes.map((tube, i): TubeFinding => {
    const p = (state: Hypothesis['state']) =>
      list.reduce((sum, h, k) => (h.state === state ? sum + posterior[i]![k]! : sum), 0);
    const still = p('still');
    const air = tube.airShare ?? 0.5;
    const [lower, upper] = interval(list, posterior[i]!);
    const odds = { runs: p('runs'), choked: p('choked'), blocked: still * (1 - air), airBound: still * air };
    const faulty = odds.runs < 0.5;
    const stillName = air > 0.5 ? 'airBound' : 'blocked';
    return {
      name: tube.name,
      share: flows[i]! / total,
      lower: (lower * tube.networkFlow_m3s) / total,
      upper: (upper * tube.networkFlow_m3s) / total,
      networkShare: tube.networkFlow_m3s / network,
      ...odds,
      finding: faulty ? (still >= odds.choked ? stillName : 'choked') : 'runs',
    };
  });
  const suspects = found.filter((t) => t.finding !== 'runs').sort((a, b) => a.runs - b.runs);
  const notices: Notice[] = suspects.map((t) => ({
    code: `tube-${t.finding === 'airBound' ? 'air-bound' : t.finding}`,
    severity: 'heat',
    path: `/tubes/${tubes.findIndex((tube) => tube.name === t.name)}`,
    message: `${t.name} is likely ${{ choked: 'choked', blocked: 'blocked', airBound: 'air-bound', runs: '' }[t.finding]} (${Math.round((1 - t.runs) * 100)} %).`,
    remedy:
      t.finding === 'airBound'
        ? 'Open its high point or run the pump at full flow.'
        : 'Flush it backwards; if it stays hot, replace it.',
  }));
  return { tubes: found, suspects: suspects.map((t) => t.name), notices };
}

/** Ends of the 95 % interval of the flow factor. */
function interval(list: readonly Hypothesis[], p: Float64Array): [number, number] {
  const order = list.map((_, k) => k).sort((a, b) => list[a]!.factor - list[b]!.factor);
  let sum = 0;
  let lower: number | undefined;
  let upper = 0;
  for (const k of order) {
    sum += p[k]!;
    if (lower === undefined && sum >= 0.025) lower = list[k]!.factor;
    upper = list[k]!.factor;
    if (sum >= 0.975) break;
  }
  return [lower ?? upper, upper];
}

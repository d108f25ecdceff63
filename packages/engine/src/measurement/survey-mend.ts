import { DomainError } from '../numeric/errors';
import type { SurveyResult } from './survey';

export interface Mending {
  /** heat now, by the shares found [W] */
  now_W: number;
  /** heat with every suspect running as the network says [W] */
  mended_W: number;
  gain_W: number;
  /** what mending one alone brings, and that times the probability that it needs mending; best first */
  tubes: { name: string; gain_W: number; expectedGain_W: number }[];
}

/**
 * What mending brings: the heat of the bank with suspects restored to their network share, the others giving
 * way in proportion, less the heat by the shares found.
 *
 * @param survey result of a touch or tube survey
 * @param heat   heat of the bank [W] for shares of its flow that add to 1
 * @throws {DomainError} heat not finite
 * @example mending(tubeSurvey(...), heatOfShares).gain_W // 420
 */
export function mending(survey: SurveyResult, heat: (shares: readonly number[]) => number): Mending {
  const checked = (shares: readonly number[]): number => {
    const q = heat(shares);
    if (!Number.isFinite(q)) throw new DomainError('heat of the bank', q, 'finite W');
    return q;
  };
  const found = survey.tubes.map((t) => t.share);
  const now = checked(found);
  const restored = (names: ReadonlySet<string>): number[] => {
    const fixed = survey.tubes.reduce((sum, t) => (names.has(t.name) ? sum + t.networkShare : sum), 0);
    const rest = survey.tubes.reduce((sum, t) => (names.has(t.name) ? sum : sum + t.share), 0);
    if (rest === 0) return survey.tubes.map((t) => t.networkShare);
    return survey.tubes.map((t) => (names.has(t.name) ? t.networkShare : (t.share * (1 - fixed)) / rest));
  };
  const mended = survey.suspects.length > 0 ? checked(restored(new Set(survey.suspects))) : now;
  const tubes = survey.suspects
    .map((name) => {
      const gain = checked(restored(new Set([name]))) - now;
      const tube = survey.tubes.find((t) => t.name === name)!;
      return { name, gain_W: gain, expectedGain_W: gain * (1 - tube.runs) };
    })
    .sort((a, b) => b.expectedGain_W - a.expectedGain_W);
  return { now_W: now, mended_W: mended, gain_W: mended - now, tubes };
}

import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { normalCdf } from '../numeric/statistics-normal';
import { SURVEY_PRIOR, type SurveyPrior, type SurveyResult, type SurveyTube, surveyed } from './survey';
import { contrast, normalPieces } from './survey-tube';

export type Touch = 'cool' | 'warm' | 'hot';

export interface TouchSurvey {
  tubes: readonly SurveyTube[];
  inlet_C: number;
  /** what the hand found at each outlet; null where it was not laid on */
  felt: readonly (Touch | null)[];
  /** two when the person only told cool from hot */
  levels: 2 | 3;
  /** standard uncertainty of a hand comparing tubes [K]; 0.8 is common practice */
  hand_K?: number;
  /** part of the tubes written down wrongly [–]; 0.03 is common practice */
  lapse?: number;
  prior?: SurveyPrior;
}

const LINES = 10;
const SCALES = 5;

/**
 * Touch survey: the hand sorts the outlets into two or three levels. Where it draws its lines is not known;
 * any place between the inlet and the hottest a tube could be is as likely as any other and is summed over. A tube at
 * T is put above a line at c with probability Φ((T − c)/σ_hand), and with a small probability at any level by
 * lapse.
 *
 * @param survey a person's findings
 * @returns each tube's share with interval beside the network's, suspects, notices
 * @throws {DomainError} lists of different length, `warm` with two levels, a hand or lapse out of range
 * @example touchSurvey({ tubes, inlet_C: 28, felt: ['cool', 'cool', 'hot'], levels: 2 }).suspects
 */
export function touchSurvey(survey: TouchSurvey): SurveyResult {
  const { tubes, inlet_C, felt, levels, hand_K = 0.8, lapse = 0.03 } = survey;
  if (felt.length !== tubes.length)
    throw new DomainError('number of findings', felt.length, String(tubes.length));
  if (!(hand_K > 0 && hand_K < Infinity)) throw new DomainError('hand', hand_K, '(0, ∞) K');
  if (!(lapse >= 0 && lapse < 0.5)) throw new DomainError('lapse', lapse, '[0, 0.5)');
  if (levels === 2 && felt.includes('warm'))
    throw new DomainError('finding', 'warm', 'cool or hot with two levels');
  const prior = survey.prior ?? SURVEY_PRIOR;
  const still = tubes.map((t) => t.outlet_C(0));
  const lines = placesOfLines(Math.min(inlet_C, ...still), Math.max(inlet_C, ...still), levels);
  const commons = lines.flatMap((line) =>
    normalPieces(SCALES).map((b) => ({ line, scale: Math.exp(prior.riseSpread * b) })),
  );
  const above = normalTable();
  const result = surveyed(
    tubes,
    prior,
    commons,
    (i, outlet, own, { line }) => {
      const found = felt[i];
      if (found === null || found === undefined) return 1;
      const σ = Math.sqrt(hand_K ** 2 + own ** 2);
      const first = above((outlet - line[0]!) / σ);
      const last = above((outlet - line.at(-1)!) / σ);
      const right = found === 'cool' ? 1 - first : found === 'hot' ? last : Math.max(0, first - last);
      return (1 - lapse) * right + lapse / levels;
    },
    inlet_C,
  );
  const again: Notice[] =
    result.suspects.length === 0
      ? []
      : [
          {
            code: 'survey-touch-again',
            severity: 'info',
            path: '',
            message: 'One slip of the pencil looks like a still tube.',
            remedy: `Lay your hand on ${result.suspects.join(', ')} once more before mending anything.`,
          },
        ];
  return { ...result, notices: [...contrast(tubes, inlet_C, hand_K), ...result.notices, ...again] };
}

function placesOfLines(low: number, high: number, levels: 2 | 3): number[][] {
  const places = Array.from({ length: LINES }, (_, i) => low + ((high - low) * (i + 0.5)) / LINES);
  if (levels === 2) return places.map((c) => [c]);
  return places.flatMap((a, i) => places.slice(i + 1).map((b) => [a, b]));
}

/** Φ from a table, linear between steps of 0.02: good to 5e-5, a hundred times as fast. */
function normalTable(): (x: number) => number {
  const values = Float64Array.from({ length: 502 }, (_, i) => normalCdf(-5 + 0.02 * i));
  return (x) => {
    const place = Math.min(500, Math.max(0, (x + 5) / 0.02));
    const i = Math.floor(place);
    return values[i]! + (place - i) * (values[i + 1]! - values[i]!);
  };
}

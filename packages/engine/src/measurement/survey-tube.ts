import { DomainError } from '../numeric/errors';
import { exact } from '../numeric/exact';
import type { Notice } from '../numeric/notice';
import { normalQuantile } from '../numeric/statistics-normal';
import { SURVEY_PRIOR, type SurveyPrior, type SurveyResult, type SurveyTube, surveyed } from './survey';

/**
 * Temperature at a tube's outlet, T_eq + (T_in − T_eq)·exp(−F′U′L/(ρc·V̇)).
 *
 * @param inlet       T_in [°C]
 * @param equilibrium T_eq = T_e + S′/U′, where the tube would come to rest [°C]
 * @param conductance F′U′L of the whole tube [W/K], > 0
 * @param capacity    ρc [J/m³K], > 0
 * @param flow        V̇ through the tube [m³/s], ≥ 0
 * @throws {DomainError} outside those ranges
 * @example tubeOutlet(28, 31.575, 33.0, 4.16e6, 6.667e-5) // 28.40
 */
export function tubeOutlet(
  inlet: number,
  equilibrium: number,
  conductance: number,
  capacity: number,
  flow: number,
): number {
  if (!(conductance > 0)) throw new DomainError('conductance of the tube', conductance, '(0, ∞) W/K');
  if (!(capacity > 0)) throw new DomainError('volumetric heat capacity', capacity, '(0, ∞) J/m³K');
  if (!(flow >= 0)) throw new DomainError('flow', flow, '[0, ∞) m³/s');
  if (flow === 0) return equilibrium;
  return equilibrium + (inlet - equilibrium) * Math.exp(-conductance / (capacity * flow));
}

export interface TubeSurvey {
  tubes: readonly SurveyTube[];
  inlet_C: number;
  /** temperature found at each tube's outlet [°C]; null where none was taken */
  outlets_C: readonly (number | null)[];
  /** standard uncertainty of one of them against the others [K] */
  noise_K: number;
  /** standard uncertainty common to all: thermometer against the inlet's [K]; 0.3 when left out */
  shift_K?: number;
  prior?: SurveyPrior;
}

const SHIFTS = 9;
const SCALES = 7;

/**
 * Tube survey: with inlet temperature, equilibrium and NTU(flow) known, a tube's outlet temperature tells its
 * flow; the network's flow is the prior. Errors common to the bank (thermometer, sun, wind, total flow) are
 * summed over, so that the tubes are judged against each other. A lapse of three readings in a thousand, uniform
 * over 20 K, keeps one wild reading from overruling all else.
 *
 * @param survey a person's readings
 * @returns each tube's share with interval beside the network's, suspects, notices
 * @throws {DomainError} noise not above 0, lists of different length, and as `surveyed`
 * @example tubeSurvey({ tubes, inlet_C: 28, outlets_C: [28.4, 28.4, 31.5], noise_K: 0.2 }).suspects
 */
export function tubeSurvey(survey: TubeSurvey): SurveyResult {
  const { tubes, inlet_C, outlets_C, noise_K } = survey;
  if (!(noise_K > 0 && noise_K < Infinity)) throw new DomainError('noise', noise_K, '(0, ∞) K');
  if (outlets_C.length !== tubes.length)
    throw new DomainError('number of outlet temperatures', outlets_C.length, String(tubes.length));
  const prior = survey.prior ?? SURVEY_PRIOR;
  const shift = survey.shift_K ?? 0.3;
  const commons = normalPieces(SHIFTS).flatMap((a) =>
    normalPieces(SCALES).map((b) => ({ shift: shift * a, scale: Math.exp(prior.riseSpread * b) })),
  );
  const result = surveyed(
    tubes,
    prior,
    commons,
    (i, outlet, own, common) => {
      const found = outlets_C[i];
      if (found === null || found === undefined || !Number.isFinite(found)) return 1;
      const σ = Math.sqrt(noise_K ** 2 + own ** 2);
      const z = (found - outlet - common.shift) / σ;
      return (0.997 * Math.exp(-0.5 * z * z)) / (Math.sqrt(2 * Math.PI) * σ) + 0.003 / 20;
    },
    inlet_C,
  );
  return { ...result, notices: [...contrast(tubes, inlet_C, noise_K), ...result.notices] };
}

/** Middles of equally likely pieces of a normal distribution. */
export function normalPieces(count: number): number[] {
  return Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
}

/** Without sun a tube that stands still is no warmer than one that runs. */
export function contrast(tubes: readonly SurveyTube[], inlet: number, noise: number): Notice[] {
  const widest = Math.max(...tubes.map((t) => Math.abs(t.outlet_C(0) - t.outlet_C(t.networkFlow_m3s))));
  if (widest > 3 * noise) return [];
  return [
    {
      code: 'survey-no-contrast',
      severity: 'unsure',
      path: '',
      message: `A blocked tube would differ from a running one by only ${exact(widest)} K; this survey can hardly tell them apart.`,
      remedy: `Survey in full sun with the water well below what a still tube reaches (inlet now ${exact(inlet)} °C), or throttle the flow.`,
    },
  ];
}

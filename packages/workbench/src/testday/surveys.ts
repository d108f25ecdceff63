import type { SurveyResult, SurveyTube } from '@sunlap/engine/measurement/survey';
import { mending } from '@sunlap/engine/measurement/survey-mend';
import { touchSurvey } from '@sunlap/engine/measurement/survey-touch';
import { tubeSurvey } from '@sunlap/engine/measurement/survey-tube';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import type { Say } from '../flow/say';
import type { SolvedHeat } from '../heat/solve-heat';
import { inTheirUnits } from './day-notices';
import { type TubeModel, tubeModels } from './tube-model';
import type { BankMending, TubeShare } from './values';

export interface SurveysFound {
  readonly tubes: TubeShare[];
  readonly mending: BankMending[];
  readonly notices: Notice[];
}

/** Holding a thermometer to tube after tube: contact and sun, whatever its class [K]; judgement. */
const CONTACT_K = 0.3;
/** Without a named thermometer [K]. */
const USUAL_NOISE_K = 0.5;

/**
 * Touch and tube surveys of a day, bank by bank: each tube's share with its interval beside the network's, the
 * tubes that likely do not run, and what mending them brings. Where a bank was surveyed both ways the thermometer
 * counts. Tubes that the as-built state knows as plugged are left out.
 *
 * @param solved flow and heat of that hour, with every tube that should run running
 * @param path   of the day in the project file
 */
export function surveys(
  project: Project,
  day: TestDay,
  solved: SolvedHeat,
  path: string,
  say: Say,
): SurveysFound {
  const found: SurveysFound = { tubes: [], mending: [], notices: [] };
  const { geometry } = solved.flow.assembled;
  const felt = day.touch ?? [];
  const read = day.tubes ?? [];
  const levels = felt.some((t) => t.feel === 'warm') ? 3 : 2;
  geometry.banks.forEach((at, place) => {
    const section = project.collector.sections[at.section];
    const bank = section.banks[at.bank];
    const here = (t: { section: string; bank: string }): boolean =>
      t.section === section.id && t.bank === bank.id;
    const byHand = felt.filter(here);
    const byNumber = read.filter(here);
    if (byHand.length === 0 && byNumber.length === 0) return;
    const models = tubeModels(solved, place);
    const by = byNumber.length > 0 ? 'temperature' : 'touch';
    const list = by === 'temperature' ? 'tubes' : 'touch';
    const first = (by === 'temperature' ? read : felt).findIndex(here);
    if (models.length < 2) {
      found.notices.push(tooFew(bank.name ?? bank.id, `${path}/${list}/${first}`));
      return;
    }
    const inlet_C = mean(models.map((m) => m.inlet_C));
    const tubes = models.map(
      (m): SurveyTube => ({
        name: `${bank.id} tube ${m.position}`,
        networkFlow_m3s: m.networkFlow_m3s,
        outlet_C: m.outlet_C,
      }),
    );
    const result =
      by === 'temperature'
        ? tubeSurvey({
            tubes,
            inlet_C,
            outlets_C: models.map((m) => byNumber.findLast((t) => t.tube === m.position)?.value_C ?? null),
            noise_K: noiseOf(day),
          })
        : touchSurvey({
            tubes,
            inlet_C,
            felt: models.map((m) => byHand.findLast((t) => t.tube === m.position)?.feel ?? null),
            levels,
          });
    const repaired = mend(result, models);
    found.tubes.push(
      ...result.tubes.map((t, i): TubeShare => {
        const { name, ...rest } = t;
        return {
          section: section.id,
          bank: bank.id,
          tube: models[i].position,
          by,
          ...rest,
          gain_W: repaired.tubes.find((x) => x.name === name)?.gain_W ?? null,
        };
      }),
    );
    found.notices.push(
      ...result.notices.map((n) => ({
        ...n,
        message: inTheirUnits(n.message, project.units),
        ...(n.remedy === undefined ? {} : { remedy: inTheirUnits(n.remedy, project.units) }),
        path: pathOf(n.path, models, { byHand, byNumber }, felt, read, path),
      })),
    );
    if (result.suspects.length === 0) return;
    const suspects = result.tubes.flatMap((t, i) => (t.finding === 'runs' ? [] : [models[i].position]));
    const { now_W, mended_W, gain_W } = repaired;
    found.mending.push({ section: section.id, bank: bank.id, suspects, now_W, mended_W, gain_W });
    if (gain_W > 0)
      found.notices.push({
        code: 'mending-brings',
        severity: 'heat',
        path: `${path}/${list}`,
        message: `With ${suspects.length === 1 ? 'that tube' : `those ${suspects.length} tubes`} of ${bank.name ?? bank.id} running again it would bring ${say(gain_W, 'heatRate')} more just now.`,
        remedy: 'Feel them once more, then clear, couple or plug them.',
      });
  });
  return found;
}

/**
 * Heat of the bank by shares of its flow, each tube by its own curve. A tube found still counts as still: its mean share
 * would be that of a slow tube, and a slow tube brings nearly as much heat as a sound one.
 */
function mend(result: SurveyResult, models: readonly TubeModel[]): ReturnType<typeof mending> {
  const total = models.reduce((sum, m) => sum + m.networkFlow_m3s, 0);
  const still = (t: SurveyResult['tubes'][number]): boolean =>
    t.finding === 'blocked' || t.finding === 'airBound';
  const left = result.tubes.reduce((sum, t) => (still(t) ? sum : sum + t.share), 0);
  const tubes =
    left > 0 ? result.tubes.map((t) => ({ ...t, share: still(t) ? 0 : t.share / left })) : result.tubes;
  return mending({ ...result, tubes }, (shares) =>
    shares.reduce((sum, share, i) => sum + models[i].heat_W(share * total), 0),
  );
}

function noiseOf(day: TestDay): number {
  const t = day.tubeThermometer ?? day.outlet?.thermometer;
  if (!t) return USUAL_NOISE_K;
  return Math.hypot(CONTACT_K, t.resolution_K / Math.sqrt(12));
}

/** The engine counts tubes of the bank; the file lists findings in the order in which they were taken. */
function pathOf(
  given: string,
  models: readonly TubeModel[],
  here: { byHand: readonly object[]; byNumber: readonly { tube: number }[] },
  felt: readonly { tube: number }[],
  read: readonly { tube: number }[],
  path: string,
): string {
  const list = here.byNumber.length > 0 ? 'tubes' : 'touch';
  const match = /^\/tubes\/(\d+)$/.exec(given);
  if (!match) return `${path}/${list}`;
  const tube = models[Number(match[1])].position;
  const mine = (list === 'tubes' ? here.byNumber : here.byHand) as readonly { tube: number }[];
  const row = mine.find((t) => t.tube === tube);
  const all = list === 'tubes' ? read : felt;
  return row === undefined ? `${path}/${list}` : `${path}/${list}/${all.indexOf(row)}`;
}

function tooFew(name: string, path: string): Notice {
  return {
    code: 'survey-too-few',
    severity: 'unsure',
    path,
    message: `${name} has fewer than two tubes with water in this state; there is nothing to compare.`,
  };
}

const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;

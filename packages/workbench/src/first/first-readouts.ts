import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { sayIn } from '../flow/say';
import { heat } from '../heat/heat';
import type { MomentOptions } from '../heat/moment';
import type { HeatAnswer, Interval, SolverReport } from '../results';
import { type DoubtBand, doubtBand, joinBands, widen } from './doubt-band';
import { type NextStep, nextStep } from './next-step';
import { referenceMoment } from './reference-moment';
import { roughCost } from './rough-cost';
import type { StepState } from './step-effect';

/** The own panel on the home screen. */
export interface FirstReadouts {
  readonly moment: MomentOptions;
  readonly heat_W: number;
  /** Rivals of the model and the person's "don't know"s together. */
  readonly heatBand_W: Interval;
  readonly poolPerSunnyDay_K: number;
  readonly poolPerSunnyDayBand_K: Interval;
  readonly tubesWithoutWater: number;
  readonly tubes: number;
  readonly flow_m3s: number;
  readonly flowBand_m3s: Interval;
  /** The one that is worth most; null when there is nothing to say. */
  readonly notice: Notice | null;
  readonly next: NextStep;
  readonly doubts: DoubtBand;
  readonly state: StepState;
  readonly solver: SolverReport;
}

export interface FirstOptions {
  readonly moment?: MomentOptions;
  /** Whether it is planned or stands; one with test days or as-built states stands. */
  readonly as?: 'planner' | 'owner';
  /** Full answer of that moment, where it is at hand. */
  readonly answer?: HeatAnswer;
}

/**
 * What both doors end in: three readouts with bands, the one notice worth most, the next cheap step. For when the
 * person rests; while something is dragged `stepState` follows.
 *
 * @example firstReadouts(startProject(usualAnswers('us'))).heat_W
 */
export function firstReadouts(project: Project, options: FirstOptions = {}): FirstReadouts {
  const moment = options.moment ?? referenceMoment(project);
  const answer = options.answer ?? heat(project, moment);
  const { result, flow, band } = answer;
  const doubts = doubtBand(project, moment, { base: answer });
  const { relative } = doubts;
  const own = (key: string, value: number): Interval => band[key] ?? { low: value, high: value };
  const heatBand = own('heat_W', result.heat_W);
  const day = result.poolPerSunnyDay_K;
  // a day's heat is as unsure as the hour's
  const share = (x: number): number => (result.heat_W > 0 ? (day * x) / result.heat_W : day);
  const dayOwn = { low: share(heatBand.low), high: share(heatBand.high) };
  const flow_m3s = flow.result.collectorFlow_m3s;
  const flowOwn = flow.band.collectorFlow_m3s ?? { low: flow_m3s, high: flow_m3s };
  const state: StepState = {
    ...roughCost(project),
    heat_W: result.heat_W,
    poolPerSunnyDay_K: day,
    pumpFlow_m3s: flow.result.flow_m3s,
    collectorFlow_m3s: flow_m3s,
    pumpHead_m: flow.result.pump.head_m,
    pumpPower_W: flow.result.pump.power_W,
    converged: answer.solver.converged,
  };
  const stands = project.testDays.length > 0 || project.asBuilt.length > 0;
  const as = options.as ?? (stands ? 'owner' : 'planner');
  return {
    moment,
    heat_W: result.heat_W,
    heatBand_W: joinBands(result.heat_W, heatBand, widen(result.heat_W, relative.heat_W)),
    poolPerSunnyDay_K: day,
    poolPerSunnyDayBand_K: joinBands(day, dayOwn, widen(day, relative.poolPerSunnyDay_K)),
    tubesWithoutWater: flow.result.collector.tubesWithoutWater,
    tubes: flow.result.collector.banks.reduce((sum, b) => sum + b.tubes.length, 0),
    flow_m3s,
    flowBand_m3s: joinBands(flow_m3s, flowOwn, widen(flow_m3s, relative.flow_m3s)),
    notice: answer.notices.find((n) => n.severity !== 'info') ?? null,
    next: nextStep(project, moment, doubts, state, as, sayIn(project.units)),
    doubts,
    state,
    solver: answer.solver,
  };
}

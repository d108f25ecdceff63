import type { Project } from '@sunlap/project/schema/project';
import type { Say } from '../flow/say';
import type { MomentOptions } from '../heat/moment';
import { testDay } from '../testday/test-day';
import type { DoubtBand } from './doubt-band';
import { type PanelChange, wholeSticks } from './panel-change';
import { type StepState, stepEffect } from './step-effect';

/** What to do next, that costs little. */
export interface NextStep {
  readonly kind: 'settle' | 'measure' | 'improveTest' | 'change' | 'keep';
  readonly message: string;
  /** Heat that it brings; null for what only makes the answer surer. */
  readonly gain_W: number | null;
  readonly cost: number | null;
  readonly change: PanelChange | null;
}

/** Doubt of the heat that is worth settling before anything is built [–]. */
const WORTH_SETTLING = 0.08;
/** Gain that is worth a step [–]. */
const WORTH_CHANGING = 0.03;
/** A change that costs nothing is still an hour's work: as if it cost this. */
const AN_HOUR = 10;

/**
 * The next cheap step. First what makes the answer surer for nothing; for an owner then the test day, or what would
 * sharpen it; for a planner the change that brings most heat for its cost.
 */
export function nextStep(
  project: Project,
  moment: MomentOptions,
  doubts: DoubtBand,
  now: StepState,
  as: 'planner' | 'owner',
  say: Say,
): NextStep {
  const [doubt] = doubts.doubts;
  if (doubt && width(doubt.relative.heat_W) > WORTH_SETTLING)
    return {
      kind: 'settle',
      message: `Most of the doubt is ${doubt.label} (${say(now.heat_W * width(doubt.relative.heat_W), 'heatRate')} from end to end). ${doubt.settle}`,
      gain_W: null,
      cost: 0,
      change: null,
    };
  return as === 'owner' ? ownersStep(project) : plannersStep(project, moment, now, say);
}

function ownersStep(project: Project): NextStep {
  const none = { gain_W: null, cost: 0, change: null };
  const last = testDay(project);
  if (!last)
    return {
      kind: 'measure',
      message:
        'Time a pail three times and read two thermometers: ten minutes on a clear day say whether it does what it should.',
      ...none,
    };
  const [advice] = last.result.advice;
  if (advice && last.result.verdict !== 'agrees')
    return { kind: 'improveTest', message: advice.message, ...none };
  return {
    kind: 'keep',
    message: 'It does what it should. Feel each tube once a season; measure again after any change.',
    ...none,
  };
}

function plannersStep(project: Project, moment: MomentOptions, now: StepState, say: Say): NextStep {
  const found = candidates(project).map((change) => {
    const { difference } = stepEffect(project, change, { moment, before: now });
    return { change, ...difference, worth: difference.heat_W / (Math.max(0, difference.cost) + AN_HOUR) };
  });
  const good = found.filter((f) => f.heat_W > WORTH_CHANGING * Math.abs(now.heat_W));
  good.sort((a, b) => b.worth - a.worth);
  const [best] = good;
  if (!best)
    return {
      kind: 'measure',
      message:
        'Nothing cheap adds much: it is about as good as this ground and pump allow. Print the parts and build one section first.',
      gain_W: null,
      cost: null,
      change: null,
    };
  return {
    kind: 'change',
    message: `${changeWords(best.change, say)}: ${say(best.heat_W, 'heatRate')} more for about ${Math.round(best.cost)} ${now.currency} and ${best.gluedJoints} more glued joints.`,
    gain_W: best.heat_W,
    cost: best.cost,
    change: best.change,
  };
}

function candidates(project: Project): PanelChange[] {
  const [section] = project.collector.sections;
  const out: PanelChange[] = [];
  const longer = wholeSticks(project)?.longer_m ?? null;
  if (longer !== null) out.push({ kind: 'length', length_m: longer });
  if (section.banks.some((b) => b.kind === 'tubes')) {
    out.push({ kind: 'passes', passes: section.banks.length + 1 });
    if (section.outletEnds.length === 1)
      out.push({ kind: 'ends', outletEnds: [section.outletEnds[0] === 'first' ? 'last' : 'first'] });
  }
  return out;
}

function changeWords(change: PanelChange, say: Say): string {
  if (change.kind === 'length')
    return `Make the tubes ${say(change.length_m, 'length')} long, the next whole stick`;
  if (change.kind === 'passes') return `Add a pass, ${change.passes} in all`;
  return `Take the water out at the ${change.outletEnds[0]} end`;
}

const width = (i: { low: number; high: number }): number => i.high - i.low;

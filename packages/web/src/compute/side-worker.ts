import { build } from '@sunlap/workbench/build/build';
import { doubtBand, joinBands, widen } from '@sunlap/workbench/first/doubt-band';
import { nextStep } from '@sunlap/workbench/first/next-step';
import { type StepState, stepEffect, stepState } from '@sunlap/workbench/first/step-effect';
import { sayIn } from '@sunlap/workbench/flow/say';
import { createHeatCache } from '@sunlap/workbench/heat/solve-heat';
import type { Interval } from '@sunlap/workbench/results';
import { testDay } from '@sunlap/workbench/testday/test-day';
import { testDayLog } from '@sunlap/workbench/testday/test-day-log';
import { dayAnswer, loggedAnswer } from './day-answer';
import type { BuildCounts, HomeReadout, SideAsk, SideReply, StepChange } from './side-protocol';

const cache = createHeatCache();
/** While one thing is dragged the state before stays the same. */
let lastBefore: { key: string; state: StepState } | null = null;

function stepChange(ask: Extract<SideAsk, { kind: 'step' }>): StepChange {
  const { moment } = ask;
  const key = JSON.stringify([ask.before, ask.moment]);
  if (lastBefore?.key !== key) lastBefore = { key, state: stepState(ask.before, moment, cache, false) };
  const { difference } = stepEffect(
    ask.before,
    { to: ask.after },
    { moment, before: lastBefore.state, cache, day: false },
  );
  const { heat_W, gluedJoints, cost } = difference;
  return { heat_W, gluedJoints, cost };
}

function answerTo(ask: SideAsk): unknown {
  if (ask.kind === 'step') return stepChange(ask);
  if (ask.kind === 'next') {
    const { project, moment } = ask;
    const before = stepState(project, moment, cache, false);
    return nextStep(project, moment, doubtBand(project, moment), before, ask.as, sayIn(project.units))
      .message;
  }
  if (ask.kind === 'testDay') {
    const answer = testDay(ask.project, ask.day);
    return answer === null ? null : dayAnswer(answer);
  }
  if (ask.kind === 'testDayLog') return testDayLog(ask.project).map(loggedAnswer);
  if (ask.kind === 'doubts') {
    const { relative } = doubtBand(ask.project, ask.moment);
    const wide = (name: HomeReadout): Interval => {
      const { value, band } = ask.readouts[name];
      return joinBands(value, band, widen(value, relative[name]));
    };
    return {
      heat_W: wide('heat_W'),
      flow_m3s: wide('flow_m3s'),
      poolPerSunnyDay_K: wide('poolPerSunnyDay_K'),
    };
  }
  const { result } = build(ask.project);
  const counts: BuildCounts = {
    gluedJoints: result.counts.gluedJoints,
    cost: result.shopTotal.price,
    unpriced: result.shopTotal.unpriced,
    currency: result.currency,
    cards: result.cards,
  };
  return counts;
}

self.onmessage = (event: MessageEvent<SideAsk>) => {
  const { id } = event.data;
  let reply: SideReply;
  try {
    reply = { id, ok: true, answer: answerTo(event.data) };
  } catch (error) {
    reply = { id, ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};

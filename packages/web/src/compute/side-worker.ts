import { build } from '@sunlap/workbench/build/build';
import { doubtBand, joinBands, widen } from '@sunlap/workbench/first/doubt-band';
import { testDay } from '@sunlap/workbench/testday/test-day';
import { testDayLog } from '@sunlap/workbench/testday/test-day-log';
import { dayAnswer, loggedAnswer } from './day-answer';
import type { BuildCounts, SideAsk, SideReply } from './side-protocol';

function answerTo(ask: SideAsk): unknown {
  if (ask.kind === 'testDay') {
    const answer = testDay(ask.project, ask.day);
    return answer === null ? null : dayAnswer(answer);
  }
  if (ask.kind === 'testDayLog') return testDayLog(ask.project).map(loggedAnswer);
  if (ask.kind === 'doubts') {
    const { heat_W } = doubtBand(ask.project, ask.moment).relative;
    return joinBands(ask.heat_W, ask.band, widen(ask.heat_W, heat_W));
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

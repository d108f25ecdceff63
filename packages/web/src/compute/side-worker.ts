import { build } from '@sunlap/workbench/build/build';
import type { BuildCounts, SideAsk, SideReply } from './side-protocol';

function answerTo(ask: SideAsk): unknown {
  if (ask.kind !== 'build') throw new Error('not yet');
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

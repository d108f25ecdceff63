import type { Ask, Reply } from './protocol';
import { study } from './usecases';

self.onmessage = async (event: MessageEvent<Ask>) => {
  const { id, doc, depth } = event.data;
  let reply: Reply;
  try {
    const start = performance.now();
    const answer = await study(doc, depth);
    reply = { id, ok: true, study: answer, took_ms: performance.now() - start };
  } catch (error) {
    reply = { id, ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};

import { rankNotices } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { type AheadAnswer, type AheadOptions, ahead } from '@sunlap/workbench/ahead/ahead';
import { oddForecast } from '@sunlap/workbench/ahead/odd-forecast';
import { createSeasonCache } from '@sunlap/workbench/season/study';

export interface AheadAsk {
  id: number;
  project: Project;
  options: Omit<AheadOptions, 'cache'>;
}
export type AheadReply =
  | { id: number; ok: true; answer: AheadAnswer }
  | { id: number; ok: false; message: string };

const cache = createSeasonCache();
let last: Project | null = null;

/** Parts that did not change stay the same objects, so that what was prepared from them is known again. */
function settled(project: Project): Project {
  const same = <K extends 'collector' | 'loop' | 'pool'>(key: K): Project[K] =>
    last !== null && JSON.stringify(last[key]) === JSON.stringify(project[key]) ? last[key] : project[key];
  last = { ...project, collector: same('collector'), loop: same('loop'), pool: same('pool') };
  return last;
}

self.onmessage = (event: MessageEvent<AheadAsk>) => {
  const { id, project, options } = event.data;
  let reply: AheadReply;
  try {
    const answer = ahead(settled(project), { ...options, cache });
    const odd = oddForecast(project, options.days, options.at);
    reply = { id, ok: true, answer: { ...answer, notices: rankNotices([...answer.notices, ...odd]) } };
  } catch (error) {
    reply = { id, ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};

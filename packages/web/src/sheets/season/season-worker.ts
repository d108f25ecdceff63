import type { Project } from '@sunlap/project/schema/project';
import { seasonBasic, seasonSteps } from '@sunlap/workbench/season/season';
import { createSeasonCache } from '@sunlap/workbench/season/study';
import { textOfBytes } from '@sunlap/workbench/weather/bytes';
import { detectFormat, readWeather } from '@sunlap/workbench/weather/read-weather';
import type { SeasonAsk, SeasonReply } from './season-protocol';
import { weatherNotice } from './weather-found';
import { rememberWeather, weatherOf } from './weather-of';
import { keepWeather } from './weather-store';

/** Work between two looks at what was asked meanwhile [ms]. */
const SLICE_MS = 10;
/** Partial answers are shown no oftener than this [ms]. */
const SHOW_MS = 400;

const cache = createSeasonCache();
/** Newest question; older ones are given up. */
let turn = 0;

let last: Project | null = null;

/** Parts that did not change stay the same objects, so that what was prepared from them is known again. */
function settled(project: Project): Project {
  const same = <K extends 'collector' | 'loop' | 'pool'>(key: K): Project[K] =>
    last !== null && JSON.stringify(last[key]) === JSON.stringify(project[key]) ? last[key] : project[key];
  last = { ...project, collector: same('collector'), loop: same('loop'), pool: same('pool') };
  return last;
}

const post = (reply: SeasonReply) => self.postMessage(reply);

/** Lets what was asked meanwhile come in; timers would wait four milliseconds each time. */
const door = new MessageChannel();
const pause = () =>
  new Promise<void>((resolve) => {
    door.port1.onmessage = () => resolve();
    door.port2.postMessage(null);
  });

async function year(ask: Extract<SeasonAsk, { kind: 'year' }>): Promise<void> {
  const mine = ++turn;
  const start = performance.now();
  const project = settled(ask.project);
  const weather = await weatherOf(project);
  const options = { cache, weather };
  let answer = seasonBasic(project, options);
  const took_ms = performance.now() - start;
  const show = (share: number, doing: string, ended: boolean) =>
    post({ kind: 'year', id: ask.id, answer, took_ms, share, doing, ended });
  show(0, '', !ask.full);
  if (!ask.full) return;
  // the parts list comes with a good part of the program: not before it is wanted
  const { build } = await import('@sunlap/workbench/build/build');
  const collectorPrice = build(project).result.shopTotal.cost;
  if (turn !== mine) return show(0, '', true);
  const work = seasonSteps(project, { ...options, collectorPrice });
  let shown = performance.now();
  for (;;) {
    const until = performance.now() + SLICE_MS;
    while (performance.now() < until) {
      const next = work.next();
      if (next.done) {
        answer = next.value;
        return show(1, '', true);
      }
      if (next.value.answer !== null) answer = next.value.answer;
      if (performance.now() - shown > SHOW_MS) {
        shown = performance.now();
        show(next.value.share, next.value.doing, false);
      }
    }
    await pause();
    if (turn !== mine) return show(0, '', true);
  }
}

/** Text of none of the known formats: its columns can be named by hand. */
function isTable(bytes: Uint8Array): boolean {
  const head = textOfBytes(bytes.subarray(0, 8000));
  return head.trim() !== '' && !head.includes('\0') && detectFormat(head) === null;
}

self.onmessage = async (event: MessageEvent<SeasonAsk>) => {
  const ask = event.data;
  if (ask.kind === 'stop') {
    turn++;
    return;
  }
  try {
    if (ask.kind === 'year') return await year(ask);
    const { name, bytes, mapping } = ask;
    const reading = readWeather(bytes, mapping === null ? {} : { mapping });
    if (reading.ok) {
      rememberWeather(name, reading.series);
      await keepWeather(name, { bytes, mapping });
    }
    post({
      kind: 'weather',
      id: ask.id,
      found: weatherNotice(name, reading, mapping === null && isTable(bytes)),
    });
  } catch (error) {
    post({ kind: 'failed', id: ask.id, message: error instanceof Error ? error.message : String(error) });
  }
};

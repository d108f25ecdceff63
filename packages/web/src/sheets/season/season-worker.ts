import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { seasonBasic, seasonSteps } from '@sunlap/workbench/season/season';
import { createSeasonCache } from '@sunlap/workbench/season/study';
import { readWeather } from '@sunlap/workbench/weather/read-weather';
import type { SeasonAsk, SeasonReply } from './season-protocol';
import { weatherNotice } from './weather-found';
import { keepWeather, keptWeather } from './weather-store';

/** Work between two looks at what was asked meanwhile [ms]. */
const SLICE_MS = 40;
/** Partial answers are shown no oftener than this [ms]. */
const SHOW_MS = 400;

const cache = createSeasonCache();
const series = new Map<string, WeatherSeries>();
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
const pause = () => new Promise<void>((resolve) => setTimeout(resolve, 0));

async function weatherOf(project: Project): Promise<WeatherSeries | null> {
  const climate = project.season?.climate;
  if (climate?.kind !== 'file') return null;
  const known = series.get(climate.name);
  if (known !== undefined) return known;
  const bytes = await keptWeather(climate.name);
  if (bytes === null) return null;
  const reading = readWeather(bytes);
  if (!reading.ok) return null;
  series.set(climate.name, reading.series);
  return reading.series;
}

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
  const work = seasonSteps(project, options);
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

self.onmessage = async (event: MessageEvent<SeasonAsk>) => {
  const ask = event.data;
  if (ask.kind === 'stop') {
    turn++;
    return;
  }
  try {
    if (ask.kind === 'year') return await year(ask);
    const reading = readWeather(ask.bytes);
    if (reading.ok) {
      series.set(ask.name, reading.series);
      await keepWeather(ask.name, ask.bytes);
    }
    post({ kind: 'weather', id: ask.id, found: weatherNotice(ask.name, reading) });
  } catch (error) {
    post({ kind: 'failed', id: ask.id, message: error instanceof Error ? error.message : String(error) });
  }
};

import type { CutProgramSolver } from '@sunlap/engine/building/cutting-types';
import { build } from '@sunlap/workbench/build/build';
import { buildDrawings } from '@sunlap/workbench/build/drawings';
import { seasonForBuild } from '@sunlap/workbench/build/season-facts';
import solverFile from 'highs/runtime?url';
import { version } from '../../../package.json';
import { weatherOf } from '../season/weather-of';
import type { Ask, Built, Questions, Reply } from './protocol';

let loading: Promise<CutProgramSolver> | null = null;

/** The solver is fetched when a proof is first asked for, and kept. */
async function solver(): Promise<CutProgramSolver> {
  loading ??= import('@sunlap/workbench/build/integer-solver').then(({ loadIntegerSolver }) =>
    loadIntegerSolver({ locateFile: () => solverFile }),
  );
  try {
    return await loading;
  } catch (error) {
    // a broken fetch must not spoil the next attempt
    loading = null;
    throw error;
  }
}

async function answerTo(ask: Ask): Promise<Questions[Ask['kind']]['answer']> {
  const options = ask.prove ? { solver: await solver() } : {};
  switch (ask.kind) {
    case 'build': {
      const { result, notices } = build(ask.project, options, ask.studies);
      const drawings = ask.drawn ? buildDrawings(ask.project, result) : [];
      return {
        values: result,
        notices,
        drawings,
        heated: ask.studies.heat !== undefined,
        tried: ask.prove,
      } satisfies Built;
    }
    case 'year': {
      const weather = ask.known === null ? await weatherOf(ask.project) : null;
      const season = (price: number) =>
        ask.known ?? seasonForBuild(ask.project, price, weather, { band: ask.band });
      return build(ask.project, options, { ...ask.studies, season }).result.money;
    }
    case 'report': {
      const { report } = await import('@sunlap/workbench/build/report');
      return report(ask.project, { date: ask.date, version, build: options });
    }
    case 'csv': {
      const { partsCsv, cutsCsv } = await import('@sunlap/workbench/build/tables-csv');
      const { result } = build(ask.project, options);
      return ask.table === 'parts' ? partsCsv(result) : cutsCsv(result);
    }
  }
}

self.onmessage = (event: MessageEvent<Ask>) => {
  const { id } = event.data;
  void answerTo(event.data)
    .then((answer): Reply => ({ id, ok: true, answer }))
    .catch(
      (error: unknown): Reply => ({
        id,
        ok: false,
        message: error instanceof Error ? error.message : String(error),
      }),
    )
    .then((reply) => self.postMessage(reply));
};

import { steadiness } from '@sunlap/engine/measurement/steadiness';
import type { TestDayResult } from '@sunlap/engine/measurement/test-day';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { TestDay } from '@sunlap/project/schema/life';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import { type Say, sayBeside, sayIn } from '../flow/say';
import type { LoopFacts } from './loop-facts';
import { driftOf } from './rise-readings';
import type { FlowFound, FlowPlace, TestDayValues } from './values';

/** Weight from which a carried flow is worth a word [–]. */
const MATTERS = 0.2;
/** Drift that is worth a word [K]. */
const DRIFT_K = 0.1;

/** In the engine's sentences: a value with its limit, a difference, a temperature. */
const ENGINE = /(-?[\d.]+) K\b([^±]*)±([\d.]+) K\b|(-?[\d.]+) K\b|(-?[\d.]+) °C/g;

/**
 * The engine writes kelvin, unrounded; the person reads their own degrees, rounded this once. A value beside its own
 * limit gets a digit more where both would read alike.
 *
 * @example inTheirUnits('A rise of 0.7 K', 'us') // 'A rise of 1.3 °F'
 */
export function inTheirUnits(text: string, system: UnitSystem): string {
  const kind = 'temperatureDifference';
  const beside = (x: string, y: string): string => sayBeside(Number(x), Number(y), kind, system);
  return text.replace(
    ENGINE,
    (_, value?: string, between?: string, limit?: string, difference?: string, temperature?: string) => {
      if (value !== undefined && limit !== undefined)
        return `${beside(value, limit)}${between}±${beside(limit, value)}`;
      return difference === undefined
        ? sayIn(system)(Number(temperature), 'temperature')
        : sayIn(system)(Number(difference), kind);
    },
  );
}

/** The engine names its own inputs; here they become places in the project file. */
export function inFile(
  notices: readonly Notice[],
  flowPaths: readonly string[],
  path: string,
  system: UnitSystem,
): Notice[] {
  const out: Notice[] = [];
  for (const n of notices) {
    const at = pathInFile(n.path, flowPaths, path);
    if (!out.some((m) => m.code === n.code && m.path === at))
      out.push({
        ...n,
        path: at,
        // a reading that was refused is shown as it was kept
        message: n.code === 'temperature-impossible' ? n.message : inTheirUnits(n.message, system),
        ...(n.remedy === undefined ? {} : { remedy: inTheirUnits(n.remedy, system) }),
      });
  }
  return out;
}

function pathInFile(given: string, flowPaths: readonly string[], path: string): string {
  const flow = /^\/flows\/(\d+)(.*)$/.exec(given);
  // what flowReadings said has its own path behind the number already
  if (flow) return flow[2] === '' ? `${path}/${flowPaths[Number(flow[1])] ?? ''}` : path + flow[2];
  if (given === '/sunElevation_deg') return `${path}/at`;
  if (given.startsWith('/rise/onePail')) return `${path}/samePail`;
  const side = /^\/rise\/(inlet|outlet)\/(place|readings_C)(.*)$/.exec(given);
  if (side) return `${path}/${side[1]}/${side[2] === 'place' ? 'where' : `readings${side[3]}`}`;
  return given.startsWith('/rise') ? path : path + given;
}

/** What is missing before anything can be said. */
export function missingNotices(day: TestDay, result: TestDayResult, path: string): Notice[] {
  const out: Notice[] = [];
  const anyFlow = day.pail ?? day.meter ?? day.rotameter ?? day.gauges ?? day.warmFront;
  if (anyFlow === undefined)
    out.push({
      code: 'flow-missing',
      severity: 'info',
      path,
      message: 'No flow was measured, so there is no heat yet.',
      remedy: 'Time a pail three times: it takes two minutes.',
    });
  if (!day.inlet && !day.outlet)
    out.push({
      code: 'rise-missing',
      severity: 'info',
      path,
      message: 'No temperatures were read, so there is no heat yet.',
      remedy: 'Read the water that goes in and the water that comes back, three times in pairs.',
    });
  if (result.heat && day.weather?.sky === undefined && day.weather?.irradiance_Wm2 === undefined)
    out.push({
      code: 'sky-missing',
      severity: 'unsure',
      path: `${path}/weather/sky`,
      message: 'The sky of that hour was not said; a clear one is taken.',
      remedy: 'Choose the sky in words.',
    });
  return out;
}

/** Was it steady: long enough since anything changed, and the pool not drifting. */
export function steadyFinding(
  day: TestDay,
  facts: LoopFacts,
  flow_m3s: number | null,
  timeConstant_s: number,
  path: string,
  say: Say,
): { steady: TestDayValues['steady']; notices: Notice[] } {
  const flow = flow_m3s !== null && flow_m3s > 1e-7 ? flow_m3s : facts.collector_m3s;
  const volume = facts.frontVolume_m3('last', 'poolOutlet');
  if (!(flow > 1e-7 && volume > 0)) return { steady: null, notices: [] };
  const found = steadiness(volume / flow, timeConstant_s, day.steadyFor_s ?? 0, driftOf(day.inlet?.readings));
  const notices: Notice[] = [];
  const waited_s = day.steadyFor_s ?? null;
  if (waited_s !== null && !found.steady)
    notices.push({
      code: 'not-steady',
      severity: 'unsure',
      path: `${path}/steadyFor_s`,
      message: `After ${say(waited_s, 'time')} about ${Math.round(100 * found.unfinishedShare)} % of the last change was still to come.`,
      remedy: `Wait ${say(found.needed_s, 'time')} of steady sun without touching valve or pump.`,
    });
  if (Math.abs(found.driftError_K) > DRIFT_K)
    notices.push({
      code: 'inlet-drifts',
      severity: 'unsure',
      path: `${path}/inlet/readings`,
      message: `The inlet drifted while you read it; the rise reads ${say(Math.abs(found.driftError_K), 'temperatureDifference')} too ${found.driftError_K > 0 ? 'high' : 'low'}.`,
      remedy: 'Read in pairs, when the inlet stands still.',
    });
  return {
    steady: { needed_s: found.needed_s, waited_s, enough: waited_s === null ? null : found.steady },
    notices,
  };
}

/** Where the meter sat matters when a valve parts the water. */
export function placeNotices(
  day: TestDay,
  facts: LoopFacts,
  flowAt: FlowPlace,
  flows: readonly FlowFound[],
  path: string,
): Notice[] {
  const out: Notice[] = [];
  if (!facts.parted) return out;
  for (const which of ['meter', 'rotameter'] as const)
    if (day[which] && day[which].at === undefined)
      out.push({
        code: 'meter-place-assumed',
        severity: 'unsure',
        path: `${path}/${which}/at`,
        message: `The valve sends part of the water past the collector; the ${which === 'meter' ? 'meter' : 'flow meter'} is taken to sit in the collector’s own line.`,
        remedy: 'Say where it sits, or turn all the water to the collector for the test.',
      });
  if (flows.some((f) => f.at !== flowAt && f.weight > MATTERS))
    out.push({
      code: 'flow-and-rise-apart',
      severity: 'unsure',
      path,
      message: `Flow was measured in ${flowAt === 'collector' ? 'all of the water' : 'the collector’s water'}, the rise in ${flowAt === 'collector' ? 'the collector’s' : 'all of it'}; the loop as drawn says that the collector gets ${Math.round(100 * facts.split)} %.`,
      remedy: 'Turn all the water to the collector for the time of the test.',
    });
  return out;
}

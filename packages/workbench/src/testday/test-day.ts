import { contributions } from '@sunlap/engine/measurement/component';
import { placeLimit } from '@sunlap/engine/measurement/place';
import { poolShowsGain } from '@sunlap/engine/measurement/pool-gain';
import { rise } from '@sunlap/engine/measurement/rise';
import { testDay as judged, type TestDayResult } from '@sunlap/engine/measurement/test-day';
import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { poolSize } from '../assembly/pool-size';
import { sayIn } from '../flow/say';
import { stateAt } from '../state/state-at';
import { dayAdvice } from './advice';
import { dayConditions } from './conditions';
import { inFile, inTheirUnits, missingNotices, placeNotices, steadyFinding } from './day-notices';
import { type ExpectedHeat, expectedHeat } from './expected';
import { carriedTo, type FlowReading, flowReadings } from './flow-readings';
import { type LoopFacts, loopFacts } from './loop-facts';
import { drawHeat } from './monte-carlo';
import { risesAt, riseTest } from './rise-readings';
import { surveys } from './surveys';
import type { FlowFound, FlowPlace, HeatContribution, TestDayAnswer, TestDayValues } from './values';
import { verdictNotices } from './verdict-words';

/** A pool thermometer read twice: what does not cancel [K]; judgement. */
const POOL_THERMOMETER_K = 0.15;
/** What the rest of the pool's balance is not known by, on its surface [W/m²]; judgement: a quarter of usual losses. */
const POOL_DOUBT_WM2 = 35;

/**
 * What a test day proves: flow, rise and heat from the file's raw readings with their uncertainty, beside the heat
 * that the model expects for that very hour from the heater as it stood, verdict, what the doubt comes from, what the
 * next step buys, and each surveyed tube's share. Never throws at readings: what they cannot tell is null, and a
 * notice says why.
 *
 * @param dayId of the test day; the latest when absent
 * @returns null where the project has no such day
 * @example testDay(project, '2026-04-18')?.result.verdict // 'agrees'
 */
export function testDay(project: Project, dayId?: string): TestDayAnswer | null {
  const index = dayId === undefined ? latestDay(project) : project.testDays.findIndex((d) => d.id === dayId);
  return index < 0 ? null : judgeDay(project, project.testDays[index], `/testDays/${index}`);
}

function latestDay(project: Project): number {
  let best = -1;
  project.testDays.forEach((d, i) => {
    if (best < 0 || d.at >= project.testDays[best].at) best = i;
  });
  return best;
}

/** Judges one day; `path` is its place in the project file. */
export function judgeDay(project: Project, day: TestDay, path: string): TestDayAnswer {
  const say = sayIn(project.units);
  const stood = stateAt(project, day.at, day.state);
  const then = onTheDay(stood.project, day);
  const temperatures = riseTest(day);
  const firstLook = rise(temperatures).rise;
  const inlet = firstLook?.inlet_C ?? temperatures.pool_C;
  const water_C = inlet !== undefined && inlet > 0 && inlet < 60 ? inlet : undefined;
  const at = dayConditions(then, day, water_C, path);
  const { thermometer, place } = temperatures.inlet;
  const inletLimit = water_C === undefined ? 0 : Math.hypot(thermometer.limit_K, placeLimit(place));
  const expected = expectedHeat(then, at, inletLimit, {
    fromCollectorInlet: day.inlet?.where === 'collectorInlet' || day.inlet?.where === 'pipeWall',
    toCollectorOutlet: day.outlet?.where === 'collectorOutlet' || day.outlet?.where === 'pipeWall',
  });
  const facts = loopFacts(then, expected.solved.flow);
  const flowAt = risesAt(day, facts.ownReturn);
  const readings = flowReadings(then, day, facts);
  const carried = readings.map((r) =>
    r.outcome.flow ? carriedTo(r.outcome.flow, r.at, flowAt, facts) : undefined,
  );
  const usable = expected.solver.converged && (expected.solved.flow.speed > 0 || facts.collector_m3s > 0);
  const result = judged({
    flows: readings.map((r, i) => ({ ...r.outcome, flow: carried[i] })),
    rise: temperatures,
    sunElevation_deg: at.now.moment.sun.elevation_deg,
    ...(usable ? { expected: { heat_W: expected.heat_W, components: expected.components } } : {}),
  });
  const flow_m3s = result.flow?.flow.flow_m3s ?? null;
  const ownFlow = flow_m3s === null ? null : flowAt === 'collector' ? flow_m3s : flow_m3s * facts.split;
  const steady = steadyFinding(day, facts, ownFlow, expected.values.firstSlug.timeConstant_s, path, say);
  const tubes = surveys(then, day, expected.solved, path, say);
  const values: TestDayValues = {
    day: { id: day.id, name: day.name ?? null, at: day.at },
    state: {
      id: stood.state?.id ?? null,
      name: stood.state?.name ?? null,
      from: stood.state?.from ?? null,
      repairs: stood.repairs.map((r) => r.id),
    },
    moment: at.now.moment,
    ...measuredValues(result, readings, carried, flowAt, facts),
    ...expectedValues(result, expected, usable),
    monteCarlo:
      result.flow && result.rise && result.heat ? drawHeat(result.flow.flow, result.rise, result.heat) : null,
    advice: result.heat
      ? dayAdvice(day, result.advice, result.heat.components, usable ? expected.components : []).map((a) => ({
          ...a,
          message: inTheirUnits(a.message, project.units),
        }))
      : [],
    poolShowsGain_s: gainTime(then, result),
    steady: steady.steady,
    tubes: tubes.tubes,
    mending: tubes.mending,
  };
  const notices: Notice[] = [
    ...stood.notices,
    ...at.notices,
    ...missingNotices(day, result, path),
    ...inFile(
      result.notices,
      readings.map((r) => fileName(r.method)),
      path,
      project.units,
    ).filter((n) => wanted(n, day)),
    ...placeNotices(day, facts, flowAt, values.flows, path),
    ...steady.notices,
    ...tubes.notices,
    ...verdictNotices(values, path, say),
    ...unsettled(expected),
  ];
  const band: TestDayAnswer['band'] = {};
  if (values.heatBand_W) band.heat_W = values.heatBand_W;
  if (values.expectedBand_W) band.expected_W = values.expectedBand_W;
  return { result: values, solver: expected.solver, band, notices: rankNotices(notices), complete: true };
}

/** Pump speed and valve as they stood for the test. */
function onTheDay(project: Project, day: TestDay): Project {
  let { loop } = project;
  if (day.pumpSpeed !== undefined) loop = { ...loop, pump: { ...loop.pump, speed: day.pumpSpeed } };
  const { toCollector } = day;
  if (toCollector !== undefined) {
    const { bypass } = loop;
    if (bypass.kind === 'threeWay') loop = { ...loop, bypass: { ...bypass, toCollector } };
    else if (bypass.kind === 'twoValves')
      loop = {
        ...loop,
        bypass: {
          ...bypass,
          toCollector: { ...bypass.toCollector, opening: toCollector },
          pastValve: { ...bypass.pastValve, opening: 1 - toCollector },
        },
      };
  }
  return loop === project.loop ? project : { ...project, loop };
}

const fileName = (method: FlowReading['method']): string => (method === 'front' ? 'warmFront' : method);

/** What a day without any reading on a side is told once, by `missingNotices`. */
const wanted = (n: Notice, day: TestDay): boolean =>
  n.code !== 'temperature-none' || day.inlet !== undefined || day.outlet !== undefined;

function measuredValues(
  result: TestDayResult,
  readings: readonly FlowReading[],
  carried: readonly ReturnType<typeof carriedTo>[],
  flowAt: FlowPlace,
  facts: LoopFacts,
) {
  const { flow, heat } = result;
  let used = 0;
  const flows = readings.flatMap((r, i): FlowFound[] => {
    const own = carried[i];
    if (!own || !r.outcome.flow) return [];
    return [
      {
        method: r.method,
        at: r.at,
        flowThere_m3s: r.outcome.flow.flow_m3s,
        flow_m3s: own.flow_m3s,
        expandedUncertainty_m3s: own.expandedUncertainty_m3s,
        weight: flow?.weights[used++] ?? 0,
      },
    ];
  });
  return {
    flow_m3s: flow?.flow.flow_m3s ?? null,
    flowExpanded_m3s: flow?.flow.expandedUncertainty_m3s ?? null,
    flowAt,
    flows,
    expectedFlow_m3s: flowAt === 'collector' ? facts.collector_m3s : facts.pump_m3s,
    inlet_C: result.rise?.inlet_C ?? null,
    outlet_C: result.rise?.outlet_C ?? null,
    rise_K: result.rise?.rise_K ?? null,
    riseExpanded_K: result.rise?.expandedUncertainty_K ?? null,
    thermometerOffset_K: result.rise && result.rise.offset_K !== 0 ? result.rise.offset_K : null,
    heat_W: heat?.heat_W ?? null,
    standardUncertainty_W: heat?.standardUncertainty_W ?? null,
    degreesOfFreedom: heat && Number.isFinite(heat.dof) ? heat.dof : null,
    coverageFactor: heat?.coverageFactor ?? null,
    expandedUncertainty_W: heat?.expandedUncertainty_W ?? null,
    heatBand_W: heat ? { low: heat.lower_W, high: heat.upper_W } : null,
    contributions: heat ? heat.contributions.map(inWatts) : [],
  };
}

function expectedValues(result: TestDayResult, expected: ExpectedHeat, usable: boolean) {
  const expanded = usable ? (result.expectedExpanded_W ?? 0) : null;
  const { agreement } = result;
  return {
    expected_W: usable ? expected.heat_W : null,
    expectedExpanded_W: expanded,
    expectedBand_W:
      expanded === null ? null : { low: expected.heat_W - expanded, high: expected.heat_W + expanded },
    expectedContributions: usable ? contributions(expected.components).map(inWatts) : [],
    normalisedError: agreement?.normalisedError ?? null,
    verdict: agreement?.verdict ?? null,
    difference_W: agreement?.difference_W ?? null,
    surely_W: agreement?.surely_W ?? null,
  };
}

function inWatts(c: {
  source: string;
  label: string;
  standardUncertainty: number;
  share: number;
}): HeatContribution {
  const { source, label, standardUncertainty: standardUncertainty_W, share } = c;
  return { source, label, standardUncertainty_W, share };
}

function gainTime(project: Project, result: TestDayResult): number | null {
  const { heat, rise: found } = result;
  if (!heat || !found || !(heat.heat_W > 0)) return null;
  const pool = poolSize(project.pool);
  const water = Math.min(99, Math.max(0.1, found.inlet_C));
  const t = poolShowsGain(
    heat.heat_W,
    pool.volume_m3,
    water,
    POOL_THERMOMETER_K,
    POOL_DOUBT_WM2 * pool.surface_m2,
  );
  return Number.isFinite(t) ? t : null;
}

function unsettled(expected: ExpectedHeat): Notice[] {
  if (expected.solver.converged) return [];
  return [
    {
      code: 'expected-unsettled',
      severity: 'unsure',
      path: '',
      message: `What to expect could not be worked out: ${expected.solver.worst ?? 'the solver did not settle'}. What was measured stands.`,
    },
  ];
}

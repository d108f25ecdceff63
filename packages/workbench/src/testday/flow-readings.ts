import { fromLimits, scaled } from '@sunlap/engine/measurement/component';
import { type FlowMeasurement, type FlowOutcome, flowFrom } from '@sunlap/engine/measurement/flow';
import { frontFlow } from '@sunlap/engine/measurement/flow-front';
import { gaugeFlow } from '@sunlap/engine/measurement/flow-gauges';
import { meterFlow, rotameterFlow } from '@sunlap/engine/measurement/flow-meter';
import { pailFlow } from '@sunlap/engine/measurement/flow-pail';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import type { LoopFacts } from './loop-facts';
import type { FlowPlace } from './values';

/** One way of measuring flow, with where it was measured. Paths of notices begin at the test day. */
export interface FlowReading {
  readonly method: 'pail' | 'meter' | 'rotameter' | 'gauges' | 'front';
  readonly at: FlowPlace;
  readonly outcome: FlowOutcome;
}

/** A thumb at a meter's register [s]; common practice. */
const REACTION_S = 0.5;
/** How far the volume of the loop as drawn may be off [–]; judgement. */
const VOLUME_LIMIT = 0.08;
/** How far the share of one outlet may be off, relative; judgement. */
const OUTLET_SHARE_LIMIT = 0.08;
/** How far the split at a half-open valve may be off, relative; judgement. */
const SPLIT_LIMIT = 0.12;
/** Suction pressure from the network instead of a gauge [Pa]; judgement. */
const SUCTION_LIMIT_PA = 5000;

/** Every way of measuring flow that the day has readings of. */
export function flowReadings(project: Project, day: TestDay, facts: LoopFacts): FlowReading[] {
  const out: FlowReading[] = [];
  if (day.pail)
    out.push({ method: 'pail', at: pailPlace(project, day, facts), outcome: pail(day.pail, facts) });
  if (day.meter) {
    const { first_m3, last_m3, between_s, limit_m3, at } = day.meter;
    const outcome = meterFlow({
      first_m3,
      second_m3: last_m3,
      elapsed_s: between_s,
      // the limit is of each reading: half a mark
      resolution_m3: 2 * limit_m3,
      limitShare: 0.02,
      reactionLimit_s: REACTION_S,
    });
    out.push({ method: 'meter', at: at ?? 'collector', outcome: renamed(outcome, '/meter', METER_PATHS) });
  }
  if (day.rotameter) {
    const { flow_m3s, readings_m3s, limit_m3s, at } = day.rotameter;
    const readings = readings_m3s && readings_m3s.length > 0 ? readings_m3s : [flow_m3s];
    // the limit is a flow; without the scale's end the largest reading stands for it
    const fullScale_m3s = Math.max(flow_m3s, ...readings);
    const outcome = rotameterFlow({
      readings_m3s: readings,
      fullScale_m3s,
      limitOfFullScale: limit_m3s / fullScale_m3s,
      division_m3s: 0,
    });
    out.push({ method: 'rotameter', at: at ?? 'collector', outcome: renamed(outcome, '/rotameter', {}) });
  }
  if (day.gauges) out.push({ method: 'gauges', at: 'pump', outcome: gauges(project, day.gauges, facts) });
  if (day.warmFront) {
    const { delays_s, limit_s, felt, front } = day.warmFront;
    const outcome = frontFlow({
      times_s: delays_s,
      reactionLimit_s: limit_s,
      loopVolume_m3: facts.frontVolume_m3(front ?? 'last', felt ?? 'poolOutlet'),
      volumeLimitShare: VOLUME_LIMIT,
    });
    out.push({
      method: 'front',
      at: 'collector',
      outcome: renamed(outcome, '/warmFront', { '/times_s': '/delays_s' }),
    });
  }
  return out;
}

const METER_PATHS: Record<string, string> = {
  '/second_m3': '/last_m3',
  '/elapsed_s': '/between_s',
};

/** A pail at the collector's own return catches the collector's water, one at the pool's outlets all of it. */
function pailPlace(project: Project, day: TestDay, facts: LoopFacts): FlowPlace {
  if (!facts.ownReturn) return 'pump';
  const named = day.pail?.outlet;
  return named === undefined || named === project.loop.returnOutlet?.id ? 'collector' : 'pump';
}

function pail(test: NonNullable<TestDay['pail']>, facts: LoopFacts): FlowOutcome {
  const notices: Notice[] = [];
  let share = test.shareCaught ?? 1;
  let shareLimit = test.shareCaughtLimit ?? 0;
  const here = test.outlet === undefined ? null : facts.outletFlow_m3s(test.outlet);
  const all = facts.ownReturn ? facts.collector_m3s : facts.pump_m3s;
  if (test.outlet !== undefined && here === null)
    notices.push({
      code: 'pail-outlet-unknown',
      severity: 'unsure',
      path: '/pail/outlet',
      message: `There is no outlet “${test.outlet}”; the pail is taken to have caught all of the water.`,
      remedy: 'Choose the outlet at which the pail was held.',
    });
  if (here !== null && here > 0 && all > here * 1.001) {
    const part = here / all;
    shareLimit = Math.hypot(shareLimit * part, OUTLET_SHARE_LIMIT * part * share);
    share *= part;
  }
  const lift = test.outletLift_m ?? 0;
  const inService = lift === 0 ? null : facts.outletFlowLifted_m3s(test.outlet ?? null, 0);
  const higher = lift === 0 ? null : facts.outletFlowLifted_m3s(test.outlet ?? null, lift);
  const known = inService !== null && higher !== null && inService > 0 && higher > 0;
  const outcome = pailFlow({
    volume_m3: test.volume_m3,
    volumeLimit_m3: test.volumeLimit_m3,
    fillLineLimit_m3: test.fillLineLimit_m3 ?? 0,
    times_s: test.times_s,
    reactionLimit_s: test.reaction_s,
    shareCaught: share,
    shareCaughtLimit: shareLimit,
    lift_m: lift,
    ...(known ? { flowAtLift_m3s: (x: number) => (x === 0 ? inService : higher) } : {}),
  });
  const found = renamed(outcome, '/pail', { '/lift_m': '/outletLift_m' });
  return { ...found, notices: [...notices, ...found.notices] };
}

function gauges(project: Project, test: NonNullable<TestDay['gauges']>, facts: LoopFacts): FlowOutcome {
  const hasVacuum = test.vacuumIn_Pa !== undefined;
  const suction = (vacuum: number | undefined): number => (vacuum === undefined ? facts.suction_Pa : -vacuum);
  const { curve } = project.loop.pump;
  const doubtful = project.unsure?.includes('pump') ?? false;
  const curveLimitShare = doubtful ? 0.2 : curve.kind === 'points' ? 0.05 : curve.measured ? 0.1 : 0.2;
  const outcome = gaugeFlow({
    collectorIn: { pressure_Pa: test.pressureIn_Pa, suction_Pa: suction(test.vacuumIn_Pa) },
    collectorOut: {
      pressure_Pa: test.pressureOut_Pa,
      suction_Pa: suction(test.vacuumOut_Pa ?? test.vacuumIn_Pa),
    },
    pressureLimit_Pa: test.limit_Pa,
    suctionLimit_Pa: hasVacuum ? test.limit_Pa : SUCTION_LIMIT_PA,
    pump: facts.pumpCurve,
    curveLimitShare,
    density_kgm3: facts.density_kgm3,
  });
  const found = renamed(outcome, '/gauges', {
    '/collectorIn': '/pressureIn_Pa',
    '/collectorOut': '/pressureOut_Pa',
  });
  if (hasVacuum) return found;
  const none: Notice = {
    code: 'gauges-no-vacuum',
    severity: 'info',
    path: '/gauges/vacuumIn_Pa',
    message: `No vacuum gauge was read; the loop as drawn gives ${(facts.suction_Pa / 1000).toFixed(1)} kPa before the pump.`,
  };
  return { ...found, notices: [...found.notices, none] };
}

function renamed(outcome: FlowOutcome, prefix: string, paths: Record<string, string>): FlowOutcome {
  const notices = outcome.notices.map((n) => {
    const known = Object.keys(paths).find((p) => n.path.startsWith(p));
    const path = known === undefined ? n.path : paths[known] + n.path.slice(known.length);
    return { ...n, path: prefix + path };
  });
  return { flow: outcome.flow, notices };
}

/**
 * A flow carried from where it was measured to the water whose rise was measured, by the split that the network
 * finds. Where a valve parts the water the split is doubtful and that becomes a component of its own.
 */
export function carriedTo(
  flow: FlowMeasurement,
  from: FlowPlace,
  to: FlowPlace,
  facts: LoopFacts,
): FlowMeasurement | undefined {
  if (from === to || !facts.parted) return flow;
  if (!(facts.split > 0)) return undefined;
  const factor = to === 'collector' ? facts.split : 1 / facts.split;
  const value = flow.flow_m3s * factor;
  return flowFrom(flow.method, value, [
    ...scaled(flow.components, factor),
    fromLimits('flow.split', 'how the valve parts the water', value, SPLIT_LIMIT),
  ]);
}

import { deratingFactor } from '@sunlap/data/derating';
import { ratedAt } from '@sunlap/engine/building/pressure-rating';
import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import { waterVapourPressure } from '@sunlap/engine/fluids/water';
import {
  checkDeviceFlow,
  checkPressureVelocity,
  checkSuctionVelocity,
  checkTurnover,
} from '@sunlap/engine/hydraulics/limits';
import { gradePressure } from '@sunlap/engine/hydraulics/pressure';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Path, PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { elementAt } from '../assembly/heat-layout';
import { poolSize } from '../assembly/pool-size';
import type { Tables } from '../assembly/tables';
import type { FlowValues } from '../results';
import { type Costing, withCost } from './costing';
import type { SolvedFlow } from './flow-basic';
import { pipeVelocities } from './piece-report';
import { percent, type Say } from './say';

/** Head at the pump under which cavitation is near for most small pool pumps [m]; judgement, no source. */
const LEAST_NPSH = 2.5;
/** Wall temperature for the pressure rating while water runs [°C]; judgement. */
const RUNNING_WALL_C = 45;
/** Shares of parallel sections that differ by more than this are worth saying. */
const UNEVEN_SECTIONS = 0.15;

/** Where the water would have to be held together by what it has not: nothing else that is said holds then. */
export function unattainableNotices(solved: SolvedFlow, values: FlowValues): Notice[] {
  if (values.attainable) return [];
  const { at } = values.lowestPressure;
  const link = solved.assembled.infos.findIndex((i) => i.name === at);
  return [
    {
      code: 'flow-not-attainable',
      severity: 'damage',
      path: link >= 0 ? solved.assembled.infos[link].path : '/loop',
      message: `The loop cannot run like this: at ${at} the water would stand under the pressure at which it boils. The column breaks there, so flows and heat are not to be had.`,
      remedy:
        link >= 0 && link < solved.assembled.pump.link
          ? 'Open the suction valves, clean the baskets, lower the speed, set the pump lower, or use a larger suction pipe.'
          : 'Lower the collector, put a vacuum breaker at the top and a pump that lifts to it, or throttle the return at the pool.',
    },
  ];
}

/** Notices on pump, pipes, pressures and the pool side of the loop. */
export function loopNotices(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  tables: Tables,
  say: Say,
  costing: Costing,
): Notice[] {
  const running = values.flow_m3s > 1e-9;
  return [
    ...bypassNotices(project, solved, values, say),
    ...pastNotices(solved, values),
    ...pumpNotices(solved, values, say),
    ...(running ? velocityNotices(solved, values, say) : []),
    ...suctionNotices(project, values, say),
    ...deviceNotices(project, solved, say),
    ...pressureNotices(project, solved, values, tables, say),
    ...sectionNotices(project, solved, values, costing),
    ...openTapNotices(solved, say),
    ...turnoverNotices(project, values, say),
  ];
}

function bypassNotices(project: Project, solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
  const { bypass } = project.loop;
  if (bypass.kind !== 'twoValves') return [];
  const shut = (link: number): boolean => solved.assembled.description.links[link].closed === true;
  if (!shut(solved.assembled.valves.toCollector) || !shut(solved.assembled.valves.past)) return [];
  const past = bypass.pastValve.name ?? 'the valve past the collector';
  const to = bypass.toCollector.name ?? 'the valve to the collector';
  const head = values.pump.head_m > 0 ? ` against ${say(values.pump.head_m, 'head')}` : '';
  return [
    {
      code: 'bypass-both-shut',
      severity: 'damage',
      path: '/loop/bypass',
      message: `Both bypass valves are shut: the pump pushes${head} with no flow, heats its own water and can ruin its seal.`,
      remedy: `Always open one before shutting the other: to send water to the collector open ${to} first, then close ${past}; to go back open ${past} first, then close ${to}.`,
    },
  ];
}

/** Is the valve to the collector shut? */
export function collectorShut({ assembled }: SolvedFlow): boolean {
  const { toCollector } = assembled.valves;
  return toCollector >= 0 && assembled.description.links[toCollector].closed === true;
}

function pastNotices(solved: SolvedFlow, values: FlowValues): Notice[] {
  if (!collectorShut(solved) || !(values.flow_m3s > 0)) return [];
  return [
    {
      code: 'valve-past-collector',
      severity: 'info',
      path: '/loop/bypass',
      message: 'The valve sends all water past the collector: none runs through it.',
      remedy: 'Turn it to the collector to see how that runs.',
    },
  ];
}

function pumpNotices(solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
  const out: Notice[] = [];
  const { speed } = solved;
  const path = '/loop/pump';
  if (!(speed > 0)) {
    out.push({
      code: 'pump-stopped',
      severity: 'info',
      path: `${path}/speed`,
      message: 'The pump is stopped: only what warm and cold water do by themselves moves.',
    });
    return out;
  }
  if (Math.abs(values.flow_m3s) <= 1e-9) {
    out.push({
      code: 'no-flow',
      severity: 'damage',
      path,
      message: `The pump runs and nothing flows. It stands against ${say(values.pump.head_m, 'head')}.`,
      remedy: 'Open a way from the pump to the pool.',
    });
  }
  const last = solved.assembled.pump.lastFlow_m3s * speed;
  if (values.flow_m3s > last * 1.001) {
    out.push({
      code: 'outside-pump-points',
      severity: 'unsure',
      path: `${path}/curve`,
      message: `The flow of ${say(values.flow_m3s, 'flow')} lies beyond the pump's last known point (${say(last, 'flow')} at this speed): head and flow are a guess there.`,
      remedy: 'Add a point of the pump curve at larger flow.',
    });
  }
  if (values.attainable && values.pump.npshAvailable_m < LEAST_NPSH) {
    out.push({
      code: 'suction-head-low',
      severity: 'damage',
      path: '/loop/toPump',
      message: `Only ${say(values.pump.npshAvailable_m, 'head')} of suction head is left at the pump; most pool pumps begin to cavitate under ${say(LEAST_NPSH, 'head')} (judgement).`,
      remedy: 'Open the suction valves, clean the baskets, lower the speed, or use a larger suction pipe.',
    });
  }
  return out;
}

function velocityNotices(solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
  const out: Notice[] = [];
  const at = pipeVelocities(solved.assembled, solved.solution);
  const suction = checkSuctionVelocity(values.loop.suctionVelocity_ms);
  if (suction.exceeded && at.suctionLink >= 0) {
    const info = solved.assembled.infos[at.suctionLink];
    out.push({
      code: 'suction-velocity-high',
      severity: 'damage',
      path: info.path,
      message: `${info.name}: ${say(suction.value, 'speed')}, over ${say(suction.limit, 'speed')} for suction pipe (${suction.source}). Suction is noisy and the pump draws air sooner.`,
      remedy: 'Lower the pump speed, open another suction, or use a larger pipe.',
    });
  }
  const pressure = checkPressureVelocity(values.loop.pressureVelocity_ms);
  if (pressure.exceeded && at.pressureLink >= 0) {
    const info = solved.assembled.infos[at.pressureLink];
    out.push({
      code: 'pipe-velocity-high',
      severity: 'damage',
      path: info.path,
      message: `${info.name}: ${say(pressure.value, 'speed')}, over ${say(pressure.limit, 'speed')} for pipe under pressure (${pressure.source}): water hammer and wear.`,
      remedy: 'Lower the pump speed, or use a larger pipe or two side by side.',
    });
  }
  return out;
}

function suctionNotices(project: Project, values: FlowValues, say: Say): Notice[] {
  const out: Notice[] = [];
  const open = values.suctions.filter((s) => s.flow_m3s > 1e-9);
  values.suctions.forEach((s, i) => {
    const spec = project.loop.suctions[i];
    const path = `/loop/suctions/${i}`;
    if (spec.coverRating_m3s !== undefined && s.flow_m3s > spec.coverRating_m3s) {
      out.push({
        code: 'suction-cover-overloaded',
        severity: 'safety',
        path: `${path}/coverRating_m3s`,
        message: `${s.name} draws ${say(s.flow_m3s, 'flow')}, more than its cover is rated for (${say(spec.coverRating_m3s, 'flow')}). A body can be held under water by it.`,
        remedy:
          'Lower the flow, open another suction, or fit covers with a higher rating. Do not use the pool until then.',
      });
    }
    if (spec.kind === 'skimmer' || s.flow_m3s <= 1e-9) return;
    if (spec.coverRating_m3s === undefined) {
      out.push({
        code: 'suction-cover-unknown',
        severity: 'unsure',
        path,
        message: `${s.name} draws ${say(s.flow_m3s, 'flow')}; the flow its cover is rated for is not entered.`,
        remedy: 'Read the rating on the cover and enter it. A cover without a rating is to be replaced.',
      });
    }
    if (open.length === 1) {
      out.push({
        code: 'suction-single',
        severity: 'safety',
        path,
        message: `All water is drawn through ${s.name}. A single opening that a body can cover holds it under water.`,
        remedy: 'Open a skimmer beside it; never run on a single suction that can be blocked.',
      });
    }
  });
  return out;
}

/** Every element of the loop and of the collector's plumbing, with its pointer. */
export function* elementsOf(
  path: Path,
  pointer: string,
): Generator<{ element: PathElement; pointer: string }> {
  for (let i = 0; i < path.length; i++) {
    const element = path[i];
    yield { element, pointer: `${pointer}/${i}` };
    if (element.kind !== 'split') continue;
    for (let b = 0; b < element.branches.length; b++) {
      yield* elementsOf(element.branches[b], `${pointer}/${i}/branches/${b}`);
    }
  }
}

function deviceNotices(project: Project, solved: SolvedFlow, say: Say): Notice[] {
  const out: Notice[] = [];
  const { loop } = project;
  const paths: [Path, string][] = [
    [loop.toPump, '/loop/toPump'],
    [loop.toFilter, '/loop/toFilter'],
    [loop.toBypass, '/loop/toBypass'],
    [loop.feed, '/loop/feed'],
    [loop.return, '/loop/return'],
    [loop.toPool, '/loop/toPool'],
  ];
  for (const [path, pointer] of paths) {
    for (const { element, pointer: at } of elementsOf(path, pointer)) {
      if (element.kind !== 'device' || element.minFlow_m3s === undefined) continue;
      const link = solved.assembled.infos.findIndex((info) => info.path === at);
      if (link < 0) continue;
      const flow =
        solved.solution.network.flow_kgs[link] / solved.assembled.description.referenceDensity_kgm3;
      const check = checkDeviceFlow(flow, element.minFlow_m3s);
      if (!check.exceeded || !(solved.speed > 0)) continue;
      out.push({
        code: 'device-flow-low',
        severity: 'damage',
        path: at,
        message: `${element.name} gets ${say(check.value, 'flow')} and needs at least ${say(check.limit, 'flow')}: it may switch off, or overheat.`,
        remedy: 'Raise the pump speed, clean the filter, or send more water past the collector.',
      });
    }
  }
  return out;
}

function pressureNotices(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  tables: Tables,
  say: Say,
): Notice[] {
  const out: Notice[] = [];
  const { assembled, solution } = solved;
  const { absolute_Pa, at } = values.lowestPressure;
  const { grade } = gradePressure(absolute_Pa, waterVapourPressure(solved.water_C));
  // what is not to be had is told by itself
  if (grade !== 'fine' && values.attainable) {
    const vacuum = pressureAtElevation(project.site.elevation_m) - absolute_Pa;
    const link = assembled.infos.findIndex((i) => i.name === at);
    out.push({
      code: grade === 'fail' ? 'pressure-too-low' : 'pressure-low',
      severity: grade === 'fail' ? 'damage' : 'unsure',
      path: link >= 0 ? assembled.infos[link].path : '/loop',
      message: `The lowest pressure is at ${at}: ${say(vacuum, 'pressure')} of vacuum, ${say(absolute_Pa, 'pressure')} absolute. ${grade === 'fail' ? 'Soft pipe can collapse and the water column can break.' : 'Soft pipe may flatten in the sun.'}`,
      remedy:
        'Lower the collector or its return, put a vacuum breaker at the top, or throttle the return at the pool instead of the feed.',
    });
  }
  let worst: { name: string; path: string; value: number; limit: number } | null = null;
  assembled.infos.forEach((info, link) => {
    const law = assembled.description.links[link].law;
    if (law.kind !== 'pipe' && law.kind !== 'coil') return;
    const size = pipeOf(project, info.path, assembled, info.bank, tables);
    if (!size?.rating_Pa) return;
    const gauge = Math.max(solution.network.fromPressure_Pa[link], solution.network.toPressure_Pa[link]);
    const share = deratingFactor(size.material, RUNNING_WALL_C) ?? 0.5;
    const { ok, allowed_Pa } = ratedAt(size.rating_Pa, share, gauge);
    if (ok) return;
    if (!worst || gauge / allowed_Pa > worst.value / worst.limit) {
      worst = { name: info.name, path: info.path, value: gauge, limit: allowed_Pa };
    }
  });
  if (worst) {
    const w: { name: string; path: string; value: number; limit: number } = worst;
    out.push({
      code: 'pressure-over-rating',
      severity: 'damage',
      path: w.path,
      message: `${w.name} stands under ${say(w.value, 'pressure')}; at ${say(RUNNING_WALL_C, 'temperature')} it is rated for ${say(w.limit, 'pressure')}.`,
      remedy:
        'Use pipe of a higher rating, lower the pump speed, or throttle before it instead of behind it.',
    });
  }
  return out;
}

function pipeOf(
  project: Project,
  path: string,
  assembled: SolvedFlow['assembled'],
  bank: number,
  tables: Tables,
): ReturnType<Tables['sizes']> | null {
  if (bank >= 0) {
    const geometry = assembled.geometry.banks[bank];
    if (path.endsWith('/supply')) return geometry.supply?.size ?? null;
    if (path.endsWith('/gather')) return geometry.gather?.size ?? null;
    return geometry.size;
  }
  const element = elementAt(project, path);
  return element?.kind === 'pipe' ? tables.sizes(element.pipe) : null;
}

function sectionNotices(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  costing: Costing,
): Notice[] {
  const { plumbing } = project.collector;
  const parallel = plumbing.parallel;
  if (!parallel || values.collectorFlow_m3s <= 1e-9) return [];
  const sections = values.collector.sections.filter((s) => Math.abs(s.flow_m3s) > 1e-12);
  if (sections.length < 2) return [];
  const perTube = sections.map((s) => {
    const bank = values.collector.banks.find((b) => b.section === s.id);
    const tubes = bank?.tubes.filter((t) => t.state !== 'blocked' && t.state !== 'airBound').length ?? 1;
    return { ...s, perTube: s.flow_m3s / Math.max(1, tubes) };
  });
  const mean = perTube.reduce((sum, s) => sum + s.perTube, 0) / perTube.length;
  const least = perTube.reduce((a, b) => (b.perTube < a.perTube ? b : a));
  const most = perTube.reduce((a, b) => (b.perTube > a.perTube ? b : a));
  const spread = (most.perTube - least.perTube) / mean;
  if (!(spread > UNEVEN_SECTIONS)) return [];
  const heights = solved.assembled.geometry.sections.map((s) => s.inlet.height_m);
  const apart = Math.max(...heights) - Math.min(...heights) > 0.05;
  const notices: Notice[] = [
    {
      code: 'sections-share-unevenly',
      severity: 'heat',
      path: '/collector/plumbing',
      message:
        `A tube of ${least.name} gets ${percent(least.perTube / mean)} of the mean, one of ${most.name} ` +
        `${percent(most.perTube / mean)}: the pipes to and from ${least.name} take more head.` +
        (apart
          ? ' That they stand at different heights is not the reason: in a full loop height cancels.'
          : ''),
      remedy: `Throttle ${most.name} with a balancing valve, or make the ways to all sections equally long.`,
    },
  ];
  const cost = costing({ kind: 'sections' });
  return notices.map((n) => withCost(n, cost));
}

function openTapNotices(solved: SolvedFlow, say: Say): Notice[] {
  const out: Notice[] = [];
  const density = solved.assembled.description.referenceDensity_kgm3;
  for (const tap of solved.assembled.taps) {
    if (!tap.open || (tap.purpose !== 'drain' && tap.purpose !== 'bleed')) continue;
    const link = solved.assembled.infos.findIndex((i) => i.role === 'tap' && i.path === tap.path);
    const flow = link < 0 ? 0 : solved.solution.network.flow_kgs[link] / density;
    if (!(flow > 1e-9)) continue;
    out.push({
      code: 'tap-runs',
      severity: 'damage',
      path: tap.path,
      message: `${tap.id} stands open and lets out ${say(flow, 'flow')} while the pump runs; the pool empties through it.`,
      remedy: 'Close it.',
    });
  }
  return out;
}

function turnoverNotices(project: Project, values: FlowValues, say: Say): Notice[] {
  const target = project.loop.turnoverTarget_h;
  if (target === undefined || !(values.flow_m3s > 1e-9)) return [];
  const check = checkTurnover(poolSize(project.pool).volume_m3, values.flow_m3s, target);
  if (!check.exceeded) return [];
  return [
    {
      code: 'turnover-long',
      severity: 'info',
      path: '/loop/turnoverTarget_h',
      message: `The pool is turned over in ${say(check.value * 3600, 'time')}; you asked for ${say(target * 3600, 'time')}.`,
      remedy: 'Run the pump faster or longer.',
    },
  ];
}

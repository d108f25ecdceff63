import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import { waterVapourPressure } from '@sunlap/engine/fluids/water';
import { turnoverHours } from '@sunlap/engine/hydraulics/limits';
import { endPressures, lowestPressure, suctionHeadAvailable } from '@sunlap/engine/hydraulics/pressure';
import { preparePump, pumpHead, pumpPower } from '@sunlap/engine/hydraulics/pump';
import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { Project } from '@sunlap/project/schema/project';
import type { AssembledNetwork } from '../assembly/network';
import { poolSize } from '../assembly/pool-size';
import type { CurvePoint, FlowValues } from '../results';
import { bankFlows } from './bank-report';
import { drainFinding } from './drains';
import { fillVolume_m3 } from './filling';
import { loopPieces, pipeVelocities } from './piece-report';
import type { LoopSolution } from './solver';
import { still } from './still';

/** What the one solution says, with the slow parts left open. */
export function flowValues(
  project: Project,
  assembled: AssembledNetwork,
  solution: LoopSolution,
  water_C: number,
  speed: number,
): FlowValues {
  const { network } = solution;
  const { description, pump } = assembled;
  const density = description.referenceDensity_kgm3;
  const atmosphere = pressureAtElevation(project.site.elevation_m);
  const vapour = waterVapourPressure(water_C);
  const flow_m3s = still(network.flow_kgs[pump.link] / density);
  const collectorFlow_m3s = still(network.flow_kgs[assembled.collectorLink] / density);
  const head_m = network.head_m[pump.toNode] - network.head_m[pump.fromNode];
  const dry = dryLinks(assembled, solution);
  const lowest = lowestPressure(endPressures(description, network, atmosphere, vapour), dry);
  const attainable = lowest === null || !(lowest.absolute_Pa < vapour);
  const found = bankFlows(assembled, project.collector, solution);
  const banks = attainable ? found : found.map((bank) => ({ ...bank, headerVerdict: null }));
  const velocities = pipeVelocities(assembled, solution);
  const pool = poolSize(project.pool);
  const suctionHead = network.head_m[pump.fromNode];
  const volume_m3 = assembled.geometry.volume_m3;
  const fill_m3 = fillVolume_m3(assembled, project.pool.waterLevel_m ?? 0);
  const suctionFlows = assembled.suctions.map((s) => {
    const link = s.throttle >= 0 ? s.throttle : s.first;
    const lanes = s.throttle >= 0 ? 1 : assembled.infos[link].lanes;
    return still((network.flow_kgs[link] * lanes) / density);
  });
  const drawn = suctionFlows.reduce((sum, q) => sum + q, 0);
  return {
    flow_m3s,
    collectorFlow_m3s,
    pump: {
      head_m,
      power_W: pumpPower(
        pump.power,
        pump.driveLoad_W,
        speed,
        Math.max(0, flow_m3s),
        head_m,
        density,
        GRAVITY_MS2,
      ),
      speed,
      npshAvailable_m: suctionHeadAvailable(
        atmosphere,
        vapour,
        density,
        description.nodes[pump.fromNode].elevation_m,
        -suctionHead,
      ),
      suction_Pa: network.fromPressure_Pa[pump.link],
    },
    collector: {
      headLoss_m: network.head_m[assembled.collectorIn] - network.head_m[assembled.collectorOut],
      volume_m3,
      sections: project.collector.sections.flatMap((s, i) => {
        const links = assembled.sections[i];
        if (!links) return [];
        const q = still(links.enter.reduce((sum, e) => sum + e.sign * network.flow_kgs[e.link], 0) / density);
        return [
          {
            id: s.id,
            name: s.name ?? s.id,
            flow_m3s: q,
            headLoss_m: network.head_m[links.inNode] - network.head_m[links.outNode],
            share: collectorFlow_m3s > 1e-12 ? q / collectorFlow_m3s : 0,
          },
        ];
      }),
      banks,
      tubesWithoutWater: banks.reduce((sum, b) => sum + b.tubes.filter(isWithoutWater).length, 0),
      drains: drainFinding(project, assembled),
    },
    suctions: project.loop.suctions.map((s, i) => ({
      id: s.id,
      name: s.name ?? s.id,
      flow_m3s: suctionFlows[i],
      share: drawn > 1e-12 ? suctionFlows[i] / drawn : 0,
      coverRating_m3s: s.coverRating_m3s ?? null,
    })),
    outlets: assembled.outlets.map((o) => ({
      id: o.id,
      name: o.name,
      flow_m3s: still(network.flow_kgs[o.mouth] / density),
    })),
    start: { leastFlowAllTubes_m3s: null, leastStartSpeed: null, leastRunSpeed: null, sections: [] },
    vacuumBreaker: null,
    attainable,
    lowestPressure: lowest
      ? { absolute_Pa: Math.max(lowest.absolute_Pa, vapour), at: assembled.infos[lowest.link].name }
      : { absolute_Pa: atmosphere, at: '' },
    turnover_h: flow_m3s > 1e-9 ? turnoverHours(pool.volume_m3, flow_m3s) : null,
    loop: {
      pieces: loopPieces(assembled, solution),
      pumpCurve: pumpCurve(assembled, speed),
      curveThrough: [],
      curveNow: [],
      curvePast: [],
      suctionVelocity_ms: velocities.suction_ms,
      pressureVelocity_ms: velocities.pressure_ms,
    },
    firstFill: {
      volume_m3: fill_m3,
      minutes: collectorFlow_m3s > 0 ? fill_m3 / collectorFlow_m3s / 60 : null,
      poolFall_m: fill_m3 / pool.surface_m2,
    },
  };
}

function isWithoutWater(tube: { state: string }): boolean {
  return tube.state !== 'full' && tube.state !== 'outfall';
}

/** Tubes that hold air: they have no water pressure. */
function dryLinks(assembled: AssembledNetwork, solution: LoopSolution): Set<number> {
  const dry = new Set<number>();
  solution.air?.tubes.forEach((t, i) => {
    if (t.state !== 'full' && t.state !== 'outfall') dry.add(solution.airTubes[i]);
  });
  assembled.infos.forEach((info, link) => {
    if (info.role === 'tube' && assembled.description.links[link].closed) dry.add(link);
  });
  return dry;
}

const CURVE_POINTS = 24;

/** The pump's curve at its speed, from shut-off to the end of its points or to no head. */
function pumpCurve(assembled: AssembledNetwork, speed: number): CurvePoint[] {
  if (!(speed > 0)) return [];
  const prepared = preparePump(assembled.pump.curve);
  const most = assembled.pump.lastFlow_m3s * speed;
  const points: CurvePoint[] = [];
  for (let i = 0; i <= CURVE_POINTS; i++) {
    const flow = (most * i) / CURVE_POINTS;
    points.push({ flow_m3s: flow, head_m: Math.max(0, pumpHead(prepared, speed, flow)) });
  }
  return points;
}

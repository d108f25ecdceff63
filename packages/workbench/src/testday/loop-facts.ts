import { pieceVolume } from '@sunlap/engine/hydraulics/fill';
import { preparePump, pumpHead } from '@sunlap/engine/hydraulics/pump';
import type { PumpCurve } from '@sunlap/engine/measurement/flow-gauges';
import { findRoot } from '@sunlap/engine/numeric/roots';
import type { Project } from '@sunlap/project/schema/project';
import { type SolvedFlow, solveFlow } from '../flow/flow-basic';

/** What the network says that readings of flow are read against. */
export interface LoopFacts {
  readonly pump_m3s: number;
  readonly collector_m3s: number;
  /** Part of the pump's flow that the collector gets [–]. */
  readonly split: number;
  /** True when a valve parts the water, so that the split rests on how it stands. */
  readonly parted: boolean;
  /** True when the collector's return has its own mouth at the pool. */
  readonly ownReturn: boolean;
  readonly density_kgm3: number;
  readonly suction_Pa: number;
  outletFlow_m3s(id: string): number | null;
  /** The same with that outlet, or all, held higher; null where it does not converge. */
  outletFlowLifted_m3s(id: string | null, lift_m: number): number | null;
  /** Water, as seen by the collector's flow, from the valve (or the collector's outlet) to where a hand is held [m³]. */
  frontVolume_m3(front: 'first' | 'last', felt: 'collectorOutlet' | 'poolOutlet'): number;
  readonly pumpCurve: PumpCurve;
}

/** Reads the facts out of one solution of the loop. */
export function loopFacts(project: Project, solved: SolvedFlow): LoopFacts {
  const { assembled, solution } = solved;
  const density_kgm3 = assembled.description.referenceDensity_kgm3;
  const flowOf = (link: number): number => solution.network.flow_kgs[link] / density_kgm3;
  const pump_m3s = flowOf(assembled.pump.link);
  const collector_m3s = flowOf(assembled.collectorLink);
  const split = pump_m3s > 1e-9 ? Math.min(1, Math.max(0, collector_m3s / pump_m3s)) : 1;
  const outlets = (from: SolvedFlow, id: string | null): number | null => {
    const at = from.assembled.outlets.filter((o) => id === null || o.id === id);
    if (at.length === 0) return null;
    const kgs = at.reduce((sum, o) => sum + from.solution.network.flow_kgs[o.mouth], 0);
    return kgs / from.assembled.description.referenceDensity_kgm3;
  };
  return {
    pump_m3s,
    collector_m3s,
    split,
    parted: split < 0.995,
    ownReturn: project.loop.returnOutlet !== undefined,
    density_kgm3,
    suction_Pa: solution.network.fromPressure_Pa[assembled.pump.link],
    outletFlow_m3s: (id) => outlets(solved, id),
    outletFlowLifted_m3s(id, lift_m) {
      if (lift_m === 0) return outlets(solved, id);
      const higher = solveFlow(lifted(project, id, lift_m), { water_C: solved.water_C, speed: solved.speed });
      return higher.solution.converged ? outlets(higher, id) : null;
    },
    frontVolume_m3: (front, felt) => frontVolume_m3(solved, split, front, felt),
    pumpCurve: gaugeCurve(solved),
  };
}

/** Outlets under water end at the pool's surface, those over it at their own height. */
function lifted(project: Project, id: string | null, lift_m: number): Project {
  const level = project.pool.waterLevel_m ?? 0;
  const raise = <T extends Project['loop']['outlets'][number]>(o: T): T =>
    id !== null && o.id !== id
      ? o
      : { ...o, kind: 'overWater', height_m: (o.kind === 'underWater' ? level : o.height_m) + lift_m };
  const { loop } = project;
  return {
    ...project,
    loop: {
      ...loop,
      outlets: loop.outlets.map(raise),
      ...(loop.returnOutlet ? { returnOutlet: raise(loop.returnOutlet) } : {}),
    },
  };
}

/** Where both ways have met the water runs faster by 1/split, so that it counts for less. */
function frontVolume_m3(
  solved: SolvedFlow,
  split: number,
  front: 'first' | 'last',
  felt: 'collectorOutlet' | 'poolOutlet',
): number {
  const { assembled } = solved;
  const { links } = assembled.description;
  let volume = 0;
  const add = (path: string, weight: number): void => {
    assembled.infos.forEach((info, i) => {
      const { law } = links[i];
      if (!info.path.startsWith(path) || info.role === 'outlet' || law.kind !== 'pipe') return;
      volume += weight * pieceVolume({ length_m: law.length_m, bore_m: law.bore_m });
    });
  };
  if (front === 'last') {
    add('/loop/feed', 1);
    add('/collector/plumbing', 1);
    volume += assembled.geometry.volume_m3;
  }
  if (felt === 'poolOutlet') {
    add('/loop/return', 1);
    add('/loop/toPool', split);
  }
  return volume;
}

/** The pump at its speed, head by flow and flow by head. */
function gaugeCurve(solved: SolvedFlow): PumpCurve {
  const { pump } = solved.assembled;
  const prepared = preparePump(pump.curve);
  const speed = Math.max(solved.speed, 1e-3);
  const head_m = (q: number): number => pumpHead(prepared, speed, q);
  // to where the curve is known, or to no head at all when that comes first
  let maxFlow_m3s = pump.lastFlow_m3s * speed;
  if (head_m(maxFlow_m3s) < 0) maxFlow_m3s = findRoot(head_m, 0, maxFlow_m3s, 1e-9).root;
  return {
    head_m,
    maxFlow_m3s,
    flow_m3s: (head) => findRoot((q) => head_m(q) - head, 0, maxFlow_m3s, 1e-9).root,
  };
}

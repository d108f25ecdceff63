import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { AssembledNetwork } from '../assembly/network';
import type { LoopPiece } from '../results';
import type { LoopSolution } from './solver';
import { still } from './still';

/** Pieces of the loop in the order in which water passes, hand-overs inside sections left to the collector. */
export function loopPieces(assembled: AssembledNetwork, solution: LoopSolution): LoopPiece[] {
  const { description } = assembled;
  const { network } = solution;
  const density = description.referenceDensity_kgm3;
  const relieved = relievedNodes(assembled, solution);
  const pressure = (node: number): number =>
    relieved.has(node)
      ? 0
      : density * GRAVITY_MS2 * (network.head_m[node] - description.nodes[node].elevation_m);
  const pieces: LoopPiece[] = [];
  for (const p of assembled.pieces) {
    if (p.path.startsWith('/collector/sections')) continue;
    const first = p.links[0];
    const last = p.links[p.links.length - 1];
    const isCollector = first === undefined;
    const link = isCollector ? assembled.collectorLink : first;
    pieces.push({
      id: p.id,
      name: p.name,
      path: p.path,
      kind: p.kind,
      way: p.way,
      flow_m3s: still((network.flow_kgs[link] * p.lanes) / density),
      velocity_ms: isCollector ? 0 : network.velocity_ms[first],
      start_m: p.start_m,
      end_m: p.end_m,
      startHeight_m: description.nodes[p.fromNode].elevation_m,
      endHeight_m: description.nodes[p.toNode].elevation_m,
      startHead_m: network.head_m[p.fromNode],
      endHead_m: network.head_m[p.toNode],
      startGauge_Pa: isCollector ? pressure(p.fromNode) : network.fromPressure_Pa[first],
      endGauge_Pa: isCollector ? pressure(p.toNode) : network.toPressure_Pa[last],
      headLoss_m: network.head_m[p.fromNode] - network.head_m[p.toNode],
    });
  }
  return pieces;
}

/** Nodes at which air that was let in stands in place of suction. */
function relievedNodes({ description }: AssembledNetwork, { air, network }: LoopSolution): Set<number> {
  const out = new Set<number>();
  if (air === null) return out;
  description.links.forEach(({ from, to }, i) => {
    const under = (node: number): boolean => network.head_m[node] < description.nodes[node].elevation_m;
    if (network.fromPressure_Pa[i] === 0 && under(from)) out.add(from);
    if (network.toPressure_Pa[i] === 0 && under(to)) out.add(to);
  });
  return out;
}

/** Highest velocity on the pool side of the pump and on its pressure side, in pipes outside the collector. */
export function pipeVelocities(
  assembled: AssembledNetwork,
  solution: LoopSolution,
): { suction_ms: number; suctionLink: number; pressure_ms: number; pressureLink: number } {
  const out = { suction_ms: 0, suctionLink: -1, pressure_ms: 0, pressureLink: -1 };
  assembled.infos.forEach((info, link) => {
    if (info.role !== 'pipe') return;
    const v = Math.abs(solution.network.velocity_ms[link]);
    // links are put in the order in which water passes: what comes before the pump is suction
    if (link < assembled.pump.link) {
      if (v > out.suction_ms) [out.suction_ms, out.suctionLink] = [v, link];
    } else if (v > out.pressure_ms) [out.pressure_ms, out.pressureLink] = [v, link];
  });
  return out;
}

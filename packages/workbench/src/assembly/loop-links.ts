import { type FilterCoefficients, filterFromLoss } from '@sunlap/engine/hydraulics/filter';
import { FITTING_LOSS } from '@sunlap/engine/hydraulics/fitting-loss';
import type { Filter, Loop, Outlet } from '@sunlap/project/schema/loop';
import { addLink, addNode, type Draft } from './draft';
import { givenPathEnd_m, pathLength_m } from './heights';
import { addPath, DEFAULT_BORE_M, type PathEnd } from './path-links';
import type { Tables } from './tables';

/** Water of the clean filter's stated loss: 25 °C, as the filter table's rows. */
const FILTER_DENSITY = 997.05;
const FILTER_VISCOSITY = 8.9e-4;

/** A suction's links: its mouth, what holds its typed share, and the node where suctions meet. */
export interface SuctionLinks {
  readonly first: number;
  /** Throttle that holds a typed share; −1 where no share was typed anywhere. */
  readonly throttle: number;
  readonly mouthNode: number;
}

export interface OutletLinks {
  readonly mouth: number;
  readonly path: string;
  readonly id: string;
  readonly name: string;
}

/**
 * Suctions from the pool to where they meet.
 *
 * @param level_m water level over normal [m]
 */
export function addSuctions(
  draft: Draft,
  loop: Loop,
  tables: Tables,
  level_m: number,
): { end: PathEnd; suctions: SuctionLinks[] } {
  const shared = loop.suctions.some((s) => s.share !== undefined) && loop.suctions.length > 1;
  const meetHeight = loop.suctions.map((s) => givenPathEnd_m(s.path)).find((h) => h !== undefined);
  const meet = addNode(draft, '/loop/toPump/0', meetHeight ?? loop.pump.height_m);
  const suctions: SuctionLinks[] = [];
  let longest = 0;
  let bore = DEFAULT_BORE_M;
  loop.suctions.forEach((suction, i) => {
    const pointer = `/loop/suctions/${i}`;
    const name = suction.name ?? suction.id;
    const mouthNode = addNode(draft, name, -suction.depth_m, level_m);
    const end = shared ? addNode(draft, `${pointer}/share`, draft.nodes[meet].elevation_m) : meet;
    const first = draft.links.length;
    const piece = draft.pieces.length;
    const reached = addPath(draft, suction.path, tables, mouthNode, end, {
      pointer: `${pointer}/path`,
      way: 'common',
      distance_m: 0,
      endHeight_m: draft.nodes[meet].elevation_m,
      bore_m: null,
      fromPool: true,
    });
    // the first thing behind the mouth stands for the suction on the loop sheet
    const head = draft.pieces[piece];
    if (head) draft.pieces[piece] = { ...head, id: suction.id, name, path: pointer, kind: 'suction' };
    let throttle = -1;
    if (shared) {
      const closed = suction.share === 0;
      const law = {
        kind: 'device',
        bore_m: reached.bore_m,
        ratedLoss_Pa: 0,
        ratedFlow_m3s: 1e-3,
      } as const;
      throttle = addLink(draft, end, meet, law, closed, 'share', pointer, `${name}, share`);
    }
    suctions.push({ first, throttle, mouthNode });
    longest = Math.max(longest, pathLength_m(suction.path));
    bore = reached.bore_m;
  });
  return {
    end: {
      node: meet,
      height_m: draft.nodes[meet].elevation_m,
      distance_m: longest,
      bore_m: bore,
      lastLink: -1,
    },
    suctions,
  };
}

/**
 * Ergun coefficients of a filter as dirty as it is. Two clean points give both; one is parted by the table's
 * viscous share.
 */
export function filterCoefficients(filter: Filter, tables: Tables): FilterCoefficients {
  const [a, b] = filter.clean;
  if (b && Math.abs(b.flow_m3s - a.flow_m3s) > 1e-9) {
    // drop/Q = k1·µ + k2·ρ·Q: a line through the two points, both ends kept ≥ 0
    const ya = a.drop_Pa / a.flow_m3s;
    const yb = b.drop_Pa / b.flow_m3s;
    const slope = Math.max(0, (yb - ya) / (b.flow_m3s - a.flow_m3s));
    const foot = Math.max(0, ya - slope * a.flow_m3s);
    return { k1: (filter.dirt * foot) / FILTER_VISCOSITY, k2: slope / FILTER_DENSITY };
  }
  const share = tables.viscousShare(filter.kind);
  return filterFromLoss(a.drop_Pa, a.flow_m3s, share, filter.dirt - 1, FILTER_DENSITY, FILTER_VISCOSITY);
}

/** Outlet pipe and mouth. A mouth over the water lies open to the air. */
export function addOutlet(
  draft: Draft,
  outlet: Outlet,
  tables: Tables,
  pointer: string,
  start: PathEnd,
  level_m: number,
  way: 'common' | 'through',
): OutletLinks {
  const name = outlet.name ?? outlet.id;
  const end = addPath(draft, outlet.path, tables, start.node, null, {
    pointer: `${pointer}/path`,
    way,
    distance_m: start.distance_m,
    endHeight_m: outlet.height_m,
    bore_m: start.bore_m,
    toOutlet: true,
  });
  const open = outlet.kind === 'overWater' && outlet.height_m >= level_m;
  const pool = addNode(draft, name, outlet.height_m, open ? outlet.height_m : level_m);
  const bore_m = outlet.bore_m ?? end.bore_m;
  const law = { kind: 'outlet', bore_m } as const;
  const mouth = addLink(draft, end.node, pool, law, false, 'outlet', pointer, name);
  draft.pieces.push({
    id: outlet.id,
    name,
    path: pointer,
    kind: 'outlet',
    way,
    start_m: end.distance_m,
    end_m: end.distance_m,
    links: [mouth],
    lanes: 1,
    fromNode: end.node,
    toNode: pool,
  });
  return { mouth, path: pointer, id: outlet.id, name };
}

/** Bore of a small drain or bleed cock, half-inch; the file does not size them. */
const TAP_BORE_M = 0.0127;

/** Open drains and bleeds let water out; shut ones and automatic vents make no link. */
export function addOpenTaps(draft: Draft): void {
  for (const tap of [...draft.taps]) {
    if (!tap.open || (tap.purpose !== 'drain' && tap.purpose !== 'bleed')) continue;
    // a named tee has no place for a fourth leg: it counts as a plain junction then
    const tee = draft.tees.findIndex((t) => t.node === tap.node);
    if (tee >= 0) draft.tees.splice(tee, 1);
    const air = addNode(draft, `${tap.path}/air`, tap.height_m, tap.height_m);
    const law = { kind: 'outlet', bore_m: TAP_BORE_M } as const;
    // water leaves but none comes in: a check valve in front of the mouth
    const gate = addNode(draft, `${tap.path}/gate`, tap.height_m);
    const check = {
      kind: 'checkValve',
      bore_m: TAP_BORE_M,
      coefficient: FITTING_LOSS.entranceSharp,
    } as const;
    addLink(draft, tap.node, gate, check, false, 'tap', tap.path, tap.id);
    addLink(draft, gate, air, law, false, 'tap', tap.path, tap.id);
  }
}

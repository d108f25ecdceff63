import { waterDensity, waterViscosity } from '@sunlap/engine/fluids/water';
import type { NetworkDescription } from '@sunlap/engine/hydraulics/network-types';
import { threeWayKv } from '@sunlap/engine/hydraulics/valve';
import type { Project } from '@sunlap/project/schema/project';
import type { BankLinks } from './bank-links';
import type { SectionLinks } from './collector-context';
import { addCollector } from './collector-links';
import {
  type AssumedPipe,
  addLink,
  addNode,
  type Draft,
  type JoinFittings,
  type LinkInfo,
  newDraft,
  type PieceDraft,
  type TapPlace,
} from './draft';
import { type PanelGeometry, panelGeometry } from './geometry';
import { type InLineJoint, type PlacedJoints, placeInLine } from './in-line';
import {
  addOpenTaps,
  addOutlet,
  addSuctions,
  filterCoefficients,
  type OutletLinks,
  type SuctionLinks,
} from './loop-links';
import { standingKv_m3h } from './losses';
import { nodesOf, placeTaps } from './panel-taps';
import { addPath, type PathEnd, type PathPlace } from './path-links';
import { inletHeight_m } from './plumbing-places';
import { type PumpData, pumpData } from './pump-link';
import type { Tables } from './tables';

/** Changes of the project that a study makes without writing them into it. */
export interface NetworkOptions {
  /** Loop's mean temperature, for density and viscosity [°C]; 26 when absent. */
  readonly water_C?: number;
  /** Pump speed instead of the file's. */
  readonly speed?: number;
  /** Opening of the bypass towards the collector: 1 all through, 0 all past, instead of the file's. */
  readonly toCollector?: 0 | 1;
  /** Joints in line as the parts list has them, see `inLineJoints`; none when absent. */
  readonly inLine?: readonly InLineJoint[];
  /** Mean density and viscosity by link, when temperatures are known. */
  readonly density_kgm3?: ArrayLike<number>;
  readonly viscosity_Pas?: ArrayLike<number>;
}

/** A project's water as a network, and what each link is. */
export interface AssembledNetwork {
  readonly description: NetworkDescription;
  readonly infos: readonly LinkInfo[];
  readonly geometry: PanelGeometry;
  readonly banks: readonly BankLinks[];
  readonly sections: readonly SectionLinks[];
  readonly taps: readonly TapPlace[];
  readonly assumed: readonly AssumedPipe[];
  readonly joinFittings: readonly JoinFittings[];
  /** Couplings, unions and tees of taps whose loss it has. */
  readonly joints: PlacedJoints;
  readonly pieces: readonly PieceDraft[];
  readonly pump: PumpData & { readonly link: number; readonly fromNode: number; readonly toNode: number };
  readonly suctions: readonly SuctionLinks[];
  readonly outlets: readonly OutletLinks[];
  /** Nodes where the collector begins and ends, feed and return pipes outside. */
  readonly collectorIn: number;
  readonly collectorOut: number;
  /** Link that carries just what the collector gets: the valve before it, or the pump when nothing parts. */
  readonly collectorLink: number;
  readonly valves: { readonly toCollector: number; readonly past: number };
  /** True when suctions have throttles that hold typed shares; `shares` are those, by suction. */
  readonly throttled: boolean;
  readonly shares: readonly (number | undefined)[];
}

const DEFAULT_WATER_C = 26;

/**
 * Project file to network. Never throws for a parsed file: what is missing or dangling is left out or stood in
 * for, and `check` says so.
 *
 * @param geometry of the same collector, when it is known already
 */
export function assembleNetwork(
  project: Pick<Project, 'collector' | 'loop' | 'pool'>,
  tables: Tables,
  options: NetworkOptions = {},
  geometry: PanelGeometry = panelGeometry(project.collector, tables.sizes),
): AssembledNetwork {
  const { collector, loop } = project;
  const level_m = project.pool.waterLevel_m ?? 0;
  const water_C = options.water_C ?? DEFAULT_WATER_C;
  const draft = newDraft(options.density_kgm3 ?? null, options.viscosity_Pas ?? null);

  const { end: suctionEnd, suctions } = addSuctions(draft, loop, tables, level_m);
  const toPump = follow(
    draft,
    loop.toPump,
    tables,
    suctionEnd,
    'common',
    '/loop/toPump',
    loop.pump.height_m,
    null,
  );
  const pump = addPump(draft, project, tables, toPump, options.speed ?? loop.pump.speed);
  const filtered = addFilter(draft, project, tables, pump.end);
  const toBypass = follow(draft, loop.toBypass, tables, filtered, 'common', '/loop/toBypass', null, null);

  const ways = addBypass(draft, project, tables, toBypass, options.toCollector);
  const feedHeight =
    collector.plumbing.before === undefined ? inletHeight_m(collector.plumbing, collector, geometry) : null;
  const feed = follow(draft, loop.feed, tables, ways.through, 'through', '/loop/feed', feedHeight, null);
  const inside = addCollector(draft, collector, geometry, tables, feed.node, feed.distance_m);
  const atOutlet: PathEnd = {
    ...feed,
    node: inside.outNode,
    distance_m: feed.distance_m + inside.length_m,
    bore_m: inside.bore_m ?? feed.bore_m,
  };
  draft.pieces.push({
    id: 'collector',
    name: 'Collector',
    path: '/collector',
    kind: 'collector',
    way: 'through',
    start_m: feed.distance_m,
    end_m: atOutlet.distance_m,
    links: [],
    lanes: 1,
    fromNode: feed.node,
    toNode: inside.outNode,
  });

  const outlets: OutletLinks[] = [];
  let meet: PathEnd | null = ways.past;
  if (loop.returnOutlet) {
    const back = follow(draft, loop.return, tables, atOutlet, 'through', '/loop/return', null, null);
    outlets.push(addOutlet(draft, loop.returnOutlet, tables, '/loop/returnOutlet', back, level_m, 'through'));
  } else {
    const to = meet === null ? null : meet.node;
    const height = meet === null ? null : draft.nodes[meet.node].elevation_m;
    const back = follow(draft, loop.return, tables, atOutlet, 'through', '/loop/return', height, to);
    meet = { ...back, bore_m: meet?.bore_m ?? back.bore_m };
  }
  // with no way past and a return of its own, nothing reaches the pool's outlets
  if (meet !== null) {
    const own = loop.outlets.find((o) => o.path.length === 0)?.height_m ?? null;
    const parting = follow(draft, loop.toPool, tables, meet, 'common', '/loop/toPool', own, null);
    loop.outlets.forEach((outlet, i) => {
      outlets.push(addOutlet(draft, outlet, tables, `/loop/outlets/${i}`, parting, level_m, 'common'));
    });
  }
  placeTaps(draft, project, inside.banks, geometry);
  const joints = placeInLine(draft, options.inLine ?? [], nodesOf(draft, inside.sections));
  addOpenTaps(draft);

  return {
    description: {
      referenceDensity_kgm3: waterDensity(water_C),
      viscosity_Pas: waterViscosity(water_C),
      nodes: draft.nodes,
      links: draft.links,
      tees: draft.tees,
    },
    infos: draft.infos,
    geometry,
    banks: inside.banks,
    sections: inside.sections,
    taps: draft.taps,
    assumed: draft.assumed,
    joinFittings: draft.joinFittings,
    joints,
    pieces: draft.pieces,
    pump,
    suctions,
    outlets,
    collectorIn: feed.node,
    collectorOut: inside.outNode,
    collectorLink: ways.toCollector >= 0 ? ways.toCollector : pump.link,
    valves: { toCollector: ways.toCollector, past: ways.pastValve },
    throttled: suctions.some((s) => s.throttle >= 0),
    shares: loop.suctions.map((s) => s.share),
  };
}

function follow(
  draft: Draft,
  path: Parameters<typeof addPath>[1],
  tables: Tables,
  start: PathEnd,
  way: PathPlace['way'],
  pointer: string,
  endHeight_m: number | null,
  to: number | null,
): PathEnd {
  return addPath(draft, path, tables, start.node, to, {
    pointer,
    way,
    distance_m: start.distance_m,
    endHeight_m,
    bore_m: start.bore_m,
  });
}

function addPump(
  draft: Draft,
  project: Pick<Project, 'loop'>,
  tables: Tables,
  start: PathEnd,
  speed: number,
): PumpData & { link: number; fromNode: number; toNode: number; end: PathEnd } {
  const { pump } = project.loop;
  const data = pumpData(pump, tables.shelf);
  const to = addNode(draft, '/loop/toFilter/0', pump.height_m);
  const name = pump.name ?? 'Pump';
  const law = { kind: 'pump', bore_m: start.bore_m, curve: data.curve, speed } as const;
  const link = addLink(draft, start.node, to, law, false, 'pump', '/loop/pump', name);
  draft.pieces.push(
    piece('pump', name, '/loop/pump', 'pump', 'common', start.distance_m, link, start.node, to),
  );
  return { ...data, link, fromNode: start.node, toNode: to, end: { ...start, node: to, lastLink: link } };
}

function piece(
  id: string,
  name: string,
  path: string,
  kind: PieceDraft['kind'],
  way: PieceDraft['way'],
  at_m: number,
  link: number,
  fromNode: number,
  toNode: number,
): PieceDraft {
  return { id, name, path, kind, way, start_m: at_m, end_m: at_m, links: [link], lanes: 1, fromNode, toNode };
}

function addFilter(draft: Draft, project: Pick<Project, 'loop'>, tables: Tables, start: PathEnd): PathEnd {
  const { filter, toFilter } = project.loop;
  const before = follow(
    draft,
    toFilter,
    tables,
    start,
    'common',
    '/loop/toFilter',
    filter?.height_m ?? null,
    null,
  );
  if (!filter) return before;
  const to = addNode(draft, '/loop/toBypass/0', filter.height_m ?? before.height_m);
  const law = { kind: 'filter', bore_m: before.bore_m, ...filterCoefficients(filter, tables) } as const;
  const link = addLink(draft, before.node, to, law, false, 'filter', '/loop/filter', 'Filter');
  draft.pieces.push(
    piece('filter', 'Filter', '/loop/filter', 'filter', 'common', before.distance_m, link, before.node, to),
  );
  return { ...before, node: to, height_m: draft.nodes[to].elevation_m, lastLink: link };
}

interface Ways {
  /** Start of the feed. */
  through: PathEnd;
  /** End of the way past, where the return joins; null when there is none. */
  past: PathEnd | null;
  toCollector: number;
  pastValve: number;
}

function addBypass(
  draft: Draft,
  project: Pick<Project, 'loop'>,
  tables: Tables,
  start: PathEnd,
  toCollector: 0 | 1 | undefined,
): Ways {
  const { bypass } = project.loop;
  if (bypass.kind === 'none') return { through: start, past: null, toCollector: -1, pastValve: -1 };
  const pointer = '/loop/bypass';
  const bore_m =
    bypass.kind === 'threeWay' && bypass.pipe !== undefined ? tables.sizes(bypass.pipe).bore_m : start.bore_m;
  const height = draft.nodes[start.node].elevation_m;
  const way = (
    kv_m3h: number,
    path: string,
    id: string,
    name: string,
    which: 'through' | 'past',
  ): PathEnd => {
    const to = addNode(draft, path === pointer ? `${path}/${which}` : path, height);
    const law = { kind: 'valve', bore_m, kv_m3h } as const;
    const link = addLink(draft, start.node, to, law, kv_m3h === 0, 'valve', path, name);
    draft.pieces.push(piece(id, name, path, 'bypass', which, start.distance_m, link, start.node, to));
    return { ...start, node: to, bore_m, lastLink: link };
  };
  let through: PathEnd;
  let past: PathEnd;
  if (bypass.kind === 'threeWay') {
    const kvs_m3h = bypass.kv_m3h ?? tables.openKv_m3h('diverter', bypass.pipe, bore_m);
    const kv = threeWayKv({ kvs_m3h }, toCollector ?? bypass.toCollector);
    through = way(kv.collector_m3h, pointer, bypass.id, 'Bypass valve, to the collector', 'through');
    past = way(kv.past_m3h, pointer, bypass.id, 'Bypass valve, past the collector', 'past');
  } else {
    const kv = (which: 'toCollector' | 'pastValve', opening: number | undefined): number => {
      const valve = bypass[which];
      return standingKv_m3h(opening === undefined ? valve : { ...valve, opening }, bore_m, tables);
    };
    const name = (which: 'toCollector' | 'pastValve', or: string): string => bypass[which].name ?? or;
    const closed = toCollector === undefined ? undefined : 1 - toCollector;
    through = way(
      kv('toCollector', toCollector),
      `${pointer}/toCollector`,
      bypass.toCollector.id,
      name('toCollector', 'Valve to the collector'),
      'through',
    );
    past = way(
      kv('pastValve', closed),
      `${pointer}/pastValve`,
      bypass.pastValve.id,
      name('pastValve', 'Valve past the collector'),
      'past',
    );
  }
  const valves = { toCollector: through.lastLink, pastValve: past.lastLink };
  // the way past must have a link of its own, or both ways would meet in one node
  const end = follow(draft, bypass.past, tables, past, 'past', `${pointer}/past`, null, null);
  return { through, past: end, ...valves };
}

import type { LinkLaw } from '@sunlap/engine/hydraulics/network-types';
import type { Plumbing } from '@sunlap/project/schema/collector';
import type { Fittings, PathElement, PipeRun } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { type InLineKind, jointLoss } from '../../src/assembly/in-line';
import { lossFromKv } from '../../src/assembly/losses';
import { type AssembledNetwork, assembleNetwork } from '../../src/assembly/network';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import type { Bag, PartKind } from '../../src/build/bag';
import { flowLengths, gatherParts } from '../../src/build/parts';
import { randomLayout } from './random-layout';

/** Pipe and coil lengths of the network that the flow study solves, every lane counted. */
function networkPipe_m({ description }: AssembledNetwork): number {
  return description.links.reduce(
    (sum, { law }) => sum + (law.kind === 'pipe' || law.kind === 'coil' ? law.length_m : 0),
    0,
  );
}

/** Parts of a kind by the place in the file that they come from. */
function partsAt(bag: Bag, kind: PartKind, of: (path: string) => boolean = () => true): Map<string, number> {
  const out = new Map<string, number>();
  for (const f of bag.fittings)
    if (f.kind === kind && of(f.path)) out.set(f.path, (out.get(f.path) ?? 0) + f.count);
  return out;
}

const entries = (counts: Map<string, number>): [string, number][] =>
  [...counts].filter(([, n]) => n > 0).sort(([a], [b]) => (a < b ? -1 : 1));

/** What a JSON pointer of the file names. */
const at = (project: Project, pointer: string): unknown =>
  pointer
    .split('/')
    .slice(1)
    .reduce((value: unknown, key) => (value as Record<string, unknown>)[key], project);

/** A kind of fitting in the network's pipes by place: the file's own of each lane, and those of pipes put in for it. */
function elbowsOfNetwork(project: Project, network: AssembledNetwork): Map<string, number> {
  const out = new Map<string, number>();
  const add = (path: string, n: number): void => void out.set(path, (out.get(path) ?? 0) + n);
  for (const [path, n] of runFittings(project, network, 'elbow90')) add(path, n);
  for (const join of network.joinFittings) add(join.path, join.elbows);
  return out;
}

function runFittings(
  project: Project,
  network: AssembledNetwork,
  kind: Fittings[number]['kind'],
): Map<string, number> {
  const out = new Map<string, number>();
  for (const { role, path, lanes } of network.infos) {
    const run = role === 'pipe' ? (at(project, path) as PathElement) : null;
    if (run?.kind !== 'pipe' || out.has(path)) continue;
    const own = ((run as PipeRun).fittings ?? []).filter((f) => f.kind === kind);
    out.set(path, own.reduce((n, f) => n + f.count, 0) * lanes);
  }
  return out;
}

/** Does a part begin, or end, in a header end of a section, and not in pipe of the file's own? */
function bare(part: Plumbing, which: 'before' | 'after'): boolean {
  if (part[which] !== undefined) return false;
  if (part.section !== undefined) return true;
  if (part.series) return bare(part.series[which === 'before' ? 0 : part.series.length - 1], which);
  return part.parallel!.every((p) => p[which] === undefined) && bare(part.parallel![0], which);
}

/** Tees where sections part, or meet, without pipe of the file's own: one for each part but the first. */
function tees(part: Plumbing): number {
  const inner = part.parallel ?? part.series ?? [];
  const own = part.parallel
    ? (['before', 'after'] as const).reduce((n, which) => {
        const [first, ...others] = part.parallel!;
        const plain = part.parallel!.every((p) => p[which] === undefined) && bare(first, which);
        return n + (plain ? others.filter((p) => bare(p, which)).length : 0);
      }, 0)
    : 0;
  return inner.reduce((n, p) => n + tees(p), own);
}

/** The layout with a drain at its first way in, a vent at its last way out, and a bleed at a spare end or another. */
function withTaps(project: Project): Project {
  const { sections } = project.collector;
  const [first, last] = [sections[0], sections[sections.length - 1]];
  const lastBank = last.banks[last.banks.length - 1];
  const tap = (
    id: string,
    section: string,
    bank: string,
    header: 'supply' | 'gather',
    end: 'first' | 'last',
    purpose: 'drain' | 'airVent' | 'bleed',
  ) => ({ id, at: { section, bank, header, end }, purpose });
  return {
    ...project,
    collector: {
      ...project.collector,
      taps: [
        tap('in', first.id, first.banks[0].id, 'supply', first.inletEnds[0], 'drain'),
        tap('out', last.id, lastBank.id, 'gather', last.outletEnds[0], 'airVent'),
        tap('top', last.id, lastBank.id, 'gather', 'first', 'bleed'),
      ].filter((t, i, all) => all.findIndex((o) => JSON.stringify(o.at) === JSON.stringify(t.at)) === i),
    },
  };
}

const area = (bore_m: number): number => bore_m * bore_m;

/** Loss of all joints, each at one unit of flow through the pipes it stands in [K/m⁸]. */
function lossOf(bag: Bag): number {
  return bag.inLine.reduce(
    (sum, j) => sum + (jointLoss(j, j.bore_m!) * j.count) / area(j.bore_m!) ** 2 / 1e6,
    0,
  );
}

/** The same, from what the joints add to the links of the network; lanes that share one joint taken as one. */
function addedLoss(project: Project, bag: Bag): number {
  const k = (law: LinkLaw): number =>
    law.kind === 'pipe' || law.kind === 'coil'
      ? (law.minorLoss ?? 0)
      : law.kind === 'checkValve' || law.kind === 'fitting'
        ? law.coefficient
        : law.kind === 'valve' && law.kv_m3h > 0
          ? lossFromKv(law.kv_m3h, law.bore_m)
          : 0;
  const bare = assembleNetwork(project, STANDARD_TABLES);
  let sum = 0;
  // one joint by itself, so that lanes can be told
  for (const joint of bag.inLine) {
    const one = assembleNetwork(project, STANDARD_TABLES, { inLine: [joint] });
    let added = 0;
    let links = 0;
    one.description.links.forEach(({ law }, i) => {
      const more = k(law) - k(bare.description.links[i].law);
      if (more > 1e-12) links++;
      added += more / area(law.bore_m) ** 2 / 1e6;
    });
    expect(links).toBeGreaterThan(0);
    // n lanes with n² of the loss each carry a joint behind them: one joint's worth
    sum += joint.at === 'node' ? added / links ** 3 : added;
  }
  return sum;
}

describe('parts and flow study', () => {
  it('have the same pipe on 150 random legal layouts: cut pipe and what sits in fittings', () => {
    let roomy = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const project = randomLayout(seed);
      const bag = gatherParts(project, { scope: 'all', unions: seed % 2 === 0 });
      const { pipe_m, fittings_m } = flowLengths(bag);
      const network = networkPipe_m(assembleNetwork(project, STANDARD_TABLES));
      expect(Math.abs(pipe_m + fittings_m - network), `layout ${seed}`).toBeLessThan(1e-6);
      expect(fittings_m).toBeGreaterThan(0);
      expect(pipe_m).toBeGreaterThan(0);
      if (bag.grown_m === 0) roomy++;
      for (const piece of bag.pieces) expect(piece.length_m).toBeGreaterThan(0);
      for (const fitting of bag.fittings) expect(fitting.count).toBeGreaterThan(0);
    }
    // the check must not be carried by what was lengthened
    expect(roomy).toBeGreaterThan(75);
  });

  it('count the same fittings, place by place, on 150 random legal layouts', () => {
    let straight = 0;
    let turned = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const project = randomLayout(seed);
      const bag = gatherParts(project, { scope: 'all', unions: false });
      const network = assembleNetwork(project, STANDARD_TABLES);
      const same = (kind: PartKind, of: Map<string, number>): void =>
        expect(entries(partsAt(bag, kind)), `${kind} of layout ${seed}`).toEqual(entries(of));
      same('elbow90', elbowsOfNetwork(project, network));
      same('elbow45', runFittings(project, network, 'elbow45'));
      same('union', runFittings(project, network, 'union'));
      const links = (role: string): Map<string, number> =>
        new Map(network.infos.flatMap((i) => (i.role === role ? [[i.path, 1] as const] : [])));
      same('checkValve', links('checkValve'));
      const valves = links('valve');
      valves.delete('/loop/bypass');
      same('valve', valves);
      // a tee of each header for each tube, coil or absorber
      const headers = network.banks.reduce((n, b) => n + b.supplyTees.length + b.gatherTees.length, 0);
      const inHeaders = bag.fittings.filter(
        (f) => f.kind === 'tee' && /\/banks\/\d+\/(supply|gather)$/.test(f.path),
      );
      const joined = network.geometry.banks.filter((b) => !b.supply && b.units.length > 1);
      const between = joined.reduce((n, b) => {
        const spec = project.collector.sections[b.section].banks[b.bank];
        return spec.kind !== 'tubes' && spec.join === 'parallel' ? n + 2 * (spec.count - 1) : n;
      }, 0);
      expect(
        inHeaders.reduce((n, f) => n + f.count, 0),
        `tees of layout ${seed}`,
      ).toBe(headers + between);
      // one tee between the two arms to both ends of a header
      const both = network.joinFittings.filter((j) => /Ends$/.test(j.path));
      expect(entries(partsAt(bag, 'tee', (p) => /Ends$/.test(p))).reduce((n, [, c]) => n + c, 0)).toBe(
        both.reduce((n, j) => n + j.tees, 0) / 2,
      );
      // and one for each pipe that parts from, or meets, the others
      const aside = network.joinFittings.filter((j) => j.path.startsWith('/collector/plumbing'));
      expect(
        aside.reduce((n, j) => n + j.tees, 0),
        `partings of layout ${seed}`,
      ).toBe(tees(project.collector.plumbing));
      for (const j of network.joinFittings.filter((x) => x.path.includes('/handovers/')))
        if (j.elbows === 0) straight++;
        else turned++;
    }
    expect(straight).toBeGreaterThan(10);
    expect(turned).toBeGreaterThan(50);
  });

  it('count the same couplings, unions and tees of taps, and lose pressure in each, on 150 random legal layouts', () => {
    const seen: Record<InLineKind, number> = { coupling: 0, union: 0, tapTee: 0, reducer: 0 };
    for (let seed = 1; seed <= 150; seed++) {
      const project = withTaps(randomLayout(seed));
      const bag = gatherParts(project, { scope: 'all' });
      const network = assembleNetwork(project, STANDARD_TABLES, { inLine: bag.inLine });
      expect(network.joints.lost, `layout ${seed}`).toEqual([]);
      const flowing = (kind: InLineKind): number =>
        network.joints.placed.reduce((n, j) => n + (j.kind === kind ? j.count : 0), 0);
      const listed = (kind: PartKind): number =>
        bag.fittings.reduce((n, f) => n + (f.kind === kind ? f.count : 0), 0);
      const written = (kind: 'coupling' | 'union'): number =>
        [...runFittings(project, network, kind).values()].reduce((n, c) => n + c, 0);
      expect(flowing('coupling') + written('coupling'), `couplings of layout ${seed}`).toBe(
        listed('coupling'),
      );
      expect(flowing('union') + written('union'), `unions of layout ${seed}`).toBe(listed('union'));
      // every cock, vent or breaker sits on a tee in line, or on a spare header end
      const cocks = listed('cock') + listed('vent') + listed('breaker');
      const atEnds = bag.fittings.reduce((n, f) => n + (f.part.startsWith('endReducer') ? f.count : 0), 0);
      expect(flowing('tapTee'), `taps of layout ${seed}`).toBe(cocks - atEnds);
      for (const kind of ['coupling', 'union', 'tapTee', 'reducer'] as const) seen[kind] += flowing(kind);
      expect(addedLoss(project, bag), `loss of layout ${seed}`).toBeCloseTo(lossOf(bag), 9);
    }
    expect(Math.min(seen.coupling, seen.union, seen.tapTee, seen.reducer)).toBeGreaterThan(50);
  });

  it('differ only by what nothing flows past, or whose loss follows from the bores: adapters, reducers, cocks, ends', () => {
    const beyond = new Set<PartKind>();
    for (let seed = 1; seed <= 60; seed++) {
      const bag = gatherParts(randomLayout(seed), { scope: 'all' });
      for (const f of bag.fittings) beyond.add(f.kind);
    }
    const counted: PartKind[] = ['tee', 'elbow90', 'elbow45', 'valve', 'checkValve', 'diverter'];
    for (const kind of counted) beyond.delete(kind);
    for (const kind of ['coupling', 'union'] as const) beyond.delete(kind);
    const free: PartKind[] = ['adapter', 'breaker', 'cap', 'clamp', 'cock', 'reducer'];
    const rest: PartKind[] = ['tape', 'vent', 'wallFitting'];
    for (const kind of beyond) expect([...free, ...rest]).toContain(kind);
  });
});

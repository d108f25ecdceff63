import { Bench } from 'tinybench';
import { prepareNetwork } from '../src/hydraulics/network';
import type { LinkLaw, NetworkDescription, NetworkLink, NetworkNode } from '../src/hydraulics/network-types';
import { openPeer, peerInput } from '../test/hydraulics/epanet-peer';

const BANKS = 6;
const TUBES = 40;
const ROUNDS = 10;

/** Six banks of 40 tubes, three after the other in two rows side by side, between two held heads. */
export function panel(head_m: number, withTees: boolean): NetworkDescription {
  const nodes: NetworkNode[] = [];
  const links: NetworkLink[] = [];
  const tees: NetworkDescription['tees'][number][] = [];
  const node = (id: string, fixedHead_m?: number) => nodes.push({ id, elevation_m: 0, fixedHead_m }) - 1;
  const pipe = (length_m: number, bore_m: number, minorLoss: number): LinkLaw => ({
    kind: 'pipe',
    length_m,
    bore_m,
    roughness_m: 1.5e-6,
    minorLoss,
  });
  const link = (id: string, from: number, to: number, law: LinkLaw) => links.push({ id, from, to, law }) - 1;
  const source = node('source', head_m);
  const sink = node('sink', 0);
  const feed = node('feed');
  const back = node('back');
  link('feed', source, feed, pipe(20, 0.0409, 3));
  link('return', back, sink, pipe(20, 0.0409, 3));
  let over = -1;
  for (let b = 0; b < BANKS; b++) {
    const first = b % 3 === 0;
    const last = b % 3 === 2;
    const rows = [0, 1].map((r) => Array.from({ length: TUBES }, (_, i) => node(`${b} ${r} ${i}`)));
    const tubes = rows[0]!.map((s, i) =>
      link(`tube ${b} ${i}`, s, rows[1]![i]!, pipe(8, 0.0158, withTees ? 0 : 1.5)),
    );
    const enter = first ? link(`enter ${b}`, feed, rows[0]![0]!, pipe(2, 0.0409, 1.5)) : over;
    const exit = last ? link(`exit ${b}`, rows[1]![TUBES - 1]!, back, pipe(2, 0.0409, 1.5)) : undefined;
    const pieces = rows.map((row) =>
      Array.from({ length: TUBES - 1 }, (_, i) =>
        link(`piece ${b} ${i}`, row[i]!, row[i + 1]!, pipe(0.05, 0.0409, 0)),
      ),
    );
    over = exit ?? link(`over ${b}`, rows[1]![TUBES - 1]!, nodes.length, pipe(0.3, 0.0409, 1.5));
    for (let i = 0; i < TUBES; i++) {
      const run = (r: number): [number | null, number | null] => [
        i > 0 ? pieces[r]![i - 1]! : r === 0 ? enter : null,
        i < TUBES - 1 ? pieces[r]![i]! : r === 1 ? over : null,
      ];
      for (const r of withTees ? [0, 1] : [])
        tees.push({
          node: rows[r]![i]!,
          branch: tubes[i]!,
          run: run(r),
          branchBore_m: 0.0158,
          headerBore_m: 0.0409,
        });
    }
  }
  return { referenceDensity_kgm3: 995.65, viscosity_Pas: 7.972e-4, nodes, links, tees };
}

/**
 * Time of each task in milliseconds: the tasks take turns in short rounds, and the best round's median counts,
 * so that a machine busy with other things disturbs all of them alike.
 */
async function times(tasks: Record<string, () => void>): Promise<Record<string, number>> {
  const out: Record<string, number> = {};
  for (let round = 0; round < ROUNDS; round++) {
    const bench = new Bench({ time: 120, warmupTime: round === 0 ? 400 : 30 });
    for (const [name, task] of Object.entries(tasks)) bench.add(name, task);
    await bench.run();
    for (const { name, result } of bench.tasks) {
      if ('latency' in result) out[name] = Math.min(out[name] ?? Infinity, result.latency.p50);
    }
  }
  return out;
}

/** Prints times and ratios of the network solver beside the peer's. */
export default async function run(): Promise<void> {
  const heads = [8, 8.4] as const;
  const plain = heads.map((head) => panel(head, false));
  const tees = heads.map((head) => panel(head, true));
  const input = peerInput(plain[0]!);
  const peer = await openPeer();
  peer.open(input);
  const other = await openPeer();
  const warm = prepareNetwork(plain[0]!);
  let start = warm.solve();
  const fine = prepareNetwork(plain[0]!);
  let fineStart = fine.solve();
  const teed = prepareNetwork(tees[0]!);
  let teedStart = teed.solve();
  let turn = 0;
  const next = () => (turn = 1 - turn);
  console.log(`  ${plain[0]!.nodes.length} nodes, ${plain[0]!.links.length} links`);
  const t = await times({
    'peer warm': () => {
      peer.setHead('n0', heads[next()]!);
      peer.run(false);
    },
    'warm 1e-5': () => {
      warm.update(plain[next()]!);
      start = warm.solve({ start, tolerance: 1e-5 });
    },
    'warm 1e-9': () => {
      fine.update(plain[next()]!);
      fineStart = fine.solve({ start: fineStart });
    },
    'peer whole': () => {
      other.open(input);
      other.run(true);
      other.readAll();
      other.close();
    },
    'description to flows': () => {
      prepareNetwork(plain[next()]!).solve({ tolerance: 1e-5 });
    },
    'description to flows 1e-9': () => {
      prepareNetwork(plain[next()]!).solve();
    },
    'tees cold': () => {
      teed.solve();
    },
    'tees cold, three sets': () => {
      const first = teed.solve();
      teed.solve({ tees: 'gardel', start: first });
      teed.solve({ tees: 'ideal', start: first });
    },
    'tees cold, analysis too': () => {
      prepareNetwork(tees[next()]!).solve();
    },
    'tees warm': () => {
      teed.update(tees[next()]!);
      teedStart = teed.solve({ start: teedStart });
    },
  });
  peer.close();
  const line = (name: string, ms: number, note = '') =>
    console.log(`  ${name.padEnd(52)}${ms.toFixed(3).padStart(9)} ms  ${note}`);
  const ratio = (a: string, b: string, wanted: string) =>
    `${(t[a]! / t[b]!).toFixed(2)} × the peer (${wanted})`;
  line('peer, warm, accuracy 1e-5', t['peer warm']!);
  line(
    'constant coefficients, warm, 1e-5',
    t['warm 1e-5']!,
    ratio('warm 1e-5', 'peer warm', 'wanted: at most 2'),
  );
  line(
    'constant coefficients, warm, 1e-9',
    t['warm 1e-9']!,
    ratio('warm 1e-9', 'peer warm', 'for information'),
  );
  line('peer: open, parse, solve, read', t['peer whole']!);
  line(
    'description to flows, 1e-5',
    t['description to flows']!,
    `${(t['peer whole']! / t['description to flows']!).toFixed(2)} × faster (wanted: at least 3)`,
  );
  line(
    'description to flows, 1e-9',
    t['description to flows 1e-9']!,
    `${(t['peer whole']! / t['description to flows 1e-9']!).toFixed(2)} × faster`,
  );
  line('default tees, cold start', t['tees cold']!, 'wanted: at most 5');
  line('the same with analysis', t['tees cold, analysis too']!);
  line('three tee sets, cold start', t['tees cold, three sets']!, 'wanted: at most 12');
  line('default tees, warm', t['tees warm']!);
  const s = teed.solve();
  console.log(
    `  steps: default tees cold ${s.report.iterations}, warm ${teedStart.report.iterations}; constant warm ${start.report.iterations} (1e-5), ${fineStart.report.iterations} (1e-9)`,
  );
}

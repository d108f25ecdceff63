import type {
  LinkLaw,
  NetworkDescription,
  NetworkLink,
  NetworkNode,
  NetworkTee,
} from '../../src/hydraulics/network-types';

/** What a generated loop is made of. */
export interface LoopShape {
  readonly banks: readonly BankShape[];
  /** banks one after the other, or side by side */
  readonly series: boolean;
  /** pump speed; 0 is stopped */
  readonly speed: number;
  readonly shutOff_m: number;
  /** Kv of the valves to the collector and past it [m³/h] */
  readonly toCollector_m3h: number;
  readonly past_m3h: number;
  readonly checkValve: boolean;
  /** outlet held at this head [m]; above the pump's head it drives water backwards */
  readonly outlet_m: number;
  readonly density: number;
  readonly viscosity: number;
}

export interface BankShape {
  readonly tubes: number;
  readonly tubeBore_m: number;
  readonly headerBore_m: number;
  readonly tubeLength_m: number;
  readonly pitch_m: number;
  /** ends of the supply and of the return header that are connected: 1 start, 2 end, 3 both */
  readonly inlet: number;
  readonly outlet: number;
  readonly height_m: number;
  /** place of tubes that are blocked */
  readonly blocked: readonly number[];
  /** density of the water in the tubes over the loop's */
  readonly warm: number;
  /** lengths of the leads at starts and ends, apart by a lot: forces flow round the far way */
  readonly lead_m: readonly [number, number, number, number];
}

/** A whole loop: suction, pump, filter, two bypass valves, feed, banks, return, outlet. */
export function loopNetwork(shape: LoopShape): NetworkDescription & { tubes: number[][] } {
  const nodes: NetworkNode[] = [];
  const links: NetworkLink[] = [];
  const tees: NetworkTee[] = [];
  const node = (id: string, elevation_m: number, fixedHead_m?: number) =>
    nodes.push({ id, elevation_m, fixedHead_m }) - 1;
  const link = (id: string, from: number, to: number, law: LinkLaw, more: Partial<NetworkLink> = {}) =>
    links.push({ id, from, to, law, ...more }) - 1;
  const pipe = (length_m: number, bore_m: number, minorLoss: number): LinkLaw => ({
    kind: 'pipe',
    length_m,
    bore_m,
    roughness_m: 1.5e-6,
    minorLoss,
  });
  const pool = node('pool', 0, 0);
  const beforePump = node('before pump', 0);
  const afterPump = node('after pump', 0);
  const split = node('split', 0);
  const feed = node('feed', 0);
  const back = node('back', 0);
  const merge = node('merge', 0);
  const outside = node('outside', 0, shape.outlet_m);
  link('suction', pool, beforePump, pipe(5, 0.045, 3));
  link('pump', beforePump, afterPump, {
    kind: 'pump',
    bore_m: 0.045,
    curve: {
      kind: 'points',
      flow_m3s: [0, 2e-3, 4e-3, 6e-3],
      head_m: [1, 0.93, 0.6, 0.05].map((h) => h * shape.shutOff_m),
    },
    speed: shape.speed,
    checkValve: shape.checkValve,
  });
  link('filter', afterPump, split, { kind: 'filter', bore_m: 0.045, k1: 5e9, k2: 3e5 });
  link('past', split, merge, { kind: 'valve', bore_m: 0.045, kv_m3h: shape.past_m3h });
  link('valve', split, feed, { kind: 'valve', bore_m: 0.045, kv_m3h: shape.toCollector_m3h });
  const tubes: number[][] = [];
  let entry = feed;
  shape.banks.forEach((bank, b) => {
    const last = b === shape.banks.length - 1;
    const exit = !shape.series || last ? back : node(`between ${b + 1}`, bank.height_m);
    tubes.push(addBank(bank, `bank ${b + 1}`, entry, exit));
    if (shape.series) entry = exit;
  });
  link('return', back, merge, pipe(10, 0.045, 2));
  link('outlet', merge, outside, { kind: 'outlet', bore_m: 0.035 });

  function addBank(bank: BankShape, name: string, entry: number, exit: number): number[] {
    const n = bank.tubes;
    const row = (what: string) =>
      Array.from({ length: n }, (_, i) => node(`${name} ${what} ${i + 1}`, bank.height_m));
    const supply = row('supply');
    const collect = row('return').map((k, i) => {
      nodes[k] = { ...nodes[k]!, elevation_m: bank.height_m + 0.05 * ((i % 3) - 1) };
      return k;
    });
    const ids = supply.map((s, i) =>
      link(`${name} tube ${i + 1}`, s, collect[i]!, pipe(bank.tubeLength_m, bank.tubeBore_m, 0), {
        closed: bank.blocked.includes(i),
        density_kgm3: shape.density * bank.warm,
      }),
    );
    const header = (what: string, row: number[], ends: number, outer: number, into: boolean, at: number) => {
      const lead = (end: number) => {
        if (!(ends & (end + 1))) return null;
        const law = pipe(bank.lead_m[at + end]!, bank.headerBore_m, 1.5);
        const at1 = row[end === 0 ? 0 : n - 1]!;
        const id = `${name} ${what} lead ${end + 1}`;
        return into ? link(id, outer, at1, law) : link(id, at1, outer, law);
      };
      const first = lead(0);
      const behind = lead(1);
      let before = first;
      for (let i = 0; i < n; i++) {
        const next: number | null =
          i === n - 1
            ? behind
            : link(
                `${name} ${what} piece ${i + 1}`,
                row[i]!,
                row[i + 1]!,
                pipe(bank.pitch_m, bank.headerBore_m, 0),
              );
        tees.push({
          node: row[i]!,
          branch: ids[i]!,
          run: [before, next],
          branchBore_m: bank.tubeBore_m,
          headerBore_m: bank.headerBore_m,
        });
        before = next;
      }
    };
    header('supply', supply, bank.inlet, entry, true, 0);
    header('return', collect, bank.outlet, exit, false, 2);
    return ids;
  }

  return { referenceDensity_kgm3: shape.density, viscosity_Pas: shape.viscosity, nodes, links, tees, tubes };
}

/** Small seeded generator (mulberry32), for runs that must be repeatable. */
export function seeded(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (s + 0x6d2b79f5) >>> 0;
    let t = s;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A random legal loop, from mild to nasty. */
export function randomLoop(random: () => number, mostBanks = 8, mostTubes = 60): LoopShape {
  const between = (a: number, b: number) => a + (b - a) * random();
  const whole = (a: number, b: number) => Math.floor(between(a, b + 1));
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!;
  const banks = Array.from({ length: whole(1, mostBanks) }, (): BankShape => {
    const tubes = whole(2, mostTubes);
    return {
      tubes,
      tubeBore_m: pick([0.0158, 0.0209, 0.0127]),
      headerBore_m: pick([0.0266, 0.0351, 0.0409, 0.0525]),
      tubeLength_m: between(0.3, 20),
      pitch_m: pick([0.005, 0.02, 0.022, 0.05, 0.2]),
      inlet: whole(1, 3),
      outlet: whole(1, 3),
      height_m: between(-1, 3),
      blocked: random() < 0.4 ? Array.from({ length: whole(1, tubes) }, () => whole(0, tubes - 1)) : [],
      warm: random() < 0.5 ? 1 : between(0.99, 1.003),
      lead_m: [pick([0, 0.1, 30]), pick([0.1, 50]), pick([0.1, 50]), pick([0.1, 30])],
    };
  });
  return {
    banks,
    series: random() < 0.5,
    speed: pick([0, 0.1, 0.35, 0.6, 1, 1, 1, 1.2]),
    shutOff_m: between(4, 25),
    toCollector_m3h: pick([0, 2, 10, 40, 40, 40, Infinity]),
    past_m3h: pick([0, 0, 0, 1, 10, 40]),
    checkValve: random() < 0.3,
    outlet_m: pick([0, 0, 0, 0, 2, 12, -3]),
    density: between(985, 999),
    viscosity: between(5e-4, 1.3e-3),
  };
}

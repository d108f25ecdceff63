import type { AirInlet, AirLayout, AirSpace, AirTube } from '../../src/hydraulics/air-types';
import type {
  NetworkDescription,
  NetworkLink,
  NetworkNode,
  NetworkTee,
} from '../../src/hydraulics/network-types';

/** Invented loop for the tests: a pump feeds sections that lie at different heights. */
export interface LoopOptions {
  /** height of each section's headers over the pool [m] */
  readonly heights_m: readonly number[];
  /** how the sections are plumbed: lists of places in `heights_m`, in series within a list, lists in parallel */
  readonly plumbing: readonly (readonly number[])[];
  readonly tubes?: number;
  readonly tubeLength_m?: number;
  readonly tubeBore_m?: number;
  readonly headerBore_m?: number;
  readonly pipeBore_m?: number;
  readonly speed?: number;
  /** shut-off head at full speed [m] */
  readonly shutOff_m?: number;
  /** height gained along the headers from one tube to the next [m] */
  readonly headerRise_m?: number;
  /** what lets air into the return header of each section; null: nothing */
  readonly inlet?: (section: number) => Omit<AirInlet, 'node' | 'elevation_m'> | null;
}

export interface Loop {
  readonly network: NetworkDescription;
  readonly layout: AirLayout;
  readonly pump: number;
}

/** 3/4 in tubes (20.9 mm) between 1-1/2 in headers (40.9 mm), water of about 29 °C. */
export function buildLoop(options: LoopOptions): Loop {
  const {
    heights_m,
    plumbing,
    tubes = 4,
    tubeLength_m = 12,
    tubeBore_m = 0.0209,
    headerBore_m = 0.0409,
    pipeBore_m = 0.0409,
    speed = 1,
    shutOff_m = 14,
    headerRise_m = 0,
    inlet = () => null,
  } = options;
  const nodes: NetworkNode[] = [];
  const links: NetworkLink[] = [];
  const tees: NetworkTee[] = [];
  const airTubes: AirTube[] = [];
  const spaces: AirSpace[] = [];
  const node = (id: string, elevation_m: number, fixedHead_m?: number) =>
    nodes.push({ id, elevation_m, ...(fixedHead_m === undefined ? {} : { fixedHead_m }) }) - 1;
  const pipe = (id: string, from: number, to: number, length_m: number, bore_m: number, minorLoss = 0) =>
    links.push({ id, from, to, law: { kind: 'pipe', length_m, bore_m, roughness_m: 1.5e-6, minorLoss } }) - 1;

  const pool = node('pool', 0, 0);
  const outlet = node('outlet', 0, 0);
  const suction = node('suction', -0.3);
  const feed = node('feed', 0);
  const back = node('back', 0);
  pipe('suction pipe', pool, suction, 5, pipeBore_m, 1);
  const pump =
    links.push({
      id: 'pump',
      from: suction,
      to: feed,
      law: {
        kind: 'pump',
        bore_m: pipeBore_m,
        curve: { kind: 'parabola', shutOffHead_m: shutOff_m, coefficient_s2m5: shutOff_m / 0.005 ** 2 },
        speed,
      },
    }) - 1;
  links.push({ id: 'outlet pipe', from: back, to: outlet, law: { kind: 'outlet', bore_m: pipeBore_m } });

  for (const chain of plumbing) {
    let before = feed;
    for (const [position, section] of chain.entries()) {
      const z = heights_m[section]!;
      const last = position === chain.length - 1;
      const supply = Array.from({ length: tubes }, (_, t) =>
        node(`s${section}/supply${t}`, z + t * headerRise_m),
      );
      const gather = Array.from({ length: tubes }, (_, t) =>
        node(`s${section}/gather${t}`, z + t * headerRise_m),
      );
      const into = pipe(`s${section}/in`, before, supply[0]!, 4 + z, pipeBore_m, 1);
      const after = last ? back : node(`s${section}/after`, z);
      const out = pipe(`s${section}/out`, gather[0]!, after, last ? 4 + z : 1, pipeBore_m, 1);
      const way = inlet(section);
      const space =
        spaces.push({
          id: `section ${section}`,
          inlet: way && { ...way, node: gather[0]!, elevation_m: z + headerBore_m / 2 },
          downLeg: { link: out, angle_deg: last ? 90 : 0 },
        }) - 1;
      let supplyLeg = into;
      let gatherLeg = out;
      for (let t = 0; t < tubes; t++) {
        const tube = pipe(`s${section}/tube${t}`, supply[t]!, gather[t]!, tubeLength_m, tubeBore_m);
        airTubes.push({
          link: tube,
          discharge: 'to',
          crown_m: z + t * headerRise_m + tubeBore_m / 2,
          space,
          path: `section ${section}`,
        });
        const more = t < tubes - 1;
        const nextSupply = more
          ? pipe(`s${section}/sup${t}`, supply[t]!, supply[t + 1]!, 0.1, headerBore_m)
          : null;
        const nextGather = more
          ? pipe(`s${section}/gat${t}`, gather[t + 1]!, gather[t]!, 0.1, headerBore_m)
          : null;
        const bores = { branchBore_m: tubeBore_m, headerBore_m };
        tees.push({ node: supply[t]!, branch: tube, run: [supplyLeg, nextSupply], ...bores });
        tees.push({ node: gather[t]!, branch: tube, run: [gatherLeg, nextGather], ...bores });
        supplyLeg = nextSupply ?? supplyLeg;
        gatherLeg = nextGather ?? gatherLeg;
      }
      before = after;
    }
  }
  return {
    network: { referenceDensity_kgm3: 996, viscosity_Pas: 8.1e-4, nodes, links, tees },
    layout: { tubes: airTubes, spaces },
    pump,
  };
}

/** The same network at another pump speed. */
export function atSpeed(loop: Loop, speed: number): NetworkDescription {
  const links = [...loop.network.links];
  const link = links[loop.pump]!;
  if (link.law.kind === 'pump') links[loop.pump] = { ...link, law: { ...link.law, speed } };
  return { ...loop.network, links };
}

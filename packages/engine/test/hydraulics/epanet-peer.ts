import { InitHydOption, LinkProperty, NodeProperty, Project, Workspace } from 'epanet-js';
import type { NetworkDescription } from '../../src/hydraulics/network-types';

/** Gravity inside the peer, 32.2 ft/s² [m/s²]. */
export const PEER_GRAVITY = 9.81456;

const OFFICE = { in: 'n.inp', report: 'n.rpt', out: 'n.out' };

/** A network of pipes and lossless leads, in the peer's input format, SI, Darcy–Weisbach. */
export function peerInput(network: NetworkDescription, accuracy = 1e-5): string {
  const { nodes, links, referenceDensity_kgm3: density, viscosity_Pas } = network;
  const junctions: string[] = [];
  const reservoirs: string[] = [];
  nodes.forEach((n, i) => {
    if (n.fixedHead_m !== undefined) reservoirs.push(`n${i} ${n.fixedHead_m}`);
    else junctions.push(`n${i} 0 ${((-1000 * (n.inflow_kgs ?? 0)) / density).toPrecision(17)}`);
  });
  const pipes = links.map((link, i) => {
    const { law } = link;
    const ends = `l${i} n${link.from} n${link.to}`;
    if (law.kind === 'pipe')
      return `${ends} ${law.length_m} ${law.bore_m * 1000} ${law.roughness_m * 1000} ${law.minorLoss ?? 0} Open`;
    if (law.kind === 'fitting') return `${ends} 0.001 ${law.bore_m * 4000} 0.0015 0 Open`;
    throw new Error(`${law.kind} has no counterpart`);
  });
  return `[JUNCTIONS]
${junctions.join('\n')}
[RESERVOIRS]
${reservoirs.join('\n')}
[PIPES]
${pipes.join('\n')}
[OPTIONS]
UNITS LPS
HEADLOSS D-W
VISCOSITY ${viscosity_Pas / density}
TRIALS 200
ACCURACY ${accuracy}
[TIMES]
DURATION 0
[REPORT]
STATUS No
SUMMARY No
[END]
`;
}

/** The peer with its module loaded, one network open at a time. */
export async function openPeer() {
  const workspace = new Workspace();
  await workspace.loadModule();
  const project = new Project(workspace);
  return {
    open(input: string): void {
      workspace.writeFile(OFFICE.in, input);
      project.open(OFFICE.in, OFFICE.report, OFFICE.out);
      project.openH();
    },
    /** @param fresh start from the peer's own first guess instead of from the last flows */
    run(fresh: boolean): void {
      project.initH(fresh ? InitHydOption.InitFlow : InitHydOption.NoSave);
      project.runH();
    },
    setHead(id: string, head_m: number): void {
      project.setNodeValue(project.getNodeIndex(id), NodeProperty.Elevation, head_m);
    },
    /** mass flows [kg/s] and heads [m on the peer's gravity], in the description's order */
    read(network: NetworkDescription): { flow_kgs: number[]; head_m: number[] } {
      const { nodes, links, referenceDensity_kgm3: density } = network;
      const flow = links.map(
        (_, i) => (project.getLinkValue(project.getLinkIndex(`l${i}`), LinkProperty.Flow) * density) / 1000,
      );
      const head = nodes.map((_, i) =>
        project.getNodeValue(project.getNodeIndex(`n${i}`), NodeProperty.Head),
      );
      return { flow_kgs: flow, head_m: head };
    },
    /** the cheapest read there is, in the peer's own order */
    readAll(): { flow: number[]; head: number[] } {
      return {
        flow: project.getLinkValues(LinkProperty.Flow),
        head: project.getNodeValues(NodeProperty.Head),
      };
    },
    close(): void {
      project.closeH();
      project.close();
    },
  };
}

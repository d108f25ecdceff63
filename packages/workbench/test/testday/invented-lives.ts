import type { Plumbing } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import { inventDay, type Probe, type Recipe } from './invent-day';

/** Lives of the example projects: how they stood, what was mended, what was measured. All of it invented. */

const GPM = 6.30902e-5;

const KITCHEN_IN: Probe = { name: 'Kitchen thermometer', limit_K: 0.56, resolution_K: 0.06, bias_K: -0.08 };
const KITCHEN_OUT: Probe = { name: 'Aquarium thermometer', limit_K: 0.56, resolution_K: 0.06, bias_K: 0.31 };
const FINE_IN: Probe = { name: 'Probe with the white lead', limit_K: 0.3, resolution_K: 0.01, bias_K: 0.12 };
const FINE_OUT: Probe = {
  name: 'Probe with the black lead',
  limit_K: 0.3,
  resolution_K: 0.01,
  bias_K: -0.08,
};
const SURFACE: Probe = { name: 'Clip-on probe', limit_K: 0.5, resolution_K: 0.1, bias_K: 0.15 };

const ROTAMETER = { division_m3s: 1 * GPM, limit_m3s: 1.5 * GPM, classError: 0.013, count: 4 };
const PAIL = {
  volume_m3: 0.018927,
  limit_m3: 0.0004,
  fill_m3: 0.0002,
  outlet: 'outlet-2',
  lift_m: 0.15,
  runs: 4,
};

export const QUINCE_DAYS: readonly Recipe[] = [
  {
    id: '2025-05-17',
    name: 'First look, two household thermometers',
    at: '2025-05-17T11:20',
    notes: 'Invented. Two sections. Pail held at the shallow outlet with a hose; thermometers not compared.',
    seed: 11,
    water_C: 22.4,
    air_C: 24,
    dewPoint_C: 3,
    wind_ms: 2.2,
    says: { sky: 'clear', air_C: 24, dewPoint_C: 3, beaufort: 2 },
    light: 0.99,
    inlet: { where: 'skimmer', probe: KITCHEN_IN },
    outlet: { where: 'pail', probe: KITCHEN_OUT },
    pairs: 3,
    pail: PAIL,
    steadyFor_s: 2400,
  },
  {
    id: '2026-04-25',
    name: 'Good day, thermometers compared',
    at: '2026-04-25T11:40',
    notes: 'Invented. Three sections. Both probes in one pail first; wind read beside the tubes.',
    seed: 23,
    water_C: 21.3,
    air_C: 21,
    dewPoint_C: -2,
    wind_ms: 2.4,
    says: { sky: 'clear', air_C: 21, humidity: 0.21, wind_ms: 0.9, windAt: 'collector' },
    light: 1.01,
    inlet: { where: 'collectorInlet', probe: FINE_IN },
    outlet: { where: 'collectorOutlet', probe: FINE_OUT },
    pairs: 5,
    onePail: 5,
    rotameter: ROTAMETER,
    gauges: { limit_Pa: 3000, mark_Pa: 1000 },
    steadyFor_s: 3000,
  },
  {
    id: '2026-05-23',
    name: 'Each tube of section B by hand',
    at: '2026-05-23T12:10',
    notes:
      'Invented. The heat is as it should be, yet two tubes of the second pass are hot: the hand finds what the sum hides.',
    seed: 37,
    water_C: 24.1,
    air_C: 27,
    dewPoint_C: 4,
    wind_ms: 1.9,
    says: { sky: 'clear', air_C: 27, humidity: 0.23, wind_ms: 0.7, windAt: 'collector' },
    light: 0.99,
    blocked: [{ section: 'B', bank: 'B2', tubes: [5, 11] }],
    inlet: { where: 'collectorInlet', probe: FINE_IN },
    outlet: { where: 'collectorOutlet', probe: FINE_OUT },
    pairs: 4,
    onePail: 4,
    rotameter: ROTAMETER,
    touch: [
      { section: 'B', bank: 'B1' },
      { section: 'B', bank: 'B2' },
    ],
    steadyFor_s: 2700,
  },
  {
    id: '2026-06-20',
    name: 'Grey morning',
    at: '2026-06-20T11:00',
    notes:
      'Invented. One tube is plugged by now. Overcast: there is little to measure and less to expect it by.',
    seed: 41,
    water_C: 26.2,
    air_C: 23,
    dewPoint_C: 12,
    wind_ms: 2.7,
    says: { sky: 'overcast', air_C: 23, humidity: 0.5, beaufort: 2 },
    light: 1.1,
    inlet: { where: 'collectorInlet', probe: FINE_IN },
    outlet: { where: 'collectorOutlet', probe: FINE_OUT },
    pairs: 4,
    onePail: 4,
    rotameter: ROTAMETER,
    steadyFor_s: 3600,
  },
];

export const TERN_DAYS: readonly Recipe[] = [
  {
    id: '2025-12-06',
    name: 'Water meter and two probes',
    at: '2025-12-06T12:30',
    notes: 'Invented. A water meter in the riser, read for ten minutes.',
    seed: 53,
    water_C: 24.6,
    air_C: 25,
    dewPoint_C: 11,
    wind_ms: 2.9,
    says: { sky: 'clear', air_C: 25, humidity: 0.42, beaufort: 2 },
    light: 0.98,
    inlet: { where: 'collectorInlet', probe: FINE_IN },
    outlet: { where: 'collectorOutlet', probe: FINE_OUT },
    pairs: 4,
    onePail: 4,
    meter: { between_s: 600, mark_m3: 0.001 },
    steadyFor_s: 3600,
  },
  {
    id: '2026-01-17',
    name: 'Coil by coil with a clip-on probe',
    at: '2026-01-17T13:00',
    notes: 'Invented. One coil of the west row is kinked and runs weakly.',
    seed: 61,
    water_C: 27.2,
    air_C: 28,
    dewPoint_C: 14,
    wind_ms: 3.2,
    says: { sky: 'clear', air_C: 28, humidity: 0.42, beaufort: 3 },
    light: 0.97,
    choked: [{ section: 'west', bank: 'W1', tube: 3, to: 0.2 }],
    inlet: { where: 'poolBulk', probe: FINE_IN },
    outlet: { where: 'collectorOutlet', probe: FINE_OUT },
    pairs: 4,
    onePail: 4,
    meter: { between_s: 600, mark_m3: 0.001 },
    read: [{ section: 'west', bank: 'W1', probe: SURFACE }],
    steadyFor_s: 3600,
  },
];

/** The example with its states, repairs and test days made anew from what the file describes now. */
export function quinceLife(project: Project): Project {
  const { collector, loop } = project;
  const last = collector.sections[collector.sections.length - 1].id;
  const early = {
    ...collector,
    sections: collector.sections.filter((s) => s.id !== last),
    plumbing: without(collector.plumbing, last) ?? collector.plumbing,
    taps: collector.taps.filter((t) => t.at.section !== last),
  };
  const base: Project = {
    ...project,
    asBuilt: [
      { id: 'two-sections', from: '2025-04-12', name: 'Two sections', collector: early, loop },
      {
        id: 'three-sections',
        from: '2026-03-21',
        name: 'Three sections',
        change: `Section ${last} added at the far end; mains lengthened.`,
        collector,
        loop,
      },
    ],
    repairs: [
      {
        id: 'clear-B2-5',
        date: '2026-05-25',
        section: 'B',
        bank: 'B2',
        tube: 5,
        what: 'cleaned',
        notes: 'Invented. Flushed backwards with the hose: a leaf stem came out.',
      },
      {
        id: 'plug-B2-11',
        date: '2026-05-25',
        section: 'B',
        bank: 'B2',
        tube: 11,
        what: 'plugged',
        notes: 'Invented. Cracked at the tee; plugged at both ends until autumn.',
      },
    ],
    testDays: [],
  };
  return { ...base, testDays: QUINCE_DAYS.map((day) => inventDay(base, day)) };
}

export function ternLife(project: Project): Project {
  const base: Project = { ...project, asBuilt: [], repairs: [], testDays: [] };
  return { ...base, testDays: TERN_DAYS.map((day) => inventDay(base, day)) };
}

/** A plumbing tree without one section; what stood before and after it goes with it. */
function without(tree: Plumbing, section: string): Plumbing | null {
  if (tree.section !== undefined) return tree.section === section ? null : tree;
  for (const way of ['series', 'parallel'] as const) {
    const list = tree[way];
    if (!list) continue;
    const left = list.flatMap((t) => without(t, section) ?? []);
    if (left.length === 0) return null;
    const { before, after } = tree;
    // a fork with one prong is a pipe: its valves and pipes go to what is left
    if (left.length === 1) {
      const [only] = left;
      const first = [...(before ?? []), ...(only.before ?? [])];
      const then = [...(only.after ?? []), ...(after ?? [])];
      return {
        ...only,
        ...(first.length > 0 ? { before: first } : {}),
        ...(then.length > 0 ? { after: then } : {}),
      };
    }
    return { ...tree, [way]: left };
  }
  return tree;
}

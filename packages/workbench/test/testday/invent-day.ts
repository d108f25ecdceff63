import { findSky } from '@sunlap/data/skies';
import { createRandom } from '@sunlap/engine/numeric/random';
import { drawNormal } from '@sunlap/engine/numeric/random-draws';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { type SolvedHeat, solveHeat } from '../../src/heat/solve-heat';
import { stateAt } from '../../src/state/state-at';
import { type LoopFacts, loopFacts } from '../../src/testday/loop-facts';
import { tubeModels } from '../../src/testday/tube-model';

/**
 * Makes up the readings of a test day: the model says what was true, a seeded person reads it off with the errors
 * people and their instruments make. Nothing here is measured.
 */

type Inlet = NonNullable<TestDay['inlet']>;
type Outlet = NonNullable<TestDay['outlet']>;

/** A thermometer with what nobody knows of it. */
export interface Probe {
  name: string;
  limit_K: number;
  resolution_K: number;
  /** Reading minus truth. */
  bias_K: number;
}

export interface Recipe {
  id: string;
  name: string;
  at: string;
  notes: string;
  seed: number;
  water_C: number;
  air_C: number;
  dewPoint_C: number;
  /** True wind at 10 m, and what the person says of it. */
  wind_ms: number;
  says: NonNullable<TestDay['weather']>;
  /** True light over what the sky in words gives. */
  light: number;
  /** Tubes that are not as the state says. */
  blocked?: { section: string; bank: string; tubes: number[] }[];
  choked?: { section: string; bank: string; tube: number; to: number }[];
  inlet: { where: Inlet['where']; probe: Probe };
  outlet: { where: Outlet['where']; probe: Probe };
  pairs: number;
  onePail?: number;
  pail?: {
    volume_m3: number;
    limit_m3: number;
    fill_m3: number;
    outlet: string;
    lift_m: number;
    runs: number;
  };
  rotameter?: { division_m3s: number; limit_m3s: number; classError: number; count: number };
  meter?: { between_s: number; mark_m3: number };
  gauges?: { limit_Pa: number; mark_Pa: number };
  touch?: { section: string; bank: string }[];
  read?: { section: string; bank: string; probe: Probe }[];
  steadyFor_s: number;
}

const round = (x: number, step: number, digits = 4): number =>
  Number((Math.round(x / step) * step).toFixed(digits));

/** What was true, and a person with a seed to read it. */
interface Scene {
  solved: SolvedHeat;
  facts: LoopFacts;
  water_C: number;
  normal: () => number;
}

export function inventDay(project: Project, recipe: Recipe): TestDay {
  const random = createRandom(recipe.seed);
  const { water_C } = recipe;
  const state = stateAt(project, recipe.at).project;
  const truth = recipe.blocked ? blockedIn(state, recipe.blocked) : state;
  const sky = recipe.says.sky ?? 'clear';
  if (!findSky(sky)) throw new Error(`no sky ${sky}`);
  const now = resolveMoment(truth, {
    at: recipe.at,
    water_C,
    air_C: recipe.air_C,
    dewPoint_C: recipe.dewPoint_C,
    wind_ms: recipe.wind_ms,
    sky,
  });
  const solved = solveHeat(truth, heatWeather(truth, now, { lightShare: recipe.light }), water_C);
  if (!solved.converged) throw new Error(`${recipe.id} does not converge`);
  const scene: Scene = {
    solved,
    facts: loopFacts(truth, solved.flow),
    water_C,
    normal: () => drawNormal(random),
  };
  const tempo = (i: number): number => i * 90;
  const reading = (t: number, probe: Probe): number =>
    round(t + probe.bias_K + 0.25 * probe.resolution_K * scene.normal(), probe.resolution_K, 2);
  const inlet_C = inletOf(scene, recipe.inlet.where);
  const outlet_C = outletOf(scene, recipe.outlet.where);
  const wander = Array.from({ length: recipe.pairs }, () => 0.02 * scene.normal());
  const side = (t: number, probe: Probe, drift: number) => ({
    thermometer: { name: probe.name, resolution_K: probe.resolution_K, limit_K: probe.limit_K },
    readings: wander.map((w, i) => ({ at_s: tempo(i), value_C: reading(t + drift * w, probe) })),
  });
  const pail = recipe.pail && pailOf(scene, recipe.pail);
  return {
    id: recipe.id,
    at: recipe.at,
    name: recipe.name,
    ...(pail ? { pail } : {}),
    ...(recipe.meter ? { meter: meterOf(scene, recipe.meter) } : {}),
    ...(recipe.rotameter ? { rotameter: rotameterOf(scene, recipe.rotameter) } : {}),
    ...(recipe.gauges ? { gauges: gaugesOf(truth, scene, recipe.gauges) } : {}),
    inlet: { where: recipe.inlet.where, ...side(inlet_C, recipe.inlet.probe, 1) },
    outlet: { where: recipe.outlet.where, ...side(outlet_C, recipe.outlet.probe, 1.3) },
    ...(recipe.onePail
      ? {
          samePail: Array.from({ length: recipe.onePail }, (): [number, number] => [
            reading(water_C + 1.1, recipe.inlet.probe),
            reading(water_C + 1.1, recipe.outlet.probe),
          ]),
        }
      : {}),
    weather: recipe.says,
    ...(recipe.touch ? { touch: touchOf(state, scene, recipe) } : {}),
    ...(recipe.read ? { tubes: readOf(state, scene, recipe, reading) } : {}),
    ...(recipe.read
      ? {
          tubeThermometer: {
            name: recipe.read[0].probe.name,
            resolution_K: recipe.read[0].probe.resolution_K,
            limit_K: recipe.read[0].probe.limit_K,
          },
        }
      : {}),
    steadyFor_s: recipe.steadyFor_s,
    notes: recipe.notes,
  };
}

function blockedIn(project: Project, blocked: NonNullable<Recipe['blocked']>): Project {
  const sections = project.collector.sections.map((s) => ({
    ...s,
    banks: s.banks.map((b) => {
      const mine = blocked.find((x) => x.section === s.id && x.bank === b.id);
      return mine ? { ...b, blocked: [...(b.blocked ?? []), ...mine.tubes] } : b;
    }),
  }));
  return { ...project, collector: { ...project.collector, sections } };
}

function inletOf({ solved, water_C }: Scene, where: Inlet['where']): number {
  if (where === 'collectorInlet') return solved.panel.node_C[solved.flow.assembled.collectorIn];
  // skimmer water of a sunny day is a little warmer than what the pump draws
  return where === 'skimmer' ? water_C + 0.2 : water_C;
}

function outletOf({ solved, facts, water_C }: Scene, where: Outlet['where']): number {
  if (where === 'collectorOutlet') return solved.panel.node_C[solved.flow.assembled.collectorOut];
  return water_C + facts.split * ((solved.panel.outlet_C ?? water_C) - water_C);
}

function pailOf(scene: Scene, p: NonNullable<Recipe['pail']>): NonNullable<TestDay['pail']> {
  const flow = scene.facts.outletFlowLifted_m3s(p.outlet, p.lift_m) ?? 0;
  const time = p.volume_m3 / flow;
  return {
    volume_m3: p.volume_m3,
    volumeLimit_m3: p.limit_m3,
    fillLineLimit_m3: p.fill_m3,
    reaction_s: 0.3,
    times_s: Array.from({ length: p.runs }, () => round(time + 0.15 * scene.normal(), 0.1, 1)),
    outlet: p.outlet,
    outletLift_m: p.lift_m,
  };
}

function rotameterOf(
  { facts, normal }: Scene,
  r: NonNullable<Recipe['rotameter']>,
): NonNullable<TestDay['rotameter']> {
  const shown = facts.collector_m3s * (1 + r.classError);
  const readings_m3s = Array.from({ length: r.count }, () =>
    round(shown * (1 + 0.006 * normal()), r.division_m3s / 2, 6),
  );
  return { flow_m3s: readings_m3s[0], readings_m3s, limit_m3s: r.limit_m3s, at: 'collector' };
}

function meterOf({ facts, normal }: Scene, m: NonNullable<Recipe['meter']>): NonNullable<TestDay['meter']> {
  const first_m3 = 412.386;
  const last_m3 = round(
    first_m3 + facts.collector_m3s * 1.008 * (m.between_s + 0.2 * normal()),
    m.mark_m3,
    3,
  );
  return { first_m3, last_m3, between_s: m.between_s, limit_m3: m.mark_m3 / 2, at: 'collector' };
}

function gaugesOf(
  project: Project,
  { facts }: Scene,
  g: NonNullable<Recipe['gauges']>,
): NonNullable<TestDay['gauges']> {
  const past = loopFacts(project, solvePast(project));
  const pressure = (f: LoopFacts): number =>
    round(f.pumpCurve.head_m(f.pump_m3s) * f.density_kgm3 * 9.80665 + f.suction_Pa, g.mark_Pa, 0);
  return {
    pressureIn_Pa: pressure(facts),
    pressureOut_Pa: pressure(past),
    vacuumIn_Pa: round(-facts.suction_Pa, g.mark_Pa, 0),
    vacuumOut_Pa: round(-past.suction_Pa, g.mark_Pa, 0),
    limit_Pa: g.limit_Pa,
  };
}

function solvePast(project: Project): SolvedHeat['flow'] {
  const now = resolveMoment(project, { at: '2026-01-01T12:00' });
  return solveHeat(project, heatWeather(project, now), 26, { toCollector: 0 }).flow;
}

/** A hand takes what is well above the water for hot. */
function touchOf(state: Project, { solved, normal }: Scene, recipe: Recipe): NonNullable<TestDay['touch']> {
  const { assembled } = solved.flow;
  return recipe.touch!.flatMap(({ section, bank }) => {
    const place = placeOf(state, solved, section, bank);
    const units = assembled.geometry.banks[place].units;
    const outlets = units.map((_, i) => outletAt(solved, place, i) + 0.6 * normal());
    const middle = [...outlets].sort((a, b) => a - b)[Math.floor(outlets.length / 2)];
    return units.map((u, i) => ({
      section,
      bank,
      tube: u.position,
      feel: outlets[i] > middle + 8 ? ('hot' as const) : ('cool' as const),
    }));
  });
}

function readOf(
  state: Project,
  { solved, normal }: Scene,
  recipe: Recipe,
  reading: (t: number, probe: Probe) => number,
): NonNullable<TestDay['tubes']> {
  return recipe.read!.flatMap(({ section, bank, probe }) => {
    const place = placeOf(state, solved, section, bank);
    const models = tubeModels(solved, place);
    return solved.flow.assembled.geometry.banks[place].units.map((u, i) => {
      const choked = recipe.choked?.find((c) => c.bank === bank && c.tube === u.position);
      const model = models.find((m) => m.position === u.position);
      const t =
        choked && model ? model.outlet_C(choked.to * model.networkFlow_m3s) : outletAt(solved, place, i);
      return { section, bank, tube: u.position, value_C: reading(t + 0.15 * normal(), probe) };
    });
  });
}

function placeOf(project: Project, solved: SolvedHeat, section: string, bank: string): number {
  return solved.flow.assembled.geometry.banks.findIndex(
    (b) =>
      project.collector.sections[b.section].id === section &&
      project.collector.sections[b.section].banks[b.bank].id === bank,
  );
}

function outletAt(solved: SolvedHeat, place: number, unit: number): number {
  const e = solved.layout.elementOf[solved.flow.assembled.banks[place]!.units[unit]];
  const still = Math.abs(solved.elementFlow_kgs[e]) < 1e-7;
  return still ? solved.panel.elementStanding_C[e] : solved.panel.elementOutlet_C[e];
}

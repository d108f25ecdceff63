import { deratingFactor } from '@sunlap/data/derating';
import { joinableOf } from '@sunlap/data/joinable';
import { findMaterial, materialByTemperature } from '@sunlap/data/materials';
import { collapsePressure, POLYOLEFIN_POISSON } from '@sunlap/engine/building/collapse';
import { lengthChange, offsetLeg } from '@sunlap/engine/building/expansion';
import { ratedAt } from '@sunlap/engine/building/pressure-rating';
import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { pumpData } from '../assembly/pump-link';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Bag } from './bag';
import type { Gathering } from './strand';

/** One pipe against pressure, heat and vacuum. */
export interface PressureRow {
  readonly pipe: string;
  readonly label: string;
  readonly rating_Pa: number;
  readonly running_C: number;
  readonly allowedRunning_Pa: number;
  readonly pressure_Pa: number;
  readonly okRunning: boolean;
  readonly dry_C: number;
  readonly limit_C: number;
  readonly allowedDry_Pa: number;
  readonly okDry: boolean;
  /** Outside pressure at which it collapses hot; null for stiff pipe, where it is far off. */
  readonly collapse_Pa: number | null;
}

/** A straight run that grows. */
export interface ExpansionRow {
  readonly label: string;
  readonly pipe: string;
  readonly length_m: number;
  readonly change_m: number;
  /** Leg that takes it up by bending; null where no stress is published. */
  readonly leg_m: number | null;
  readonly legAt_C: number | null;
}

export interface PressurePlan {
  readonly rows: readonly PressureRow[];
  readonly expansion: readonly ExpansionRow[];
  readonly dry_C: number;
  readonly coldest_C: number;
  /** Highest the pump can make, valves shut [Pa]. */
  readonly deadHead_Pa: number;
  /** Dry tube beside a wet one: difference in length [m]. */
  readonly unequal_m: number;
}

const ATMOSPHERE_PA = 101_325;

/** Pressure, heat, growth and vacuum of every pipe in the collector. */
export function pressurePlan(
  g: Gathering,
  project: Pick<Project, 'collector' | 'loop' | 'pool'>,
  dry_C: number,
  notices: Notice[],
): PressurePlan {
  const { options, say } = g;
  const running_C = options.water_C ?? Math.max(40, project.pool.wish_C + 12);
  const { curve } = pumpData(project.loop.pump, STANDARD_TABLES.shelf);
  const head_m = curve.kind === 'points' ? curve.head_m[0] : curve.shutOffHead_m;
  const shutOff_m = head_m * Math.max(project.loop.pump.speed, 1) ** 2;
  const deadHead_Pa = 996 * GRAVITY_MS2 * shutOff_m;
  const pipes = collectorPipes(g.bag);
  const rows = pipes.map((id): PressureRow => {
    const { pipe } = joinableOf(id)!;
    const material = findMaterial(pipe.material);
    const limit_C = material?.most_C ?? 60;
    const factor = (at: number): number => Math.min(1, Math.max(0, deratingFactor(pipe.material, at) ?? 0));
    const running = ratedAt(pipe.rating_Pa, factor(running_C), deadHead_Pa);
    const dry = ratedAt(pipe.rating_Pa, factor(dry_C), 0);
    const soft = pipe.material === 'HDPE' || pipe.material === 'LDPE' || pipe.material === 'PEX';
    return {
      pipe: id,
      label: pipe.label,
      rating_Pa: pipe.rating_Pa,
      running_C,
      allowedRunning_Pa: running.allowed_Pa,
      pressure_Pa: deadHead_Pa,
      okRunning: running.ok,
      dry_C,
      limit_C,
      allowedDry_Pa: dry.allowed_Pa,
      okDry: dry_C <= limit_C,
      collapse_Pa: soft
        ? collapsePressure(material?.hotLong_Pa ?? 1e8, POLYOLEFIN_POISSON, pipe.od_m / pipe.wall_m)
        : null,
    };
  });
  for (const row of rows) {
    if (!row.okRunning)
      notices.push({
        code: 'build-over-rating',
        severity: 'damage',
        path: '/collector',
        message: `${row.label} may bear ${say(row.allowedRunning_Pa, 'pressure')} at ${say(row.running_C, 'temperature')}; the pump can make ${say(row.pressure_Pa, 'pressure')} against shut valves.`,
        remedy: 'Choose pipe of a higher rating, never shut both ways, or fit a relief.',
      });
    if (row.collapse_Pa !== null && row.collapse_Pa < 2 * ATMOSPHERE_PA)
      notices.push({
        code: 'build-collapse',
        severity: row.collapse_Pa < ATMOSPHERE_PA ? 'damage' : 'unsure',
        path: '/collector',
        message:
          row.collapse_Pa < ATMOSPHERE_PA
            ? `${row.label} can be sucked flat at ${say(row.collapse_Pa, 'pressure')} under the air’s pressure when hot; a full vacuum is ${say(ATMOSPHERE_PA, 'pressure')}.`
            : `${row.label} has little to spare when hot: round and straight it bears ${say(row.collapse_Pa, 'pressure')} from outside, a full vacuum is ${say(ATMOSPHERE_PA, 'pressure')}. Out of round it is sucked flat sooner.`,
        remedy: 'A vacuum breaker at the highest point, or tube of a thicker wall.',
      });
  }
  const hot = rows.filter((row) => !row.okDry);
  if (hot.length > 0)
    notices.push({
      code: 'build-dry-heat',
      severity: 'damage',
      path: '/collector',
      message: `Dry in the sun on a calm day the panel can reach ${say(dry_C, 'temperature')}; over its limit are ${hot.map((row) => `${row.label} (${say(row.limit_C, 'temperature')})`).join(', ')}. They bear no pressure then and sag between supports.`,
      remedy:
        'Keep water in it on hot days or shade it; supports close together; vented and drained when it stands dry; never pressure while it is hot and dry.',
    });
  return {
    rows,
    expansion: expansionRows(project, options.coldest_C, dry_C),
    dry_C,
    coldest_C: options.coldest_C,
    deadHead_Pa,
    unequal_m: unequal(project, dry_C, running_C),
  };
}

function collectorPipes(bag: Bag): string[] {
  return [...new Set(bag.pieces.filter((p) => p.use !== 'branch').map((p) => p.pipe))].filter((id) =>
    joinableOf(id),
  );
}

/** Hottest published stress that is not over the temperature; null without any. */
function stiffness(
  material: string,
  at_C: number,
): { modulus_Pa: number; stress_Pa: number; at_C: number } | null {
  const rows = materialByTemperature(material === 'PVC-U' ? 'PVC' : material);
  if (rows.length === 0) return null;
  const row = rows.find((r) => r.at_C >= at_C) ?? rows[rows.length - 1];
  return row.stress_Pa === undefined
    ? null
    : { modulus_Pa: row.modulus_Pa, stress_Pa: row.stress_Pa, at_C: row.at_C };
}

function expansionRows(
  project: Pick<Project, 'collector' | 'loop'>,
  coldest_C: number,
  dry_C: number,
): ExpansionRow[] {
  const out = new Map<string, ExpansionRow>();
  const add = (label: string, id: string, length_m: number): void => {
    const pipe = joinableOf(id)?.pipe;
    if (!pipe) return;
    const material = findMaterial(pipe.material);
    const limit = Math.min(dry_C, material?.most_C ?? 60);
    const change_m = lengthChange(material?.expansion_perK ?? 5.4e-5, length_m, dry_C - coldest_C);
    const stiff = stiffness(pipe.material, limit);
    const key = `${id}|${length_m.toFixed(3)}`;
    if (out.has(key)) return;
    out.set(key, {
      label,
      pipe: pipe.label,
      length_m,
      change_m,
      leg_m: stiff ? offsetLeg(stiff.modulus_Pa, pipe.od_m, Math.max(0, change_m), stiff.stress_Pa) : null,
      legAt_C: stiff?.at_C ?? null,
    });
  };
  for (const section of project.collector.sections)
    for (const bank of section.banks) {
      if (bank.kind !== 'tubes') continue;
      add(`Tubes of ${bank.name ?? bank.id}`, bank.pipe, bank.length_m);
      add(`Headers of ${bank.name ?? bank.id}`, bank.supply.pipe, bank.count * bank.pitch_m);
    }
  for (const [word, path] of [
    ['Feed', project.loop.feed],
    ['Return', project.loop.return],
  ] as const)
    for (const e of path) if (e.kind === 'pipe') add(e.name ?? word, e.pipe, e.length_m);
  return [...out.values()];
}

function unequal(project: Pick<Project, 'collector'>, dry_C: number, wet_C: number): number {
  let most = 0;
  for (const section of project.collector.sections)
    for (const bank of section.banks) {
      if (bank.kind !== 'tubes') continue;
      const material = findMaterial(joinableOf(bank.pipe)?.pipe.material ?? 'PVC');
      most = Math.max(most, lengthChange(material?.expansion_perK ?? 5.4e-5, bank.length_m, dry_C - wet_C));
    }
  return Math.max(0, most);
}

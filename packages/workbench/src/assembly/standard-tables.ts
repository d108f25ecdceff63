import { filters } from '@sunlap/data/filters';
import { findMaterial } from '@sunlap/data/materials';
import { findPipe } from '@sunlap/data/pipes';
import { findPump, pumps } from '@sunlap/data/pumps';
import { findValve, findValveCharacteristic, valves } from '@sunlap/data/valves';
import { kvFromLoss } from './losses';
import { type PipeSize, UNKNOWN_PIPE } from './sizes';
import type { Tables } from './tables';

/** Conductivity of PVC [W/mK], where a material has no row. */
const PVC_CONDUCTIVITY = 0.16;
/** Loss of an open valve whose size no row has, on its bore [–]; Crane TP-410, from memory. */
const OPEN_LOSS: Record<string, number> = { globe: 7, needle: 15, check: 2, diverter: 1.5, butterfly: 0.9 };

const sizes = new Map<string, PipeSize>();

function size(id: string): PipeSize {
  const known = sizes.get(id);
  if (known) return known;
  const row = findPipe(id);
  if (!row) return UNKNOWN_PIPE;
  const made: PipeSize = {
    id,
    name: row.label,
    material: row.material,
    bore_m: row.bore_m,
    outer_m: row.od_m,
    roughness_m: row.roughness_m,
    wallConductivity_WmK: findMaterial(row.material)?.conductivity_WmK ?? PVC_CONDUCTIVITY,
    rating_Pa: row.rating_Pa,
  };
  sizes.set(id, made);
  return made;
}

/** Inch sizes by bore, for valves whose pipe is not named. */
const NOMINAL_BORES: readonly (readonly [nominal: string, bore_m: number])[] = [
  ['1/2', 0.0158],
  ['3/4', 0.0209],
  ['1', 0.0266],
  ['1-1/4', 0.0351],
  ['1-1/2', 0.0409],
  ['2', 0.0525],
  ['2-1/2', 0.0627],
  ['3', 0.0779],
];

function nominalOf(bore_m: number): string {
  let best = NOMINAL_BORES[0];
  for (const row of NOMINAL_BORES) if (Math.abs(row[1] - bore_m) < Math.abs(best[1] - bore_m)) best = row;
  return best[0];
}

function openKv_m3h(
  type: Parameters<Tables['openKv_m3h']>[0],
  pipe: string | undefined,
  bore_m: number,
): number {
  const nominal = pipe === undefined ? undefined : findPipe(pipe)?.nominal;
  const row =
    (nominal === undefined ? undefined : findValve(type, nominal)) ?? findValve(type, nominalOf(bore_m));
  if (row) return row.kv_m3h;
  const any = valves.find((v) => v.type === type);
  return any?.kv_m3h ?? kvFromLoss(OPEN_LOSS[type] ?? 0.2, bore_m);
}

/** The tables of the data package. */
export const STANDARD_TABLES: Tables = {
  sizes: size,
  shelf: (id) => findPump(id) ?? findPump('single-1hp') ?? pumps[0],
  openKv_m3h,
  characteristic: findValveCharacteristic,
  viscousShare: (kind) => filters.find((f) => f.kind === kind)?.viscousShare ?? 0.7,
  knowsPipe: (id) => findPipe(id) !== undefined,
  knowsPump: (id) => findPump(id) !== undefined,
};

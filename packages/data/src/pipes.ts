import table from './pipes.json';
import type { Provenance } from './table';
import { finder, readTable, withProvenance } from './table';

export type FittingSystem = 'ips-sch40' | 'ips-sch80' | 'metric';

export interface PipeFamily extends Provenance {
  id: string;
  label: string;
  /** Row of the material table. */
  material: string;
  /** Solvent-cement fittings that belong to it; none for tube joined otherwise. */
  fittings?: FittingSystem;
  /** Temperature up to which the rating holds. */
  ratingAt_C: number;
}

export interface Pipe extends Provenance {
  /** Readable and stable: `pvc-sch40-1/2`, `pvcu-pn10-50`, `pe-irrigation-20`. */
  id: string;
  label: string;
  family: string;
  material: string;
  /** Designation in the trade; a name, not a measure. */
  nominal: string;
  od_m: number;
  wall_m: number;
  bore_m: number;
  rating_Pa: number;
  roughness_m: number;
}

/** Roughness of smooth plastic pipe [m]: 1.5 µm, common practice. */
const SMOOTH_PLASTIC_M = 1.5e-6;

interface Cells {
  family: string;
  nominal: string;
  od_m: number;
  wall_m: number;
  rating_Pa: number;
  label?: string;
}

export const pipeFamilies: readonly PipeFamily[] = table.families.map((family) =>
  withProvenance<PipeFamily>(table.about, family),
);

/** A family by its id, e.g. `pvc-sch40`. */
export const findPipeFamily = finder(pipeFamilies, (family) => family.id);

export const pipes: readonly Pipe[] = readTable<Cells>(table.about, table.table).map((cells) => {
  const family = findPipeFamily(cells.family);
  if (family === undefined) throw new TypeError(`pipes.json has no family ${cells.family}`);
  const { nominal, od_m, wall_m, rating_Pa } = cells;
  const size =
    nominal.includes('/') || od_m > 1.2 * 1e-3 * Number(nominal) ? `${nominal} in` : `${nominal} mm`;
  const { source, known, range, note } = family;
  return {
    id: `${family.id}-${nominal}`,
    label: `${family.label}, ${cells.label ?? size}`,
    family: family.id,
    material: family.material,
    nominal,
    od_m,
    wall_m,
    bore_m: Number((od_m - 2 * wall_m).toPrecision(7)),
    rating_Pa,
    roughness_m: SMOOTH_PLASTIC_M,
    source,
    known,
    range,
    ...(note === undefined ? {} : { note }),
  };
});

/** A pipe by its id; undefined when the shelf has none of that name. */
export const findPipe = finder(pipes, (pipe) => pipe.id);

import atTemperature from './materialAtTemperature.json';
import table from './materials.json';
import type { Provenance } from './table';
import { finder, readTable, withProvenance } from './table';

export interface Material extends Provenance {
  id: string;
  label: string;
  density_kgm3: number;
  /** Modulus, short-term at 23 °C. */
  short_Pa: number;
  /** Least and most over decades at 23 °C. */
  long_Pa: readonly [number, number];
  /** Under load for weeks at 50 to 60 °C; judgement. */
  hotLong_Pa: number;
  conductivity_WmK: number;
  heat_JkgK: number;
  /** Linear thermal expansion, the figure used and its range. */
  expansion_perK: number;
  expansionRange_perK: readonly [number, number];
  /** Limit in service. */
  most_C: number;
  /** Deflection or Vicat temperature under load, where known. */
  softens_C?: number;
  /** Long-wave. */
  emittance: number;
}

export interface MaterialAtTemperature extends Provenance {
  material: string;
  at_C: number;
  /** Short-term. */
  modulus_Pa: number;
  /** Allowable long-term, where published. */
  stress_Pa?: number;
}

export const materials: readonly Material[] = table.rows.map((row) =>
  withProvenance<Material>(table.about, row),
);
export const findMaterial = finder(materials, (row) => row.id);

const hot: readonly MaterialAtTemperature[] = readTable<MaterialAtTemperature>(
  atTemperature.about,
  atTemperature.table,
);

/** Modulus and allowable stress by temperature, coolest first; empty where nothing is published. */
export function materialByTemperature(material: string): readonly MaterialAtTemperature[] {
  return hot.filter((row) => row.material === material);
}

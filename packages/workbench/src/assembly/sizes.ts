/** What assembly needs to know about a pipe. */
export interface PipeSize {
  readonly id: string;
  readonly name: string;
  readonly material: string;
  readonly bore_m: number;
  readonly outer_m: number;
  readonly roughness_m: number;
  readonly wallConductivity_WmK: number;
  /** Pressure rating at 20–23 °C [Pa]; null when the table has none. */
  readonly rating_Pa: number | null;
}

/** The pipe table as a function; never throws: an unknown designation gives {@link UNKNOWN_PIPE}'s size. */
export type PipeSizes = (id: string) => PipeSize;

/**
 * Stands in for a designation that no table has, so that a drawing can still be made; `check` tells the person.
 * Half-inch schedule 40 (ASTM D1785, from memory).
 */
export const UNKNOWN_PIPE: PipeSize = {
  id: '',
  name: 'unknown pipe',
  material: 'PVC',
  bore_m: 0.0158,
  outer_m: 0.02134,
  roughness_m: 1.5e-6,
  wallConductivity_WmK: 0.16,
  rating_Pa: null,
};

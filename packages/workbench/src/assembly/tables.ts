import type { ShelfPump } from '@sunlap/engine/hydraulics/pump-shelf';
import type { Valve } from '@sunlap/project/schema/path';
import type { PipeSizes } from './sizes';

/** Row of the pump shelf by its id; an unknown id gives the 1 hp row. */
export type PumpShelf = (id: string) => ShelfPump;

/** What assembly looks up. Functions, so that a person's own tables can stand in. */
export interface Tables {
  readonly sizes: PipeSizes;
  readonly shelf: PumpShelf;
  /** Kv wide open [m³/h] of a valve in a pipe of that designation or bore. */
  readonly openKv_m3h: (type: Valve['type'] | 'check', pipe: string | undefined, bore_m: number) => number;
  /** Share of Kv by opening, of a valve whose own points nobody typed; undefined is linear. */
  readonly characteristic: (
    type: Valve['type'],
  ) => { readonly opening: readonly number[]; readonly kvShare: readonly number[] } | undefined;
  /** Share of a clean filter's loss that is viscous [–]. */
  readonly viscousShare: (kind: 'sand' | 'cartridge' | 'diatomite') => number;
  /** Is there a row for this designation? */
  readonly knowsPipe: (id: string) => boolean;
  readonly knowsPump: (id: string) => boolean;
}

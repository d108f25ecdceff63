import type { MeasuredPart } from '@sunlap/data/headerTee';
import type { CutProgramSolver } from '@sunlap/engine/building/cutting-types';
import type { Project } from '@sunlap/project/schema/project';
import { HOTTEST_AIR_C } from '../heat/hottest-air';

export interface BuildOptions {
  /** `heater`: what a pool that runs already still needs; `all`: suctions, pump side and pool return too. */
  readonly scope?: 'heater' | 'all';
  /** How pipes longer than the stock are joined; `none` asks for a notice instead. */
  readonly join?: 'coupling' | 'bell' | 'none';
  /** Unions where a section meets its feed and its return. */
  readonly unions?: boolean;
  /** By part, e.g. `reducingTee-1-1/2x1/2`; the project's own when absent. */
  readonly measured?: Readonly<Record<string, MeasuredPart>>;
  readonly tool?: 'ratchet' | 'handSaw' | 'chopSaw';
  /** Width of a cut [m]; the tool's when absent. */
  readonly kerf_m?: number;
  /** Share of small parts bought on top [–]. */
  readonly spares?: number;
  /** Cement added for cans that skin over [–]. */
  readonly cementWaste?: number;
  readonly primer?: boolean;
  /** Air on the days of gluing, the coldest hour (the climate's own when absent), and the hottest calm day [°C]. */
  readonly glueAir_C?: number;
  readonly coldest_C?: number;
  readonly hottest_C?: number;
  /** Warmest water that runs through it [°C]; the pool's wish and 12 K, at least 40, when absent. */
  readonly water_C?: number;
  /** Gust that the person asks about [m/s]. */
  readonly gust_ms?: number;
  /** Proves cutting plans; see `loadIntegerSolver`. */
  readonly solver?: CutProgramSolver;
}

/** Width of a cut [m]; common practice. */
export const KERF_M = { ratchet: 0, handSaw: 0.001, chopSaw: 0.003 } as const;

export type CompleteOptions = Required<Omit<BuildOptions, 'solver' | 'water_C'>> &
  Pick<BuildOptions, 'solver' | 'water_C'>;

/** What stands for all that neither the file nor the caller says. */
export const USUAL_BUILD = {
  scope: 'heater',
  join: 'coupling',
  unions: true,
  tool: 'handSaw',
  spares: 0.05,
  cementWaste: 0.4,
  primer: true,
  glueAir_C: 20,
  coldest_C: -10,
  hottest_C: HOTTEST_AIR_C,
  gust_ms: 40,
} as const satisfies BuildOptions;

/** Dimensions of fittings that the project says were measured. */
export function measuredParts(project: Pick<Project, 'stock'>): Record<string, MeasuredPart> {
  return Object.fromEntries((project.stock?.measured ?? []).map(({ part, ...own }) => [part, own]));
}

type Given<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

const given = <T extends object>(options: T): Given<T> =>
  Object.fromEntries(Object.entries(options).filter(([, v]) => v !== undefined)) as Given<T>;

/** Options of the call over those of the file over the usual ones. */
export function completeOptions(
  options: BuildOptions,
  project: Pick<Project, 'stock' | 'build'>,
): CompleteOptions {
  const { done: _, ...own } = project.build ?? {};
  const merged = { measured: measuredParts(project), ...USUAL_BUILD, ...given(own), ...given(options) };
  // another tool on the command line brings its own width of cut
  const kerf_m = options.kerf_m ?? (options.tool ? undefined : own.kerf_m) ?? KERF_M[merged.tool];
  return { ...merged, kerf_m };
}

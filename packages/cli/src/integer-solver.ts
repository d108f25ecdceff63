import { createRequire } from 'node:module';
import type { CutProgramSolver } from '@sunlap/engine/building/cutting-types';
import { loadIntegerSolver } from '@sunlap/workbench/build/integer-solver';

/** The integer solver with its WebAssembly file, wherever it is installed; undefined when it will not load. */
export async function integerSolver(): Promise<CutProgramSolver | undefined> {
  try {
    const file = createRequire(import.meta.url).resolve('highs/runtime');
    return await loadIntegerSolver({ locateFile: () => file });
  } catch {
    // without it plans show their gap instead of a proof
    return undefined;
  }
}

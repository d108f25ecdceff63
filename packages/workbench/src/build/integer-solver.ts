import type { CutProgram, CutProgramOutcome, CutProgramSolver } from '@sunlap/engine/building/cutting-types';

/** What is used of the integer solver's library. */
interface Library {
  solve(
    problem: string,
    options?: { time_limit?: number; mip_rel_gap?: number; output_flag?: boolean },
  ): { Status: string; Columns: Record<string, { Primal?: number }> };
}

export interface IntegerSolverOptions {
  /** Seconds for one programme; the plan shows its gap when they run out. */
  readonly seconds?: number;
  /** Where the library's WebAssembly file lies, in a browser. */
  readonly locateFile?: (file: string) => string;
}

/**
 * Loads the integer solver (1.2 MB of WebAssembly) when it is asked for, and makes it answer cutting programmes.
 *
 * @example const solver = await loadIntegerSolver(); build(project, { solver })
 */
export async function loadIntegerSolver(options: IntegerSolverOptions = {}): Promise<CutProgramSolver> {
  const { default: load } = await import('highs');
  const library = (await load(
    options.locateFile === undefined ? {} : { locateFile: options.locateFile },
  )) as Library;
  return (program) => solveProgram(library, program, options.seconds ?? 1);
}

function solveProgram(library: Library, program: CutProgram, seconds: number): CutProgramOutcome {
  let answer: ReturnType<Library['solve']>;
  try {
    answer = library.solve(programText(program), {
      time_limit: seconds,
      mip_rel_gap: 0,
      output_flag: false,
    });
  } catch {
    // a library that fails proves nothing: the plan keeps its gap
    return { status: 'stopped' };
  }
  if (answer.Status === 'Infeasible') return { status: 'infeasible' };
  const counts = program.columns.map((_, c) => Math.round(answer.Columns[`x${c}`]?.Primal ?? 0));
  if (answer.Status === 'Optimal') return { status: 'optimal', counts };
  return { status: 'stopped', counts };
}

/** The programme in CPLEX LP form. Lines stay short: the format allows 510 characters. */
export function programText(program: CutProgram): string {
  const { columns, costs, demand, limits, most } = program;
  const sum = (terms: string[]): string => {
    const lines: string[] = [];
    for (let i = 0; i < terms.length; i += 12) lines.push(terms.slice(i, i + 12).join(' + '));
    return lines.join('\n + ');
  };
  const rows: string[] = [];
  demand.forEach((d, i) => {
    if (d <= 0) return;
    const terms = columns.flatMap((p, c) => (p.counts[i] > 0 ? [`${p.counts[i]} x${c}`] : []));
    // nothing can make this piece: a row that cannot hold says so
    rows.push(terms.length > 0 ? ` d${i}: ${sum(terms)} >= ${d}` : ` d${i}: 0 x0 >= ${d}`);
  });
  limits.forEach((limit, j) => {
    if (limit === Infinity) return;
    const terms = columns.flatMap((p, c) => (p.stock === j ? [`x${c}`] : []));
    if (terms.length > 0) rows.push(` u${j}: ${sum(terms)} <= ${limit}`);
  });
  const cost = sum(costs.map((k, c) => `${k} x${c}`));
  return [
    'Minimize',
    ` price: ${cost}`,
    'Subject To',
    ...rows,
    ` most: ${cost} <= ${most}`,
    'General',
    columns.map((_, c) => ` x${c}`).join('\n'),
    'End',
    '',
  ].join('\n');
}

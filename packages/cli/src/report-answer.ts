import type { Answer } from '@sunlap/workbench/results';
import type { Arguments } from './args';
import type { Io } from './io';
import { exitFor, noticesText } from './notices';
import { writeOut } from './output';

/** Writes an answer as JSON or as text with its notices, and gives the exit code it asks for. */
export async function reportAnswer<T>(
  answer: Answer<T>,
  args: Arguments,
  io: Io,
  text: () => string,
  extra: Record<string, unknown> = {},
): Promise<number> {
  const { result, solver, band, notices } = answer;
  if (args.on('json')) {
    await writeOut(io, args, `${JSON.stringify({ result, solver, band, notices, ...extra }, null, 2)}\n`);
  } else if (!solver.converged) {
    io.err(
      `sunlap: the solver did not converge after ${solver.iterations} steps, so there is no answer to show.\n` +
        `It stuck at ${solver.worst ?? 'an unknown place'}, residual ${solver.residual.toExponential(1)}.\n`,
    );
    io.out(`\n${noticesText(notices, columnsOf(io))}`);
  } else {
    await writeOut(io, args, `${text()}\n${noticesText(notices, columnsOf(io))}`);
  }
  return exitFor(notices, solver.converged);
}

/**
 * Writes what has no room for notices (CSV, SVG, DXF, HTML); they go where messages go. Gives the exit code.
 */
export async function reportFile(
  text: string,
  { notices, solver }: Pick<Answer<unknown>, 'notices' | 'solver'>,
  args: Arguments,
  io: Io,
): Promise<number> {
  await writeOut(io, args, text);
  return sayNotices({ notices, solver }, io);
}

/** Says notices where messages go. @returns the exit code that they ask for */
export function sayNotices({ notices, solver }: Pick<Answer<unknown>, 'notices' | 'solver'>, io: Io): number {
  if (notices.length > 0) io.err(noticesText(notices, columnsOf(io)));
  return exitFor(notices, solver.converged);
}

/** Width to break text at. */
export const columnsOf = (io: Io): number => Math.min(110, Math.max(60, io.columns ?? 100));

import type { Answer } from '@sunlap/workbench/results';
import type { Arguments } from './args';
import type { Io } from './io';
import { exitFor, noticesText } from './notices';

/** Prints an answer as JSON or as text with its notices, and gives the exit code it asks for. */
export function reportAnswer<T>(
  answer: Answer<T>,
  args: Arguments,
  io: Io,
  text: () => string,
  extra: Record<string, unknown> = {},
): number {
  const { result, solver, band, notices } = answer;
  if (args.on('json')) {
    io.out(`${JSON.stringify({ result, solver, band, notices, ...extra }, null, 2)}\n`);
  } else if (!solver.converged) {
    io.err(
      `sunlap: the solver did not converge after ${solver.iterations} steps, so there is no answer to show.\n` +
        `It stuck at ${solver.worst ?? 'an unknown place'}, residual ${solver.residual.toExponential(1)}.\n`,
    );
    io.out(`\n${noticesText(notices, columnsOf(io))}`);
  } else {
    io.out(`${text()}\n${noticesText(notices, columnsOf(io))}`);
  }
  return exitFor(notices, solver.converged);
}

/** Width to break text at. */
export const columnsOf = (io: Io): number => Math.min(110, Math.max(60, io.columns ?? 100));

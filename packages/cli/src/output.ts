import { LARGEST_FILE_CHARACTERS } from '@sunlap/project/file/read';
import type { Arguments } from './args';
import { type Io, WrongInput } from './io';

/**
 * Looks at the file that the person named for the output, before any work is done, so that none is in vain.
 *
 * @throws {WrongInput} where it is one that the command reads, or any project
 */
export async function lookAtOutput(io: Io, args: Arguments): Promise<void> {
  const path = args.text('out');
  if (path !== undefined) await refuseProjects(io, path, inputsOf(args));
}

/** Writes to the file that the person named, else to the terminal. @throws {WrongInput} when it cannot be written */
export async function writeOut(io: Io, args: Arguments, text: string): Promise<void> {
  const path = args.text('out');
  if (path === undefined) io.out(text);
  else await writeFileOut(io, args, path, text);
}

/** @throws {WrongInput} when it cannot be written, or would write over a project */
export async function writeFileOut(io: Io, args: Arguments, path: string, text: string): Promise<void> {
  await refuseProjects(io, path, inputsOf(args));
  const failed = await io.write(path, text);
  if (failed) throw new WrongInput(`${path}: ${failed.reason}; nothing was written`);
  io.err(`${path}\n`);
}

/** Files that a command reads. */
function inputsOf(args: Arguments): string[] {
  const weather = args.text('weather');
  return weather === undefined ? args.words : [...args.words, weather];
}

async function refuseProjects(io: Io, path: string, inputs: readonly string[]): Promise<void> {
  const refuse = (why: string): never => {
    throw new WrongInput(`--out ${path}: ${why}; nothing was written. Expected another file name`);
  };
  const real = await io.realPath(path);
  for (const input of inputs) if ((await io.realPath(input)) === real) refuse('that file is what is read');
  const size = await io.size(path);
  if (typeof size !== 'number' || size > LARGEST_FILE_CHARACTERS) return;
  if (looksLikeProject(await io.read(path))) refuse('there is a project of that name');
}

/** Is it a project, be it of another version or one with a fault? */
function looksLikeProject(bytes: Uint8Array): boolean {
  try {
    const file: unknown = JSON.parse(new TextDecoder().decode(bytes));
    return typeof file === 'object' && file !== null && 'schemaVersion' in file;
  } catch {
    return false;
  }
}

import type { Arguments } from './args';
import { type Io, WrongInput } from './io';

/** Writes to the file that the person named, else to the terminal. @throws {WrongInput} when it cannot be written */
export async function writeOut(io: Io, args: Arguments, text: string): Promise<void> {
  const path = args.text('out');
  if (path === undefined) {
    io.out(text);
    return;
  }
  await writeFileOut(io, path, text);
}

/** @throws {WrongInput} when it cannot be written */
export async function writeFileOut(io: Io, path: string, text: string): Promise<void> {
  const failed = await io.write(path, text);
  if (failed) throw new WrongInput(`${path}: ${failed.reason}; nothing was written`);
  io.err(`${path}\n`);
}

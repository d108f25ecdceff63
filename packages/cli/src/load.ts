import { problemText } from '@sunlap/project/file/problem';
import { LARGEST_FILE_CHARACTERS, readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { fileFaults } from '@sunlap/workbench/check/file-faults';
import { type Io, WrongInput } from './io';

/**
 * Reads a project file.
 *
 * @throws {WrongInput} naming the file, the place inside it, and what was expected
 */
export async function loadProject(io: Io, path: string): Promise<Project> {
  const size = await io.size(path);
  if (typeof size !== 'number') throw new WrongInput(`${path}: ${size.reason}; expected a project file`);
  if (size > LARGEST_FILE_CHARACTERS) {
    throw new WrongInput(
      `${path}: ${(size / 1e6).toFixed(0)} MB; expected a project file, well under ${LARGEST_FILE_CHARACTERS / 1e6} MB`,
    );
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(await io.read(path));
  } catch {
    throw new WrongInput(`${path}: not text in UTF-8; expected a project file`);
  }
  const read = readProject(text);
  if (!read.ok) {
    throw new WrongInput(read.problems.map((problem) => `${path}: ${problemText(problem)}`).join('\n'));
  }
  const faults = fileFaults(read.project);
  if (faults.length > 0) {
    throw new WrongInput(
      faults
        .map((fault) => `${path}: ${fault.path}: ${fault.message}${fault.remedy ? ` ${fault.remedy}` : ''}`)
        .join('\n'),
    );
  }
  return read.project;
}

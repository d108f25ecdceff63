import { writeProject } from '@sunlap/project/file/write';
import type { Project } from '@sunlap/project/schema/project';
import quince from '../../../../examples/quince-yard.json?url';
import tern from '../../../../examples/tern-roof.json?url';
import { t } from '../text/catalogue';
import { say, trouble } from './state';

const FAR_TOO_LARGE = 20_000_000;

/** Reads a file that the person chose; what is wrong is told with its place, and nothing is changed. */
export async function readFile(file: File): Promise<Project | null> {
  const text = file.size > FAR_TOO_LARGE ? 'x'.repeat(FAR_TOO_LARGE + 1) : await file.text();
  const [{ readProject }, { problemText }] = await Promise.all([
    import('@sunlap/project/file/read'),
    import('@sunlap/project/file/problem'),
  ]);
  const result = readProject(text);
  if (result.ok) return result.project;
  trouble.value = { title: t.files.wrong, lines: result.problems.map((p) => problemText(p)) };
  return null;
}

const CHOOSER = 'file-chooser';

/** Asks for a file. Resolves to null when none was chosen. */
export function chooseFile(): Promise<File | null> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.id = CHOOSER;
    input.hidden = true;
    const done = (file: File | null): void => {
      input.remove();
      resolve(file);
    };
    input.addEventListener('change', () => done(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => done(null));
    // In the page while it waits: one that nothing holds may be collected before a file is chosen.
    document.getElementById(CHOOSER)?.remove();
    document.body.append(input);
    input.click();
  });
}

export function saveFile(project: Project): void {
  const name = `${
    project.name
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-|-$/g, '') || 'project'
  }.sunlap.json`;
  const url = URL.createObjectURL(new Blob([writeProject(project)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  say(t.files.saved(name));
}

/** Examples are data, fetched when they are asked for: shipped with the app, and read as files by its tests. */
export async function example(which: 'quince' | 'tern'): Promise<Project> {
  const answer = await fetch(which === 'quince' ? quince : tern);
  if (!answer.ok) throw new Error(`${answer.status} ${answer.url}`);
  return (await answer.json()) as Project;
}

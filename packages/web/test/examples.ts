import { parseProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import quince from '../../../examples/quince-yard.json';
import tern from '../../../examples/tern-roof.json';
import { type Doc, firstMoment } from '../src/store/doc';

function project(raw: unknown): Project {
  const result = parseProject(raw);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.project;
}

/** Ground panel: three sections of two passes. */
export const quinceDoc = (): Doc => {
  const p = project(quince);
  return { project: p, moment: firstMoment(p) };
};

/** Coils on a flat roof, two valves. */
export const ternDoc = (): Doc => {
  const p = project(tern);
  return { project: p, moment: firstMoment(p) };
};

/** True while the file format still reads it. */
export const isLegal = (doc: Doc): boolean => parseProject(JSON.parse(JSON.stringify(doc.project))).ok;

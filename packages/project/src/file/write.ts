import type { Project } from '../schema/project';

const WIDTH = 100;

/**
 * The project as readable text: two spaces a level, short lists and objects on one line, so that a person can
 * read a difference. Reading it back gives the same project.
 */
export function writeProject(project: Project): string {
  return `${lay(project, '')}\n`;
}

function lay(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const flat = oneLine(value);
  if (indent.length + flat.length <= WIDTH && flat.length <= 90) return flat;
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    return `[\n${value.map((entry) => inner + lay(entry, inner)).join(',\n')}\n${indent}]`;
  }
  const rows = Object.entries(value)
    .filter(([, entry]) => entry !== undefined)
    .map(([key, entry]) => `${inner}${JSON.stringify(key)}: ${lay(entry, inner)}`);
  return `{\n${rows.join(',\n')}\n${indent}}`;
}

function oneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    const rows = Object.entries(value).filter(([, entry]) => entry !== undefined);
    if (rows.length === 0) return '{}';
    return `{ ${rows.map(([key, entry]) => `${JSON.stringify(key)}: ${oneLine(entry)}`).join(', ')} }`;
  }
  return JSON.stringify(value);
}

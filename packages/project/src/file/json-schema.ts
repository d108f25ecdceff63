import * as z from 'zod/mini';
import { projectSchema, SCHEMA_VERSION } from '../schema/project';

/** JSON Schema (draft 2020-12) of the project file, for editors and other programs. */
export function projectJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(projectSchema, { target: 'draft-2020-12', reused: 'ref' });
  return {
    ...schema,
    title: `Sunlap project file, version ${SCHEMA_VERSION}`,
    description:
      'SI units, named in each field’s suffix. Temperatures in °C, angles in degrees. Heights are over the pool’s normal water surface.',
  };
}

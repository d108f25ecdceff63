import { projectSchema } from '../schema/project';

type Def = { type?: string; [part: string]: unknown };
const defOf = (schema: unknown): Def => (schema as { _zod?: { def?: Def } })?._zod?.def ?? {};

/** Steps through wrappers to the schema that says something about keys or entries. */
function bare(schema: unknown): unknown {
  let current = schema;
  for (let depth = 0; depth < 8; depth++) {
    const def = defOf(current);
    if (def.type === 'optional' || def.type === 'nullable' || def.type === 'readonly')
      current = def.innerType;
    else if (def.type === 'lazy') current = (def.getter as () => unknown)();
    else return current;
  }
  return current;
}

/**
 * Keys that the format knows at a place of the file: for a form chosen by a `kind`, those of every form.
 * Used for "did you mean"; an unknown place gives none.
 */
export function knownKeys(keys: readonly PropertyKey[], root: unknown = projectSchema): string[] {
  let places: unknown[] = [bare(root)];
  for (const key of keys) {
    places = places.flatMap((place) => step(place, key));
    if (places.length === 0) return [];
  }
  return [...new Set(places.flatMap((place) => objects(place)).flatMap((shape) => Object.keys(shape)))];
}

function objects(schema: unknown): Record<string, unknown>[] {
  const def = defOf(bare(schema));
  if (def.type === 'object') return [def.shape as Record<string, unknown>];
  if (def.type === 'union') return (def.options as unknown[]).flatMap(objects);
  return [];
}

function step(schema: unknown, key: PropertyKey): unknown[] {
  const def = defOf(bare(schema));
  if (def.type === 'array') return [bare(def.element)];
  if (def.type === 'tuple') return (def.items as unknown[]).map(bare);
  return objects(schema).flatMap((shape) => (Object.hasOwn(shape, key) ? [bare(shape[key as string])] : []));
}

import type { Project } from '@sunlap/project/schema/project';
import type { Build } from '@sunlap/project/schema/stock';
import { KERF_M, USUAL_BUILD } from '@sunlap/workbench/build/options';

type Settings = Omit<Build, 'done'>;
/** A change of how it is built; null goes back to the usual. */
export type HowChange = { [K in keyof Settings]?: NonNullable<Settings[K]> | null };

/** How it is built, with the usual where the project says nothing. */
export function howOf(project: Pick<Project, 'build' | 'pool'>) {
  const own = project.build ?? {};
  const tool = own.tool ?? USUAL_BUILD.tool;
  return {
    ...USUAL_BUILD,
    ...(Object.fromEntries(Object.entries(own).filter(([, v]) => v !== undefined)) as Build),
    tool,
    kerf_m: own.kerf_m ?? KERF_M[tool],
  };
}

const withBuild = (project: Project, build: Build): Project => {
  const kept = Object.fromEntries(Object.entries(build).filter(([, v]) => v !== undefined));
  if (Object.keys(kept).length > 0) return { ...project, build: kept };
  const { build: _, ...rest } = project;
  return rest;
};

/** Another way of building. Another tool brings its own width of cut. */
export function setHow(project: Project, change: HowChange): Project {
  const next: Record<string, unknown> = { ...project.build };
  if (change.tool !== undefined) next.kerf_m = undefined;
  for (const [key, value] of Object.entries(change)) next[key] = value ?? undefined;
  return withBuild(project, next as Build);
}

export const isDone = (project: Pick<Project, 'build'>, step: string): boolean =>
  project.build?.done?.includes(step) === true;

/** Ticks a step of the order of work, or takes the tick away. */
export function setDone(project: Project, step: string, done: boolean): Project {
  const others = (project.build?.done ?? []).filter((id) => id !== step);
  const list = done ? [...others, step] : others;
  return withBuild(project, { ...project.build, done: list.length > 0 ? list : undefined });
}

const OLD_KEY = 'sunlap-build';

/**
 * What an earlier version kept of building in the browser instead of in the project; read once.
 *
 * @returns null where nothing was kept, or nothing but the usual
 */
export function takeKept(store: Pick<Storage, 'getItem' | 'removeItem'>): HowChange | null {
  try {
    const kept: unknown = JSON.parse(store.getItem(OLD_KEY) ?? 'null');
    store.removeItem(OLD_KEY);
    if (typeof kept !== 'object' || kept === null) return null;
    const { scope, join, unions, tool, primer } = kept as Record<string, unknown>;
    const found: HowChange = {
      ...(scope === 'all' ? { scope } : {}),
      ...(join === 'bell' || join === 'none' ? { join } : {}),
      ...(unions === false ? { unions } : {}),
      ...(tool === 'ratchet' || tool === 'chopSaw' ? { tool } : {}),
      ...(primer === false ? { primer } : {}),
    };
    return Object.keys(found).length > 0 ? found : null;
  } catch {
    return null;
  }
}

import type { Collector } from '@sunlap/project/schema/collector';
import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { repaired } from './repairs';

/** What a record that is not over says of the heater as it stands. */
type Lived = Pick<Project, 'asBuilt' | 'repairs'>;

/** Mendings that put a plugged tube back. */
const UNPLUGS: ReadonlySet<Repair['what']> = new Set(['coupled', 'replaced', 'reglued', 'cleaned']);

/**
 * Tubes that stand plugged today: each plugging since the latest as-built state that no later mending has undone,
 * oldest first. A state describes its heater whole, so what was plugged before it no longer counts.
 *
 * @example openPlugs({ asBuilt: [], repairs: [plugged, replaced] }) // [] where both name one tube
 */
export function openPlugs({ asBuilt, repairs }: Lived): Repair[] {
  const since =
    asBuilt
      .map((s) => s.from)
      .sort()
      .at(-1) ?? '';
  let open: Repair[] = [];
  for (const repair of repairs.filter((r) => r.date >= since).sort((a, b) => a.date.localeCompare(b.date))) {
    if (repair.what === 'plugged') open.push(repair);
    else if (UNPLUGS.has(repair.what)) open = open.filter((plug) => !undoes(repair, plug));
  }
  return open;
}

function undoes(mending: Repair, plug: Repair): boolean {
  if (mending.section === undefined || mending.section !== plug.section) return false;
  if (mending.bank !== undefined && mending.bank !== plug.bank) return false;
  return mending.tube === undefined || mending.tube === plug.tube;
}

interface Kept {
  readonly asBuilt: Project['asBuilt'];
  readonly repairs: Project['repairs'];
  readonly collector: Collector;
}

/** One collector for one record, so that what is kept for it (layouts, years) goes on being found. */
const kept = new WeakMap<Collector, Kept>();

/**
 * The project as its heater stands: tubes that a repair left plugged carry nothing. Whatever answers for now or for
 * the year runs this one; marks in the drawing itself stay as they are. How it stood on a day is `stateAt`. The
 * sun's date plays no part: a spring morning that is asked about in autumn is asked of the heater that stands.
 *
 * The same project comes back where nothing is plugged; doing it twice changes nothing.
 *
 * @example asItStands(project).collector.sections[1].banks[1].blocked // [11]
 */
export function asItStands(project: Project): Project {
  const { asBuilt, repairs } = project;
  if (repairs.length === 0) return project;
  let known = kept.get(project.collector);
  if (known?.asBuilt !== asBuilt || known.repairs !== repairs) {
    known = { asBuilt, repairs, collector: repaired(project.collector, openPlugs(project)) };
    kept.set(project.collector, known);
  }
  return known.collector === project.collector ? project : { ...project, collector: known.collector };
}

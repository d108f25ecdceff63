import type { Notice, NoticeMend, Severity } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { Tables } from '../assembly/tables';
import { structureNotices } from '../check/structure';
import type { SolvedFlow } from '../flow/flow-basic';
import { solveFlow } from '../flow/flow-basic';
import { loopNotices, unattainableNotices } from '../flow/notices-loop';
import { drainNotices, fillNotices } from '../flow/notices-study';
import { tubeNotices } from '../flow/notices-tubes';
import { type Say, sayIn } from '../flow/say';
import { flowValues } from '../flow/values';
import { candidates } from './candidates';
import { applyEdits } from './edits';

const RANK: Record<Severity, number> = { info: 0, unsure: 1, heat: 2, damage: 3, safety: 4 };

/** Findings whose mending is looked for here. */
const MENDED: ReadonlySet<string> = new Set(['does-not-drain', 'first-fill-traps-air', 'air-holds-in-tubes']);

/**
 * Findings on draining and air, each with the first change that takes it away and brings no worse one: every candidate is
 * made, solved, and looked at again.
 */
export function withMends(
  project: Project,
  solved: SolvedFlow,
  notices: readonly Notice[],
  tables: Tables,
): Notice[] {
  if (!solved.solution.converged) return [...notices];
  const say = sayIn(project.units);
  let now: Map<string, number> | null = null;
  return notices.map((n) => {
    if (!MENDED.has(n.code)) return n;
    for (const mend of candidates(n.code, project, solved.assembled, say)) {
      now ??= worstByCode(findings(project, solved, tables, say));
      if (holds(project, mend, n.code, now, solved, tables, say)) return { ...n, mend };
    }
    return n;
  });
}

function holds(
  project: Project,
  mend: NoticeMend,
  code: string,
  now: ReadonlyMap<string, number>,
  { water_C, speed }: SolvedFlow,
  tables: Tables,
  say: Say,
): boolean {
  const made = applyEdits(project, mend.edits);
  if (!made) return false;
  const solved = solveFlow(made, { tables, water_C, speed });
  if (!solved.solution.converged) return false;
  const after = worstByCode(findings(made, solved, tables, say));
  if (after.has(code)) return false;
  return [...after].every(([other, rank]) => rank <= (now.get(other) ?? RANK.info));
}

/** What is found without bands, costs and the study of starting. */
function findings(project: Project, solved: SolvedFlow, tables: Tables, say: Say): Notice[] {
  const { assembled, solution, water_C, speed } = solved;
  const values = flowValues(project, assembled, solution, water_C, speed);
  const free = () => null;
  return [
    ...structureNotices(project, tables, say),
    ...unattainableNotices(solved, values),
    ...(values.attainable ? tubeNotices(project, solved, values, say, free) : []),
    ...loopNotices(project, solved, values, tables, say, free),
    ...drainNotices(values, say),
    ...fillNotices(solved, values, say),
  ];
}

function worstByCode(notices: readonly Notice[]): Map<string, number> {
  const out = new Map<string, number>();
  for (const { code, severity } of notices) out.set(code, Math.max(out.get(code) ?? 0, RANK[severity]));
  return out;
}

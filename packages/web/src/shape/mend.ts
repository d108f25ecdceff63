import type { Notice, NoticeMend } from '@sunlap/engine/numeric/notice';
import type { Collector, HeaderEnd, Section } from '@sunlap/project/schema/collector';
import { applyEdits } from '@sunlap/workbench/mending/edits';
import { setHeader } from '../edits/panel';
import { valueAt, withValue } from '../edits/pointer';
import type { Doc } from '../store/doc';
import { t } from '../text/catalogue';
import { PIPES, pipeName, pipeOf } from './pipes';

export interface Mend {
  label: string;
  run(doc: Doc): Doc;
}

/** The step that mends a finding: one that the study tried and names itself, or one that follows from its code and place. */
export function mendFor(notice: Notice, doc: Doc): Mend | null {
  if (notice.mend !== undefined) return named(notice.mend, doc);
  const rule = RULES[notice.code];
  return rule === undefined ? null : rule(notice, doc);
}

/** Nothing where the file is another by now than the one it was found in. */
function named({ label, edits }: NoticeMend, doc: Doc): Mend | null {
  if (applyEdits(doc.project, edits) === null) return null;
  return { label, run: (d) => ({ ...d, project: applyEdits(d.project, edits) ?? d.project }) };
}

const put = (doc: Doc, pointer: string, value: unknown): Doc => ({
  ...doc,
  project: withValue(doc.project, pointer, value),
});

const withCollector = (doc: Doc, collector: Collector): Doc => ({
  ...doc,
  project: { ...doc.project, collector },
});

const place = (path: string): { section: number; bank: number } | null => {
  const found = /^\/collector\/sections\/(\d+)(?:\/banks\/(\d+))?/.exec(path);
  return found === null ? null : { section: Number(found[1]), bank: Number(found[2] ?? 0) };
};

function largerHeader(notice: Notice, doc: Doc): Mend | null {
  const at = place(notice.path);
  const bank = at === null ? undefined : doc.project.collector.sections[at.section]?.banks[at.bank];
  if (bank === undefined || bank.kind === 'rated' || bank.supply === undefined) return null;
  const now = pipeOf(bank.supply.pipe);
  const next = PIPES.filter((p) => p.family === now?.family && p.outer_m > now.outer_m + 1e-6).sort(
    (a, b) => a.outer_m - b.outer_m,
  )[0];
  if (next === undefined) return null;
  return {
    label: t.mends.header(pipeName(next.id)),
    run: (d) => withCollector(d, setHeader(d.project.collector, null, next.id)),
  };
}

const other = (end: HeaderEnd): HeaderEnd => (end === 'first' ? 'last' : 'first');

/** Ends by which water enters and leaves each bank, where it is one each. */
function connections(s: Section): ('same' | 'opposite' | null)[] {
  return s.banks.map((_, k) => {
    const into = k === 0 ? s.inletEnds : (s.handovers[k - 1]?.joins ?? []).map((j) => j.to);
    const out = k === s.banks.length - 1 ? s.outletEnds : (s.handovers[k]?.joins ?? []).map((j) => j.from);
    if (into.length !== 1 || out.length !== 1) return null;
    return into[0] === out[0] ? 'same' : 'opposite';
  });
}

/** Moves the outlets of all passes that are connected like the one found to the other end of their header. */
function otherEnds(notice: Notice, doc: Doc): Mend | null {
  const at = place(notice.path);
  const section = at === null ? undefined : doc.project.collector.sections[at.section];
  if (at === null || section === undefined) return null;
  const now = connections(section)[at.bank];
  if (now === null || now === undefined) return null;
  const change = (s: Section): Section => {
    const kinds = connections(s);
    const last = s.banks.length - 1;
    return {
      ...s,
      outletEnds: kinds[last] === now ? s.outletEnds.map(other) : s.outletEnds,
      handovers: s.handovers.map((h, k) =>
        kinds[k] === now ? { ...h, joins: h.joins.map((j) => ({ ...j, from: other(j.from) })) } : h,
      ),
    };
  };
  return {
    label: now === 'same' ? t.mends.oppositeEnds : t.mends.sameEnd,
    run: (d) => {
      const { collector } = d.project;
      return withCollector(d, { ...collector, sections: collector.sections.map(change) });
    },
  };
}

const RULES: Record<string, (notice: Notice, doc: Doc) => Mend | null> = {
  'header-too-small': largerHeader,
  'header-marginal': largerHeader,
  'tubes-run-backwards': largerHeader,
  'other-end-shares-better': otherEnds,
  'bypass-both-shut': (_notice, doc) => {
    const { bypass } = doc.project.loop;
    if (bypass.kind !== 'twoValves') return null;
    return {
      label: t.mends.openFirst(bypass.pastValve.name ?? bypass.pastValve.id),
      run: (d) => put(d, '/loop/bypass/pastValve/opening', 1),
    };
  },
  'pump-stopped': () => ({ label: t.mends.runPump, run: (d) => put(d, '/loop/pump/speed', 1) }),
  'tap-runs': (notice, doc) =>
    valueAt(doc.project, `${notice.path}/open`) === true
      ? { label: t.mends.shutTap, run: (d) => put(d, `${notice.path}/open`, false) }
      : null,
};

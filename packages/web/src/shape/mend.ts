import type { Notice } from '@sunlap/engine/numeric/notice';
import { setHeader } from '../edits/panel';
import { valueAt, withValue } from '../edits/pointer';
import type { Doc } from '../store/doc';
import { PIPES, pipeName, pipeOf } from './pipes';

export interface Mend {
  label: string;
  run(doc: Doc): Doc;
}

/** The step that mends a finding, where one follows from its code alone. */
export function mendFor(notice: Notice, doc: Doc): Mend | null {
  const rule = RULES.find((r) => r.code.test(notice.code));
  return rule === undefined ? null : rule.make(notice, doc);
}

const sectionIndex = (path: string): number | null => {
  const found = /^\/collector\/sections\/(\d+)/.exec(path);
  return found === null ? null : Number(found[1]);
};

interface Rule {
  code: RegExp;
  make(notice: Notice, doc: Doc): Mend | null;
}

const larger = (pipe: string) => {
  const now = pipeOf(pipe);
  return PIPES.filter((p) => p.family === now?.family && p.outer_m > (now?.outer_m ?? 0) + 1e-6).sort(
    (a, b) => a.outer_m - b.outer_m,
  )[0];
};

const RULES: Rule[] = [
  {
    code: /^(header-too-small|header-marginal)/,
    make(notice, doc) {
      const index = sectionIndex(notice.path);
      const section = doc.project.collector.sections[index ?? -1];
      const bank = section?.banks[0];
      if (section === undefined || bank === undefined || bank.kind === 'rated' || bank.supply === undefined)
        return null;
      const next = larger(bank.supply.pipe);
      if (next === undefined) return null;
      return {
        label: `Headers ${pipeName(next.id)}`,
        run: (d) => ({
          ...d,
          project: { ...d.project, collector: setHeader(d.project.collector, section.id, next.id) },
        }),
      };
    },
  },
  {
    code: /^(both-valves-closed|dead-head|pump-dead-heads)/,
    make(_notice, doc) {
      const { bypass } = doc.project.loop;
      if (bypass.kind !== 'twoValves') return null;
      return {
        label: `Open “${bypass.pastValve.name ?? bypass.pastValve.id}” first`,
        run: (d) => ({ ...d, project: withValue(d.project, '/loop/bypass/pastValve/opening', 1) }),
      };
    },
  },
  {
    code: /^(filter-dirty|dirty-filter)/,
    make: () => ({
      label: 'Clean the filter',
      run: (d) => ({ ...d, project: withValue(d.project, '/loop/filter/dirt', 1) }),
    }),
  },
  {
    code: /^tube-blocked/,
    make(notice, doc) {
      const found = /^(\/collector\/sections\/\d+\/banks\/\d+)/.exec(notice.path);
      if (found === null || valueAt(doc.project, `${found[1]}/blocked`) === undefined) return null;
      return {
        label: 'All tubes of this pass open',
        run: (d) => ({ ...d, project: withValue(d.project, `${found[1]}/blocked`, []) }),
      };
    },
  },
];

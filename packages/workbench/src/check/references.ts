import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Bank, Collector, Plumbing } from '@sunlap/project/schema/collector';
import type { Loop } from '@sunlap/project/schema/loop';
import type { Path } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import type { Tables } from '../assembly/tables';

/** Codes of notices that mean the file names something that does not exist: an error of the file, not of the heater. */
export const BROKEN_REFERENCES: readonly string[] = [
  'unknown-pipe',
  'unknown-pump',
  'unknown-section',
  'unknown-bank',
  'unknown-state',
  'duplicate-id',
  'plumbing-part-unclear',
];

/** What is computed with while a person still mends the file. */
const STAND_IN: Readonly<Record<string, string>> = {
  'unknown-pipe': 'Half-inch schedule 40 stands in for it.',
  'unknown-pump': 'One of 1 hp stands in for it.',
};

/** A fault of the file with what stands in, for answers that are given all the same. */
export function withStandIn(notice: Notice): Notice {
  const stands = STAND_IN[notice.code];
  return stands === undefined ? notice : { ...notice, message: `${notice.message} ${stands}` };
}

/**
 * Names that lead nowhere, ids used twice, sections left out of the plumbing. One wrong name is one fault, at the
 * first of its places; the others are named.
 */
export function referenceNotices(project: Project, tables: Tables): Notice[] {
  return alikeAsOne(allFaults(project, tables));
}

function alikeAsOne(faults: readonly Notice[]): Notice[] {
  const like = new Map<string, Notice[]>();
  for (const fault of faults) {
    const key = `${fault.code} ${fault.message}`;
    like.set(key, [...(like.get(key) ?? []), fault]);
  }
  return [...like.values()].map(([first, ...others]) => {
    if (others.length === 0) return first;
    const places = others.map((n) => n.path).join(', ');
    return {
      ...first,
      message: `${first.message} It is named at ${others.length + 1} places, also at ${places}.`,
    };
  });
}

function allFaults(project: Project, tables: Tables): Notice[] {
  const out: Notice[] = [];
  collectorReferences(project.collector, '/collector', tables, out);
  loopReferences(project.loop, '/loop', tables, out);
  project.asBuilt.forEach((state, i) => {
    collectorReferences(state.collector, `/asBuilt/${i}/collector`, tables, out);
    loopReferences(state.loop, `/asBuilt/${i}/loop`, tables, out);
  });
  duplicates(project.asBuilt, '/asBuilt', 'as-built state', out);
  duplicates(project.testDays, '/testDays', 'test day', out);
  project.testDays.forEach((day, i) => {
    if (day.state !== undefined && !project.asBuilt.some((s) => s.id === day.state)) {
      out.push(
        broken('unknown-state', `/testDays/${i}/state`, `No as-built state is called “${day.state}”.`),
      );
    }
    const state = project.asBuilt.find((s) => s.id === day.state);
    const collector = state?.collector ?? project.collector;
    for (const list of ['touch', 'tubes'] as const) {
      day[list]?.forEach((row, k) => {
        placeExists(collector, row.section, row.bank, `/testDays/${i}/${list}/${k}`, out);
      });
    }
  });
  project.repairs.forEach((repair, i) => {
    if (repair.section === undefined) return;
    placeExists(project.collector, repair.section, repair.bank, `/repairs/${i}`, out);
  });
  project.stock?.pipes.forEach((row, i) => {
    pipeExists(row.pipe, `/stock/pipes/${i}/pipe`, tables, out);
  });
  return out;
}

function broken(code: string, path: string, message: string, remedy?: string): Notice {
  return { code, severity: 'damage', path, message, ...(remedy === undefined ? {} : { remedy }) };
}

function pipeExists(id: string | undefined, path: string, tables: Tables, out: Notice[]): void {
  if (id === undefined || tables.knowsPipe(id)) return;
  out.push(
    broken('unknown-pipe', path, `No pipe in the tables is called “${id}”.`, 'Choose a pipe from the list.'),
  );
}

function duplicates(list: readonly { id: string }[], path: string, what: string, out: Notice[]): void {
  const seen = new Set<string>();
  list.forEach((row, i) => {
    if (seen.has(row.id)) {
      out.push(
        broken(
          'duplicate-id',
          `${path}/${i}/id`,
          `Two of a kind (${what}) are called “${row.id}”.`,
          'Give each its own id.',
        ),
      );
    }
    seen.add(row.id);
  });
}

function placeExists(
  collector: Collector,
  section: string,
  bank: string | undefined,
  path: string,
  out: Notice[],
): void {
  const found = collector.sections.find((s) => s.id === section);
  if (!found) {
    out.push(broken('unknown-section', `${path}/section`, `No section is called “${section}”.`));
  } else if (bank !== undefined && !found.banks.some((b) => b.id === bank)) {
    out.push(broken('unknown-bank', `${path}/bank`, `Section “${section}” has no pass called “${bank}”.`));
  }
}

function collectorReferences(collector: Collector, path: string, tables: Tables, out: Notice[]): void {
  duplicates(collector.sections, `${path}/sections`, 'section', out);
  collector.sections.forEach((section, s) => {
    const at = `${path}/sections/${s}`;
    duplicates(section.banks, `${at}/banks`, 'pass', out);
    section.banks.forEach((bank, b) => {
      bankReferences(bank, `${at}/banks/${b}`, tables, out);
    });
    if (section.handovers.length !== section.banks.length - 1) {
      const need = section.banks.length - 1;
      out.push({
        code: 'handovers-unclear',
        severity: 'unsure',
        path: `${at}/handovers`,
        message: `${section.name ?? section.id} has ${section.banks.length} passes and ${section.handovers.length} hand-overs between them; it needs ${need}. Missing ones are taken from the end away from where water came in.`,
        remedy: 'Say for each step which header ends are joined.',
      });
    }
    section.handovers.forEach((handover, h) => {
      handover.joins.forEach((join, j) => {
        if (join.path) pathReferences(join.path, `${at}/handovers/${h}/joins/${j}/path`, tables, out);
      });
    });
  });
  const used = new Map<string, number>();
  plumbingReferences(collector.plumbing, `${path}/plumbing`, collector, tables, used, out);
  collector.sections.forEach((section, s) => {
    const times = used.get(section.id) ?? 0;
    const name = section.name ?? section.id;
    if (times === 0) {
      out.push({
        code: 'section-not-plumbed',
        severity: 'heat',
        path: `${path}/sections/${s}`,
        message: `${name} is not joined to the loop: no water reaches it.`,
        remedy: 'Add it to the plumbing, in series or side by side.',
      });
    } else if (times > 1) {
      out.push(
        broken(
          'duplicate-id',
          `${path}/plumbing`,
          `${name} is plumbed ${times} times; only the first counts.`,
        ),
      );
    }
  });
  collector.taps.forEach((tap, t) => {
    placeExists(collector, tap.at.section, tap.at.bank, `${path}/taps/${t}/at`, out);
  });
}

function bankReferences(bank: Bank, path: string, tables: Tables, out: Notice[]): void {
  if (bank.kind === 'rated') {
    pipeExists(bank.headerPipe, `${path}/headerPipe`, tables, out);
  } else {
    pipeExists(bank.pipe, `${path}/pipe`, tables, out);
    pipeExists(bank.supply?.pipe, `${path}/supply/pipe`, tables, out);
    pipeExists(bank.gather?.pipe, `${path}/gather/pipe`, tables, out);
  }
  for (const list of ['blocked', 'airBound'] as const) {
    bank[list]?.forEach((number, i) => {
      if (number <= bank.count) return;
      out.push({
        code: 'tube-number-too-high',
        severity: 'unsure',
        path: `${path}/${list}/${i}`,
        message: `Tube ${number} of ${bank.name ?? bank.id} is marked, which has ${bank.count}.`,
        remedy: 'Take the mark away.',
      });
    });
  }
  if (bank.kind === 'coil' && bank.join === 'parallel' && (!bank.supply || !bank.gather)) {
    out.push({
      code: 'coil-headers-missing',
      severity: 'unsure',
      path,
      message: `${bank.name ?? bank.id} has coils side by side and no headers: they are taken to share evenly, without loss.`,
      remedy: 'Enter both headers.',
    });
  }
  if (bank.kind === 'coil' && !(bank.outerDiameter_m > bank.innerDiameter_m)) {
    out.push({
      code: 'coil-inside-out',
      severity: 'unsure',
      path: `${path}/outerDiameter_m`,
      message: `${bank.name ?? bank.id}: the coil's outer diameter is not larger than its inner one.`,
      remedy: 'Measure both across the whole coil.',
    });
  }
}

function plumbingReferences(
  part: Plumbing,
  path: string,
  collector: Collector,
  tables: Tables,
  used: Map<string, number>,
  out: Notice[],
): void {
  const kinds = [part.section, part.series, part.parallel].filter((x) => x !== undefined).length;
  if (kinds !== 1) {
    out.push(
      broken(
        'plumbing-part-unclear',
        path,
        kinds === 0
          ? 'A part of the plumbing names no section and holds no parts: water passes straight through.'
          : 'A part of the plumbing is more than one of section, series and parallel; the first of these counts.',
      ),
    );
  }
  if (part.section !== undefined) {
    used.set(part.section, (used.get(part.section) ?? 0) + 1);
    if (!collector.sections.some((s) => s.id === part.section)) {
      out.push(broken('unknown-section', `${path}/section`, `No section is called “${part.section}”.`));
    }
  }
  for (const which of ['before', 'after'] as const) {
    const inner = part[which];
    if (inner) pathReferences(inner, `${path}/${which}`, tables, out);
  }
  for (const which of ['series', 'parallel'] as const) {
    part[which]?.forEach((p, i) => {
      plumbingReferences(p, `${path}/${which}/${i}`, collector, tables, used, out);
    });
  }
}

function loopReferences(loop: Loop, path: string, tables: Tables, out: Notice[]): void {
  duplicates(loop.suctions, `${path}/suctions`, 'suction', out);
  duplicates(loop.outlets, `${path}/outlets`, 'outlet', out);
  const { curve } = loop.pump;
  if (curve.kind === 'shelf' && !tables.knowsPump(curve.shelf)) {
    out.push(
      broken(
        'unknown-pump',
        `${path}/pump/curve/shelf`,
        `No pump on the shelf is called “${curve.shelf}”.`,
        'Choose a pump from the list.',
      ),
    );
  }
  loop.suctions.forEach((s, i) => {
    pathReferences(s.path, `${path}/suctions/${i}/path`, tables, out);
  });
  for (const which of ['toPump', 'toFilter', 'toBypass', 'feed', 'return', 'toPool'] as const) {
    pathReferences(loop[which], `${path}/${which}`, tables, out);
  }
  if (loop.bypass.kind === 'threeWay') pipeExists(loop.bypass.pipe, `${path}/bypass/pipe`, tables, out);
  if (loop.bypass.kind === 'twoValves') {
    pipeExists(loop.bypass.toCollector.pipe, `${path}/bypass/toCollector/pipe`, tables, out);
    pipeExists(loop.bypass.pastValve.pipe, `${path}/bypass/pastValve/pipe`, tables, out);
  }
  if (loop.bypass.kind !== 'none') pathReferences(loop.bypass.past, `${path}/bypass/past`, tables, out);
  loop.outlets.forEach((o, i) => {
    pathReferences(o.path, `${path}/outlets/${i}/path`, tables, out);
  });
  if (loop.returnOutlet) pathReferences(loop.returnOutlet.path, `${path}/returnOutlet/path`, tables, out);
}

function pathReferences(path: Path, pointer: string, tables: Tables, out: Notice[]): void {
  path.forEach((element, i) => {
    const at = `${pointer}/${i}`;
    if (element.kind === 'split') {
      element.branches.forEach((branch, b) => {
        pathReferences(branch, `${at}/branches/${b}`, tables, out);
      });
    } else if (element.kind === 'pipe' || element.kind === 'valve' || element.kind === 'checkValve') {
      pipeExists(element.pipe, `${at}/pipe`, tables, out);
    }
  });
}

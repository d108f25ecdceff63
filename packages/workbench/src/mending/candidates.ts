import type { DrainFinding, DrainReport } from '@sunlap/engine/building/drain';
import type { Edit, NoticeMend } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { BankGeometry } from '../assembly/geometry';
import type { AssembledNetwork } from '../assembly/network';
import { drainReport } from '../flow/drains';
import type { Say } from '../flow/say';
import { askedOf, fallEdit, presentFall, raised } from './fall';
import { headerEnds, tapEdit } from './taps';

/** Rise from which air goes ahead of the water whatever the doubt: a little over 1° [m/m]. */
const AIR_RISE = 0.0185;

/** What might mend a finding on draining or air, best first; each is still to be tried. */
export function candidates(
  code: string,
  project: Project,
  assembled: AssembledNetwork,
  say: Say,
): NoticeMend[] {
  switch (code) {
    case 'does-not-drain':
      return drainMends(project, assembled, say);
    case 'first-fill-traps-air':
      return listed(bleedAtTop(project, assembled));
    case 'air-holds-in-tubes':
      return [...listed(risingTubes(project, assembled, say)), ...listed(otherSide(project, assembled))];
    default:
      return [];
  }
}

const listed = <T>(one: T | null): T[] => (one === null ? [] : [one]);

function bleedAtTop(project: Project, { geometry }: AssembledNetwork): NoticeMend | null {
  const edit = highestBleed(project, geometry);
  return edit && { label: 'fit a bleed at the highest header end', edits: [edit] };
}

function highestBleed(project: Project, geometry: AssembledNetwork['geometry']): Edit | null {
  const ends = headerEnds(geometry);
  if (ends.length === 0) return null;
  return tapEdit(
    project,
    ends.reduce((a, b) => (b.height_m > a.height_m + 1e-9 ? b : a)),
    'bleed',
  );
}

/**
 * Tubes rise in the direction of flow, in sections of one bank: of several in series every other would have to climb from
 * where the last one ended.
 */
function risingTubes(project: Project, assembled: AssembledNetwork, say: Say): NoticeMend | null {
  const report = drainReport(project, assembled);
  const edits: Edit[] = [];
  let most = 0;
  for (const bank of assembled.geometry.banks) {
    if (bank.kind !== 'tubes' || rise(bank) >= AIR_RISE) continue;
    if (project.collector.sections[bank.section].banks.length > 1) return null;
    const asked = Math.max(AIR_RISE, askedOf(report?.findings ?? [], bank, 'tube'));
    // the side where water enters becomes the low one
    const edit = fallEdit(project, bank, 'tubes', !bank.units[0].entersNear, asked);
    if (!edit) return null;
    edits.push(edit);
    most = Math.max(most, asked);
  }
  return edits.length === 0
    ? null
    : {
        label: `let the tubes rise ${say(most, 'slope')} in the direction of flow`,
        edits: [...edits, ...raised(project, edits)],
      };
}

const rise = (bank: BankGeometry): number => {
  const { tubes } = presentFall(bank);
  return bank.units[0].entersNear ? -tubes : tubes;
};

/** Water enters where the tubes are low: for sections whose tubes all run down. */
function otherSide(project: Project, { geometry }: AssembledNetwork): NoticeMend | null {
  const edits: Edit[] = [];
  project.collector.sections.forEach((section, s) => {
    const banks = geometry.banks.filter((b) => b.section === s && b.kind === 'tubes');
    if (banks.length === 0 || !banks.every((b) => rise(b) < 0)) return;
    const value = section.inletSide === 'near' ? 'far' : 'near';
    edits.push({ path: `/collector/sections/${s}/inletSide`, value });
  });
  return edits.length === 0 ? null : { label: 'let the water in at the low side of the tubes', edits };
}

/** Fall for tubes and headers, drains at low ends without a way out, a bleed where no air can enter. */
function drainMends(project: Project, assembled: AssembledNetwork, say: Say): NoticeMend[] {
  const report = drainReport(project, assembled);
  if (!report) return [];
  // level tubes may fall either way; which does not hold air is found by trying
  return ([false, true] as const).flatMap((toFar) =>
    listed(drainMend(project, assembled, report, toFar, say)),
  );
}

function drainMend(
  project: Project,
  { geometry }: AssembledNetwork,
  { findings }: DrainReport,
  toFar: boolean,
  say: Say,
): NoticeMend | null {
  const slopes: Edit[] = [];
  const taps: Edit[] = [];
  const fails = (f: DrainFinding): boolean =>
    f.cause === 'level' || f.cause === 'sag' || f.cause === 'awayFromDrain';
  const missing = (cause: DrainFinding['cause']): boolean => findings.some((f) => f.cause === cause);
  let most = 0;
  for (const bank of geometry.banks) {
    if (bank.kind !== 'tubes') continue;
    const now = presentFall(bank);
    for (const of of ['tubes', 'headers'] as const) {
      const asked = askedOf(findings, bank, of === 'tubes' ? 'tube' : 'header');
      const level = Math.abs(now[of]) < 1e-9;
      const far = of === 'tubes' ? (level ? toFar : now[of] > 0) : headersToLast(bank, now.headers);
      if (Math.abs(now[of]) >= asked && (of === 'tubes' || now[of] > 0 === far)) continue;
      const edit = fallEdit(project, bank, of, far, asked);
      if (!edit) return null;
      slopes.push(edit);
      most = Math.max(most, asked);
    }
    const low = headersToLast(bank, now.headers) ? 'last' : 'first';
    for (const header of ['supply', 'gather'] as const) {
      if (bank.units.length < 2 || !bank[header] || bank[header].joined.includes(low)) continue;
      const place = headerEnds(geometry).find((e) => e.bank === bank && e.header === header && e.end === low);
      const drained = project.collector.taps.some(
        (t) =>
          t.purpose === 'drain' &&
          t.at.section === project.collector.sections[bank.section].id &&
          t.at.bank === project.collector.sections[bank.section].banks[bank.bank].id &&
          t.at.header === header &&
          t.at.end === low,
      );
      if (!place || drained) continue;
      const edit = tapEdit(project, place, 'drain', taps);
      if (!edit) return null;
      taps.push(edit);
    }
  }
  const bleeds: Edit[] = [];
  if (missing('noAir')) {
    const edit = highestBleed(project, geometry);
    if (!edit) return null;
    bleeds.push(edit);
  }
  if (!findings.some(fails) && taps.length + bleeds.length === 0 && slopes.length === 0) return null;
  const words = [
    slopes.length > 0 ? `give tubes and headers a fall of ${say(most, 'slope')}` : '',
    taps.length > 0
      ? `fit ${taps.length === 1 ? 'a drain' : `${taps.length} drains`} at low header ends`
      : '',
    bleeds.length > 0 ? 'a bleed at the top' : '',
  ].filter(Boolean);
  return { label: words.join(', '), edits: [...slopes, ...raised(project, slopes), ...taps, ...bleeds] };
}

/** Headers keep the way they fall; level ones fall to the end at which most of them are joined. */
function headersToLast(bank: BankGeometry, fall: number): boolean {
  if (Math.abs(fall) > 1e-9) return fall > 0;
  const joined = (end: 'first' | 'last'): number =>
    [bank.supply, bank.gather].filter((h) => h?.joined.includes(end)).length;
  return joined('last') > joined('first');
}

import { headerTee } from '@sunlap/data/headerTee';
import { joinableOf } from '@sunlap/data/joinable';
import { findPipe } from '@sunlap/data/pipes';
import { findSupportSpacing, mostSpacing_m } from '@sunlap/data/supportSpacing';
import { leastPitch } from '@sunlap/engine/building/header';
import { askedDrainingFall } from '@sunlap/engine/building/sag';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { type BankGeometry, panelGeometry } from '../assembly/geometry';
import type { Tables } from '../assembly/tables';
import { measuredParts } from '../build/options';
import { pipeSag_m } from '../flow/drains';
import type { Say } from '../flow/say';

/** Wall temperature for which supports are spaced: a dry panel in the sun, middle of the published tables [°C]. */
const SUPPORT_AT_C = 48.9;

/** Does it go together: pitch and tees, tubes and headers in each other's way, supports. */
export function buildNotices(project: Project, tables: Tables, say: Say): Notice[] {
  const geometry = panelGeometry(project.collector, tables.sizes);
  return [
    ...pitchNotices(project, say),
    ...clashNotices(project, geometry.banks, say),
    ...headerClashes(project, geometry.banks, say),
    ...supportNotices(project, geometry.banks, say),
    ...groundNotices(project, geometry.extent, say),
  ];
}

/** Least pitch of a bank's tees, as measured where they were, else by the tables; null where no such tee is made. */
export function teePitch_m(
  header: string,
  tube: string,
  measured: NonNullable<Project['stock']>['measured'] = [],
): number | null {
  const [run, unit] = [joinableOf(header), joinableOf(tube)];
  if (!run || !unit) return null;
  const tee = headerTee(run, unit, measuredParts({ stock: { pipes: [], parts: [], boards: [], measured } }));
  return tee.made ? leastPitch({ takeOff_m: tee.run_m, socket_m: tee.runSocket_m }) : null;
}

function pitchNotices(project: Project, say: Say): Notice[] {
  const out: Notice[] = [];
  project.collector.sections.forEach((section, s) => {
    section.banks.forEach((bank, b) => {
      if (bank.kind !== 'tubes' || bank.count < 2) return;
      const needed = Math.max(
        teePitch_m(bank.supply.pipe, bank.pipe, project.stock?.measured) ?? 0,
        teePitch_m(bank.gather.pipe, bank.pipe, project.stock?.measured) ?? 0,
      );
      if (!(bank.pitch_m < needed - 2e-4)) return;
      out.push({
        code: 'pitch-below-tees',
        severity: 'damage',
        path: `/collector/sections/${s}/banks/${b}/pitch_m`,
        message: `${bank.name ?? bank.id}: tees face to face need a pitch of ${say(needed, 'diameter')}; ${say(bank.pitch_m, 'diameter')} cannot be built with them.`,
        remedy: 'Widen the pitch, or nest several passes so that tubes of one lie between those of another.',
      });
    });
  });
  return out;
}

function nameOf(project: Project, bank: BankGeometry): string {
  const spec = project.collector.sections[bank.section].banks[bank.bank];
  return spec.name ?? spec.id;
}

function clashNotices(project: Project, banks: readonly BankGeometry[], say: Say): Notice[] {
  const out: Notice[] = [];
  const tubes = banks.flatMap((b) => (b.kind === 'tubes' ? b.units.map((unit) => ({ unit, bank: b })) : []));
  for (const bank of banks) {
    if (bank.kind !== 'tubes' || !bank.size) continue;
    let tightest = Infinity;
    let narrowest = Infinity;
    let who = '';
    let needed = 0;
    for (const unit of bank.units) {
      for (const side of ['left', 'right'] as const) {
        const n = unit.neighbours?.[side];
        if (!n) continue;
        const other = tubes[n.index].bank;
        const apart = (bank.size.outer_m + (other.size?.outer_m ?? 0)) / 2;
        if (n.distance_m - apart < tightest - needed || tightest === Infinity) {
          tightest = n.distance_m;
          needed = apart;
          who = nameOf(project, other);
        }
        narrowest = Math.min(narrowest, n.sideways_m - apart);
      }
    }
    if (tightest < needed - 1e-4) {
      out.push({
        code: 'tubes-overlap',
        severity: 'damage',
        path: bank.path,
        message: `Tubes of ${nameOf(project, bank)} and ${who} lie ${say(tightest, 'diameter')} apart, axis to axis, and are ${say(needed, 'diameter')} thick: they run into each other.`,
        remedy: 'Shift one pass across, widen the pitch, or nest fewer passes.',
      });
    } else if (narrowest < -1e-4) {
      out.push({
        code: 'tubes-shade-each-other',
        severity: 'heat',
        path: bank.path,
        message: `Tubes of ${nameOf(project, bank)} overlap their neighbours by ${say(-narrowest, 'diameter')} as the sun sees them.`,
        remedy: 'Widen the pitch or nest fewer passes.',
      });
    }
  }
  return out;
}

/** Headers on one side whose bodies take the same place. */
function headerClashes(project: Project, banks: readonly BankGeometry[], say: Say): Notice[] {
  const headers = banks.flatMap((bank) =>
    (['supply', 'gather'] as const).flatMap((which) => {
      const header = bank[which];
      return header ? [{ bank, which, header }] : [];
    }),
  );
  const out: Notice[] = [];
  for (let i = 0; i < headers.length; i++) {
    for (let j = i + 1; j < headers.length; j++) {
      const [a, b] = [headers[i], headers[j]];
      if (a.bank.section !== b.bank.section) continue;
      const need = (a.header.size.outer_m + b.header.size.outer_m) / 2;
      const apart = segmentDistance(a.header, b.header);
      if (!(apart < need - 1e-3)) continue;
      out.push({
        code: 'headers-overlap',
        severity: 'damage',
        path: `${b.bank.path}/${b.which}`,
        message: `The ${b.which === 'supply' ? 'supply' : 'return'} header of ${nameOf(project, b.bank)} runs into the ${a.which === 'supply' ? 'supply' : 'return'} header of ${nameOf(project, a.bank)}: axes ${say(apart, 'diameter')} apart, ${say(need, 'diameter')} needed.`,
        remedy: 'Lay one deeper, or move the pass along so that its header lies beside the other.',
      });
    }
  }
  return out;
}

/** Distance of two parallel headers' axes where they lie beside each other; Infinity where they do not. */
function segmentDistance(
  a: NonNullable<BankGeometry['supply']>,
  b: NonNullable<BankGeometry['supply']>,
): number {
  const du = a.last.u_m - a.first.u_m;
  const dv = a.last.v_m - a.first.v_m;
  const length = Math.hypot(du, dv);
  if (!(length > 0)) return Infinity;
  const along = (p: { u_m: number; v_m: number }): number =>
    ((p.u_m - a.first.u_m) * du + (p.v_m - a.first.v_m) * dv) / length;
  const from = Math.min(along(b.tees[0]), along(b.tees[b.tees.length - 1]));
  const to = Math.max(along(b.tees[0]), along(b.tees[b.tees.length - 1]));
  if (to < a.leadIn_m || from > length - a.leadIn_m) return Infinity;
  const across = ((b.first.u_m - a.first.u_m) * dv - (b.first.v_m - a.first.v_m) * du) / length;
  return Math.hypot(across, b.first.w_m - a.first.w_m);
}

function supportNotices(project: Project, banks: readonly BankGeometry[], say: Say): Notice[] {
  const { supports } = project.collector;
  const out: Notice[] = [];
  const path = '/collector/supports/spacing_m';
  if (!(supports.bearing_m < supports.spacing_m)) {
    out.push({
      code: 'supports-touch',
      severity: 'unsure',
      path,
      message: 'The supports are as wide as they are apart: the tubes lie on them everywhere.',
      remedy: 'Check width and spacing of the supports.',
    });
    return out;
  }
  const seen = new Set<string>();
  for (const bank of banks) {
    if (bank.kind !== 'tubes' || !bank.size || seen.has(bank.size.id)) continue;
    seen.add(bank.size.id);
    const pipe = findPipe(bank.size.id);
    const row = pipe && findSupportSpacing(pipe.family, pipe.nominal);
    const most = row && mostSpacing_m(row, SUPPORT_AT_C);
    if (most === undefined || supports.spacing_m <= most + 5e-4) continue;
    const { sag_m, span_m } = pipeSag_m(bank.size, supports);
    const fall = askedDrainingFall(sag_m, span_m, supports.heightError_m);
    out.push({
      code: 'supports-too-far-apart',
      severity: 'damage',
      path,
      message: `Supports ${say(supports.spacing_m, 'length')} apart; for ${bank.size.name} in the sun the published most is ${say(most, 'length')}. A full tube would sag ${say(sag_m, 'smallLength')} and need a fall of ${say(fall, 'slope')} to drain.`,
      remedy: `Put supports ${say(most, 'length')} apart or closer.`,
    });
  }
  return out;
}

function groundNotices(
  project: Project,
  extent: { u0_m: number; v0_m: number; u1_m: number; v1_m: number },
  say: Say,
): Notice[] {
  const { width_m, height_m } = project.collector.placement;
  if (width_m === undefined || height_m === undefined) return [];
  const over = Math.max(
    extent.u1_m - width_m,
    extent.v1_m - height_m,
    -extent.u0_m - 0.1,
    -extent.v0_m - 0.1,
  );
  if (!(over > 0.05)) return [];
  return [
    {
      code: 'panel-outside-ground',
      severity: 'unsure',
      path: '/collector/placement',
      message: `The panel reaches ${say(over, 'length')} beyond the ground or roof given to it.`,
      remedy: 'Shorten the tubes, take fewer, or give it more room.',
    },
  ];
}

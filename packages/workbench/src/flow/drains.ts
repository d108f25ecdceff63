import { findMaterial } from '@sunlap/data/materials';
import { type DrainReport, type DrainRun, judgeDrain } from '@sunlap/engine/building/drain';
import { clearSpan, sagOfSpan } from '@sunlap/engine/building/sag';
import { pipeMass, pipeSecondMoment, pipeWeight } from '@sunlap/engine/building/weight';
import type { Project } from '@sunlap/project/schema/project';
import type { BankGeometry, HeaderGeometry } from '../assembly/geometry';
import type { AssembledNetwork } from '../assembly/network';
import type { PipeSize } from '../assembly/sizes';
import type { FlowValues } from '../results';

/** PVC, where a material has no row: hot long-term modulus [Pa] (assumed) and density [kg/m³]. */
const HOT_MODULUS = 0.8e9;
const WALL_DENSITY = 1400;
const WATER_DENSITY = 996;

/** Sag of a filled pipe of that size over the project's supports [m]. */
export function pipeSag_m(
  size: PipeSize,
  supports: Project['collector']['supports'],
): { sag_m: number; span_m: number } {
  const material = findMaterial(size.material);
  const span_m = supportSpan_m(supports);
  const mass = pipeMass(size.outer_m, size.bore_m, material?.density_kgm3 ?? WALL_DENSITY, WATER_DENSITY);
  const moment = pipeSecondMoment(size.outer_m, size.bore_m);
  const sag_m = sagOfSpan(pipeWeight(mass), span_m, material?.hotLong_Pa ?? HOT_MODULUS, moment, 'end');
  return { sag_m, span_m };
}

/** Clear span between supports; a bearing as wide as the spacing carries everywhere and counts as 1 mm of span. */
export function supportSpan_m(supports: Project['collector']['supports']): number {
  const { spacing_m, bearing_m } = supports;
  return bearing_m < spacing_m ? Math.max(clearSpan(spacing_m, bearing_m), 1e-3) : 1e-3;
}

/** Every tube and header of the panel as a run that should empty itself, with the engine's verdict. */
export function drainReport(project: Project, assembled: AssembledNetwork): DrainReport | null {
  const ways = drainWays(project, assembled);
  const runs: DrainRun[] = [];
  assembled.geometry.banks.forEach((bank, place) => {
    if (bank.kind !== 'tubes' || !bank.size) return;
    const { sag_m, span_m } = pipeSag_m(bank.size, project.collector.supports);
    const tube = bank.units[0];
    runs.push({
      id: bank.path,
      part: 'tube',
      length_m: tube.length_m,
      bore_m: bank.size.bore_m,
      // whichever end is lower is the way out: both headers lead on
      fall: Math.abs(tube.fall_m) / tube.length_m,
      span_m,
      sag_m,
      spanKind: 'end',
      airAbove: ways.air,
      wayOpen: ways.open,
      count: bank.units.length,
    });
    for (const which of ['supply', 'gather'] as const) {
      const header = bank[which];
      if (header && bank.units.length > 1) runs.push(headerRun(project, bank, place, which, header, ways));
    }
  });
  return runs.length > 0 ? judgeDrain(runs, project.collector.supports.heightError_m) : null;
}

function headerRun(
  project: Project,
  bank: BankGeometry,
  place: number,
  which: 'supply' | 'gather',
  header: HeaderGeometry,
  ways: Ways,
): DrainRun {
  const first = header.tees[0].height_m;
  const last = header.tees[header.tees.length - 1].height_m;
  const length_m = header.spacing_m * (header.tees.length - 1);
  const low = first <= last ? 'first' : 'last';
  const leads = header.joined.includes(low) || ways.drains.has(`${place}/${which}/${low}`);
  const fall = Math.abs(first - last) / length_m;
  const { sag_m, span_m } = pipeSag_m(header.size, project.collector.supports);
  return {
    id: `${bank.path}/${which}`,
    part: 'header',
    length_m,
    bore_m: header.size.bore_m,
    fall: leads ? fall : -fall,
    span_m: Math.min(span_m, length_m),
    sag_m: sag_m * Math.min(1, length_m / span_m) ** 4,
    spanKind: 'end',
    airAbove: ways.air,
    wayOpen: ways.open,
  };
}

interface Ways {
  /** Air can get in above. */
  air: boolean;
  /** Water can leave below. */
  open: boolean;
  /** Header ends with a drain, as bank/header/end. */
  drains: Set<string>;
}

/** Ways in for air and out for water once the pump has stopped. Taps count as opened by the person. */
export function drainWays(project: Project, assembled: AssembledNetwork): Ways {
  const drains = new Set<string>();
  const { sections, taps } = project.collector;
  let air = assembled.outlets.some((o) => {
    const node = assembled.description.nodes[assembled.description.links[o.mouth].to];
    return (node.fixedHead_m ?? 0) > 0 && node.elevation_m === node.fixedHead_m;
  });
  for (const tap of taps) {
    const s = sections.findIndex((x) => x.id === tap.at.section);
    const k = s < 0 ? -1 : sections[s].banks.findIndex((b) => b.id === tap.at.bank);
    const place = sections.slice(0, Math.max(0, s)).reduce((sum, x) => sum + x.banks.length, k);
    if (tap.purpose === 'drain') drains.add(`${place}/${tap.at.header}/${tap.at.end}`);
    else air = true;
  }
  for (const tap of assembled.taps) if (tap.bank < 0 && tap.purpose !== 'drain') air = true;
  const loopDrain = assembled.taps.some((t) => t.bank < 0 && t.purpose === 'drain');
  const checked = assembled.infos.some((i) => i.role === 'checkValve' && i.path.startsWith('/loop/return'));
  const open = drains.size > 0 || loopDrain || !checked;
  return { air, open, drains };
}

/** The answer in short: whether it drains, how many litres stay, and where. */
export function drainFinding(
  project: Project,
  assembled: AssembledNetwork,
): FlowValues['collector']['drains'] {
  const report = drainReport(project, assembled);
  if (!report)
    return { ok: false, litresLeft: assembled.geometry.volume_m3 * 1000, where: ['coils and absorbers'] };
  const where = new Set<string>();
  for (const f of report.findings) {
    if (f.verdict === 'drains') continue;
    const bank = assembled.geometry.banks.find((b) => f.id.startsWith(b.path));
    const spec = bank && project.collector.sections[bank.section].banks[bank.bank];
    where.add(`${f.part === 'tube' ? 'tubes' : 'headers'} of ${spec ? (spec.name ?? spec.id) : f.id}`);
  }
  const held = assembled.geometry.banks
    .filter((b) => b.kind !== 'tubes')
    .reduce((sum, b) => sum + b.volume_m3, 0);
  if (held > 0) where.add('coils and absorbers');
  const litresLeft =
    (report.staysInTubes_m3 + report.staysInHeaders_m3 + report.staysInPipes_m3 + held) * 1000;
  return { ok: report.verdict === 'drains' && held === 0, litresLeft, where: [...where] };
}

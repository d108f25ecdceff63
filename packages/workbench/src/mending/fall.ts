import type { DrainFinding } from '@sunlap/engine/building/drain';
import type { Edit } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { BankGeometry } from '../assembly/geometry';

/** More than this is not built into a panel by lowering one side; it is another panel [m/m]; judgement. */
const MOST_BUILT_IN = 0.06;
/** Falls are built in whole millimetres to the metre [m/m]. */
const STEP = 0.001;
/** Over what is asked, so that rounding and the tube's own lean leave enough [–]. */
const SPARE = 1.02;

const inSteps = (fall: number): number => Number((Math.ceil(fall / STEP - 1e-9) * STEP).toFixed(6));

/** Present fall of a bank's tubes from the near to the far side, and of its headers from tube 1 on [m/m]. */
export function presentFall(bank: BankGeometry): { tubes: number; headers: number } {
  const [tube, last] = [bank.units[0], bank.units[bank.units.length - 1]];
  const width = bank.spacing_m * (bank.units.length - 1);
  return {
    tubes: (tube.near.height_m - tube.far.height_m) / tube.length_m,
    headers: width > 0 ? (tube.near.height_m - last.near.height_m) / width : 0,
  };
}

/**
 * What is to be built into a bank so that its tubes, or headers, fall by at least a figure, in a direction.
 *
 * @param toFar true: the far side, or the last tube, becomes the low one
 * @param fall  asked, over all [m/m], > 0
 * @returns null where that would be more than is built into a panel
 */
export function fallEdit(
  project: Project,
  bank: BankGeometry,
  of: 'tubes' | 'headers',
  toFar: boolean,
  fall: number,
): Edit | null {
  const spec = project.collector.sections[bank.section].banks[bank.bank];
  if (spec.kind !== 'tubes') return null;
  const field = of === 'tubes' ? 'fall_mPerM' : 'headerFall_mPerM';
  const built = spec[field] ?? 0;
  const lean = presentFall(bank)[of] - built;
  const wanted = (toFar ? 1 : -1) * fall * SPARE - lean;
  const value = Math.sign(wanted) * inSteps(Math.abs(wanted));
  return Math.abs(value) > MOST_BUILT_IN ? null : { path: `${bank.path}/${field}`, value };
}

/** Most that any of a bank's runs of one kind asks for [m/m]. */
export function askedOf(
  findings: readonly DrainFinding[],
  bank: BankGeometry,
  part: 'tube' | 'header',
): number {
  const own = findings.filter(
    (f) => f.part === part && (f.id === bank.path || f.id.startsWith(`${bank.path}/`)),
  );
  return Math.max(0, ...own.map((f) => f.asked));
}

/** What a section has to be raised so that no fall built into it goes under its plane. */
export function raised(project: Project, falls: readonly Edit[]): Edit[] {
  return project.collector.sections.flatMap((section, s) => {
    const lowered = section.banks.map((bank, k) => {
      if (bank.kind !== 'tubes') return 0;
      const under = (field: 'fall_mPerM' | 'headerFall_mPerM', length_m: number): number => {
        const made = falls.find((e) => e.path === `/collector/sections/${s}/banks/${k}/${field}`);
        const was = bank[field] ?? 0;
        return length_m * (Math.max(0, made === undefined ? was : (made.value as number)) - Math.max(0, was));
      };
      return under('fall_mPerM', bank.length_m) + under('headerFall_mPerM', (bank.count - 1) * bank.pitch_m);
    });
    const by = Math.max(0, ...lowered);
    if (by < 1e-6) return [];
    const value = Number(((section.raise_m ?? 0) + Math.ceil(by * 1000) / 1000).toFixed(4));
    return [{ path: `/collector/sections/${s}/raise_m`, value }];
  });
}

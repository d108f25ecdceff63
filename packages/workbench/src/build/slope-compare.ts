import { askedDrainingFall } from '@sunlap/engine/building/sag';
import type { Project } from '@sunlap/project/schema/project';
import { assembleNetwork } from '../assembly/network';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { drainReport, pipeSag_m } from '../flow/drains';
import { solveFlow } from '../flow/flow-basic';
import { flowValues } from '../flow/values';

/** One way of laying the tubes. */
export interface SlopeCase {
  readonly which: 'flat' | 'asDrawn' | 'slanted';
  /** Fall built into tubes and headers on top of the slope [m/m]. */
  readonly fall: number;
  readonly drains: boolean;
  readonly litresLeft: number;
  /** What holds water, by JSON pointer. */
  readonly holds: readonly { path: string; litres: number }[];
  /** Lowest absolute pressure anywhere while it runs [Pa]; null where the flow did not converge. */
  readonly lowest_Pa: number | null;
}

/**
 * Flat, as drawn, and slanted by what the sag asks: does it drain, what stays, how low the pressure goes. Heat hardly
 * changes with a fall of a centimetre in a metre; air leaves the slanted one by itself.
 */
export function slopeCases(project: Project): SlopeCase[] {
  const { collector } = project;
  const bank = collector.sections.flatMap((s) => s.banks).find((b) => b.kind === 'tubes');
  if (bank?.kind !== 'tubes') return [];
  const { sag_m, span_m } = pipeSag_m(STANDARD_TABLES.sizes(bank.pipe), collector.supports);
  const asked = askedDrainingFall(sag_m, span_m, collector.supports.heightError_m);
  return [
    slopeCase(project, 'flat', 0),
    slopeCase(project, 'asDrawn', bank.fall_mPerM ?? 0),
    slopeCase(project, 'slanted', asked * 1.02),
  ];
}

function slopeCase(project: Project, which: SlopeCase['which'], fall: number): SlopeCase {
  const laid: Project = which === 'asDrawn' ? project : { ...project, collector: fallen(project, fall) };
  const report = drainReport(laid, assembleNetwork(laid, STANDARD_TABLES));
  const litres =
    ((report?.staysInTubes_m3 ?? 0) + (report?.staysInHeaders_m3 ?? 0) + (report?.staysInPipes_m3 ?? 0)) *
    1000;
  return {
    which,
    fall,
    drains: report?.verdict === 'drains',
    litresLeft: litres,
    holds: (report?.findings ?? [])
      .filter((f) => f.stays_m3 > 1e-6)
      .map((f) => ({ path: f.id, litres: f.stays_m3 * 1000 })),
    lowest_Pa: lowestPressure(laid),
  };
}

function fallen(project: Project, fall: number): Project['collector'] {
  return {
    ...project.collector,
    sections: project.collector.sections.map((s) => ({
      ...s,
      banks: s.banks.map((b) =>
        b.kind === 'tubes' ? { ...b, fall_mPerM: fall, headerFall_mPerM: fall } : b,
      ),
    })),
  };
}

function lowestPressure(project: Project): number | null {
  const solved = solveFlow(project, {});
  if (!solved.solution.converged) return null;
  const { assembled, solution, water_C, speed } = solved;
  return flowValues(project, assembled, solution, water_C, speed).lowestPressure.absolute_Pa;
}

import { askedDrainingFall } from '@sunlap/engine/building/sag';
import type { Project } from '@sunlap/project/schema/project';
import { assembleNetwork } from '../assembly/network';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { drainReport, pipeSag_m } from '../flow/drains';
import { flowBasic } from '../flow/flow-basic';
import { heatBasic } from '../heat/heat-basic';
import type { MomentOptions } from '../heat/moment';
import type { AirGrade } from '../results';

/** One way of laying the tubes. */
export interface SlopeCase {
  readonly which: 'flat' | 'asDrawn' | 'slanted';
  /** Fall built into tubes and headers on top of the slope [m/m]. */
  readonly fall: number;
  readonly drains: boolean;
  readonly litresLeft: number;
  /** What holds water, by JSON pointer. */
  readonly holds: readonly { path: string; litres: number }[];
  /** Tubes whose water may not carry their air away, and those that hold it; null where the flow did not converge. */
  readonly air: { readonly doubtful: number; readonly holds: number; readonly tubes: number } | null;
  /** Into the pool at the moment studied [W]; null without a moment, or where it did not converge. */
  readonly heat_W: number | null;
  /** Lowest absolute pressure anywhere while it runs [Pa]; null where the flow did not converge. */
  readonly lowest_Pa: number | null;
}

/**
 * Flat, as drawn, and slanted by what the sag asks, side by side: does it drain and what stays, where air stays, the heat of
 * one moment, how low the pressure goes.
 *
 * @param moment for the heat; without it only the water is compared
 */
export function slopeCases(project: Project, moment: MomentOptions | null = null): SlopeCase[] {
  const { collector } = project;
  const bank = collector.sections.flatMap((s) => s.banks).find((b) => b.kind === 'tubes');
  if (bank?.kind !== 'tubes') return [];
  const { sag_m, span_m } = pipeSag_m(STANDARD_TABLES.sizes(bank.pipe), collector.supports);
  const asked = askedDrainingFall(sag_m, span_m, collector.supports.heightError_m);
  return [
    slopeCase(project, 'flat', 0, moment),
    slopeCase(project, 'asDrawn', bank.fall_mPerM ?? 0, moment),
    slopeCase(project, 'slanted', asked * 1.02, moment),
  ];
}

function slopeCase(
  project: Project,
  which: SlopeCase['which'],
  fall: number,
  moment: MomentOptions | null,
): SlopeCase {
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
    ...running(laid, moment),
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

function running(
  project: Project,
  moment: MomentOptions | null,
): Pick<SlopeCase, 'air' | 'heat_W' | 'lowest_Pa'> {
  const heat = moment ? heatBasic(project, moment, { day: false }) : null;
  const flow = heat ? heat.flow : flowBasic(project);
  if (!flow.solver.converged) return { air: null, heat_W: null, lowest_Pa: null };
  const tubes = flow.result.collector.banks.flatMap((b) => b.tubes);
  const of = (grade: AirGrade): number => tubes.filter((t) => t.air === grade).length;
  return {
    air: { doubtful: of('doubtful'), holds: of('holds'), tubes: tubes.length },
    heat_W: heat?.solver.converged ? heat.result.heat_W : null,
    lowest_Pa: flow.result.lowestPressure.absolute_Pa,
  };
}

import { type Joinable, type JointWay, joinableOf } from '@sunlap/data/joinable';
import {
  headerMarks,
  leastPitch,
  nippleLength,
  pitchError,
  twistOffset,
} from '@sunlap/engine/building/header';
import type { Project } from '@sunlap/project/schema/project';
import type { PanelGeometry } from '../assembly/geometry';
import { teeOfHeader } from './bank-parts';
import type { Gathering } from './strand';

/** One header as it is made on the bench. */
export interface HeaderPlan {
  readonly path: string;
  readonly section: string;
  readonly bank: string;
  readonly name: string;
  readonly which: 'supply' | 'gather';
  readonly pipe: string;
  /** How pipe goes into its tees. */
  readonly way: JointWay;
  readonly outside_m: number;
  readonly branchOutside_m: number;
  readonly tee: { part: string; label: string; known: string };
  readonly tees: number;
  readonly pitch_m: number;
  /** G and S along the run. */
  readonly takeOff_m: number;
  readonly socket_m: number;
  readonly branchTakeOff_m: number;
  readonly nipple_m: number;
  readonly leastNipple_m: number;
  readonly leastPitch_m: number;
  readonly possible: boolean;
  readonly leadIn_m: number;
  readonly length_m: number;
  /** From the header's first end: centre of every tee, for a strip laid along it. */
  readonly marks_m: readonly number[];
  readonly open: readonly ('first' | 'last')[];
  /** What one millimetre in each step does at the last tube, in a row and with a jig [m]. */
  readonly errorInRow_m: number;
  readonly errorWithJig_m: number;
  /** What 1/8 in of moulding over the standard in every tee does [m]. */
  readonly mouldingError_m: number;
  /** Tube's far end off for each degree of twist [m]. */
  readonly twistPerDegree_m: number;
  /** Between header centre lines, for the tubes as cut [m]. */
  readonly centres_m: number;
}

const MOULDING_OVER_M = 0.003175;

/** Every header of the design, with what the bench needs to know. */
export function headerPlans(
  g: Gathering,
  project: Pick<Project, 'collector'>,
  geometry: PanelGeometry,
): HeaderPlan[] {
  const out: HeaderPlan[] = [];
  for (const bank of geometry.banks) {
    const section = project.collector.sections[bank.section];
    const spec = section.banks[bank.bank];
    for (const which of ['supply', 'gather'] as const) {
      const header = bank[which];
      if (!header) continue;
      const pipe = joinableOf(header.size.id);
      const unit: Joinable | null = bank.size ? (joinableOf(bank.size.id) ?? null) : null;
      if (!pipe) continue;
      const tee = teeOfHeader(g, pipe, unit);
      const run = { takeOff_m: tee.run_m, socket_m: tee.runSocket_m };
      const least = leastPitch(run);
      const tees = header.tees.length;
      out.push({
        path: `${bank.path}/${which}`,
        section: section.id,
        bank: spec.id,
        name: `${spec.name ?? spec.id}, ${which === 'supply' ? 'supply header' : 'return header'}`,
        which,
        pipe: pipe.pipe.label,
        way: pipe.way,
        outside_m: pipe.pipe.od_m,
        branchOutside_m: unit?.pipe.od_m ?? pipe.pipe.od_m,
        tee: { part: tee.part, label: tee.label, known: tee.known },
        tees,
        pitch_m: header.spacing_m,
        takeOff_m: tee.run_m,
        socket_m: tee.runSocket_m,
        branchTakeOff_m: tee.branch_m,
        nipple_m: nippleLength(header.spacing_m, tee.run_m),
        leastNipple_m: 2 * tee.runSocket_m,
        leastPitch_m: least,
        possible: tees < 2 || header.spacing_m >= least - 1e-5,
        leadIn_m: header.leadIn_m,
        length_m: header.length_m,
        marks_m: headerMarks(tees, header.spacing_m, header.leadIn_m),
        open: header.joined,
        errorInRow_m: pitchError(tees, 0.001).accumulated_m,
        errorWithJig_m: pitchError(tees, 0.001).withJig_m,
        mouldingError_m: pitchError(tees, 2 * MOULDING_OVER_M).accumulated_m,
        twistPerDegree_m: spec.kind === 'tubes' ? twistOffset(spec.length_m, 1) : 0,
        centres_m: bank.headerDistance_m,
      });
    }
  }
  return out;
}

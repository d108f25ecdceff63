import type { Advice } from '@sunlap/engine/measurement/advice';
import type { Verdict } from '@sunlap/engine/measurement/agreement';
import type { Answer, Interval, Moment } from '../results';

/** Which water a flow is: what the collector gets, or all that the pump moves. */
export type FlowPlace = 'collector' | 'pump';

export interface FlowFound {
  method: 'pail' | 'meter' | 'rotameter' | 'gauges' | 'front';
  /** Where it was measured, and there. */
  at: FlowPlace;
  flowThere_m3s: number;
  /** Carried to where the rise was measured. */
  flow_m3s: number;
  expandedUncertainty_m3s: number;
  /** Part that it has in the combined flow [–]. */
  weight: number;
}

export interface HeatContribution {
  source: string;
  label: string;
  standardUncertainty_W: number;
  /** Part of the variance [–]; they add to 1. */
  share: number;
}

export interface TubeShare {
  section: string;
  bank: string;
  /** Number painted on the panel. */
  tube: number;
  by: 'touch' | 'temperature';
  /** Part of the bank's flow, with its 95 % interval, beside the network's. */
  share: number;
  lower: number;
  upper: number;
  networkShare: number;
  runs: number;
  choked: number;
  blocked: number;
  airBound: number;
  finding: 'runs' | 'choked' | 'blocked' | 'airBound';
  /** What mending it alone brings; null for a tube that runs. */
  gain_W: number | null;
}

export interface BankMending {
  section: string;
  bank: string;
  suspects: number[];
  now_W: number;
  mended_W: number;
  gain_W: number;
}

/** What a test day proves. Null is what its readings cannot tell. */
export interface TestDayValues {
  day: { id: string; name: string | null; at: string };
  state: { id: string | null; name: string | null; from: string | null; repairs: string[] };
  moment: Moment;
  flow_m3s: number | null;
  flowExpanded_m3s: number | null;
  /** The water that flow and rise are of. */
  flowAt: FlowPlace;
  flows: FlowFound[];
  /** What the network expects there. */
  expectedFlow_m3s: number | null;
  inlet_C: number | null;
  outlet_C: number | null;
  rise_K: number | null;
  riseExpanded_K: number | null;
  /** What the two thermometers differ by in one pail, taken off already. */
  thermometerOffset_K: number | null;
  heat_W: number | null;
  standardUncertainty_W: number | null;
  degreesOfFreedom: number | null;
  coverageFactor: number | null;
  /** Half-width of the 95 % interval. */
  expandedUncertainty_W: number | null;
  heatBand_W: Interval | null;
  /** The same by drawing from the distributions (JCGM 101). */
  monteCarlo: { draws: number; standardUncertainty_W: number; lower_W: number; upper_W: number } | null;
  contributions: HeatContribution[];
  expected_W: number | null;
  expectedExpanded_W: number | null;
  expectedBand_W: Interval | null;
  expectedContributions: HeatContribution[];
  normalisedError: number | null;
  verdict: Verdict | null;
  /** Measured less expected, and what of it is beyond both doubts. */
  difference_W: number | null;
  surely_W: number | null;
  advice: Advice[];
  /** Running time after which the pool's own thermometer could show the gain; null when it never can. */
  poolShowsGain_s: number | null;
  steady: { needed_s: number; waited_s: number | null; enough: boolean | null } | null;
  tubes: TubeShare[];
  mending: BankMending[];
}

export type TestDayAnswer = Answer<TestDayValues>;

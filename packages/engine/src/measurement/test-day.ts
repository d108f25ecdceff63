import type { Notice } from '../numeric/notice';
import { type Advice, nextSteps } from './advice';
import { type Agreement, agreement } from './agreement';
import type { Component } from './component';
import { combine } from './coverage';
import type { FlowOutcome } from './flow';
import { type CombinedFlow, combineFlows } from './flow-combine';
import { type HeatMeasurement, heat } from './heat';
import { rise } from './rise';
import type { RiseOutcome, RiseTest } from './rise-types';

export interface TestDay {
  /** what each way of measuring the flow gave, in the order a person took them */
  flows: readonly FlowOutcome[];
  rise: RiseTest;
  /** temperature of the measured volume [°C]; the outlet's when left out */
  volume_C?: number;
  /** true elevation of the sun at the hour [°] */
  sunElevation_deg?: number;
  /** what the model expects for that very hour, and the components of its doubt [W] */
  expected?: { heat_W: number; components: readonly Component[] };
}

export interface TestDayResult {
  flow: CombinedFlow | undefined;
  rise: RiseOutcome['rise'];
  heat: HeatMeasurement | undefined;
  expectedExpanded_W: number | undefined;
  agreement: Agreement | undefined;
  advice: Advice[];
  notices: Notice[];
}

/**
 * A whole test day: flows combined, rise, heat with its interval, verdict against the expectation, what the
 * next step buys, and everything the readings give reason to say. Never throws at readings; where they give no
 * answer the answer is undefined and a notice says why.
 *
 * @example testDay({ flows: [pailFlow(pail)], rise: temperatures }).heat?.heat_W
 */
export function testDay(day: TestDay): TestDayResult {
  const notices: Notice[] = day.flows.flatMap((f, i) =>
    f.notices.map((n) => ({ ...n, path: `/flows/${i}${n.path}` })),
  );
  const measured = day.flows.flatMap((f) => (f.flow ? [f.flow] : []));
  const flow = measured.length > 0 ? combineFlows(measured) : undefined;
  notices.push(...(flow?.notices ?? []));
  const found = rise(day.rise);
  notices.push(...found.notices.map((n) => ({ ...n, path: `/rise${n.path}` })));
  if (day.sunElevation_deg !== undefined && !(day.sunElevation_deg > 0))
    notices.push({
      code: 'day-night',
      severity: 'info',
      path: '/sunElevation_deg',
      message:
        'The sun was below the horizon: this measures how well the collector cools, not how well it heats.',
      remedy: 'Check the date, the hour and the time zone if it was daylight.',
    });
  const result = flow && found.rise ? heat(flow.flow, found.rise, sensible(day.volume_C)) : undefined;
  const expectedExpanded = day.expected && combine(day.expected.components).expandedUncertainty;
  return {
    flow,
    rise: found.rise,
    heat: result,
    expectedExpanded_W: expectedExpanded,
    agreement:
      result &&
      day.expected &&
      expectedExpanded !== undefined &&
      Math.hypot(result.expandedUncertainty_W, expectedExpanded) > 0
        ? agreement(result.heat_W, result.expandedUncertainty_W, day.expected.heat_W, expectedExpanded)
        : undefined,
    advice: result ? nextSteps(result, day.expected?.components) : [],
    notices,
  };
}

/** A temperature of the volume that cannot be one is not used. */
const sensible = (t: number | undefined): number | undefined =>
  t !== undefined && t > 0 && t < 100 ? t : undefined;

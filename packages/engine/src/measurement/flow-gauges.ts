import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { type Component, fromLimits } from './component';
import { type FlowOutcome, flowFrom } from './flow';

/** What the gauges beside the pump show, both against the atmosphere. */
export interface GaugeReading {
  pressure_Pa: number;
  /** negative when it is a vacuum */
  suction_Pa: number;
}

/** The pump's curve and its inverse, head falling with flow. */
export interface PumpCurve {
  head_m: (flow_m3s: number) => number;
  flow_m3s: (head_m: number) => number;
  /** end of the curve [m³/s] */
  maxFlow_m3s: number;
}

export interface GaugeTest {
  collectorIn: GaugeReading;
  collectorOut?: GaugeReading;
  /** class of each gauge, ± [Pa] */
  pressureLimit_Pa: number;
  suctionLimit_Pa: number;
  /** distance between marks [Pa] */
  pressureDivision_Pa?: number;
  suctionDivision_Pa?: number;
  /** pressure gauge above suction gauge [m] */
  heightDifference_m?: number;
  /** bores where the gauges sit, when they differ [m] */
  pressureBore_m?: number;
  suctionBore_m?: number;
  pump: PumpCurve;
  /** doubt of the curve, ± share of head [–]; ±5 % is common practice for a printed one */
  curveLimitShare: number;
  density_kgm3: number;
}

export interface GaugeOutcome extends FlowOutcome {
  /** total head of the pump with the collector in [m] */
  head_m: number | undefined;
  /** flow with the collector out [m³/s] */
  flowOut_m3s: number | undefined;
  /** what the pump's head rises by when the collector is put in [m] */
  headRise_m: number | undefined;
  /** its standard uncertainty: the gauges' constant errors have cancelled [m] */
  headRiseUncertainty_m: number | undefined;
}

/**
 * Flow from pressure and vacuum gauges through the pump curve:
 *
 *   H = (p_d − p_s)/(ρg) + Δz + (v_d² − v_s²)/2g      V̇ = curve⁻¹(H)
 *
 * Where the curve is flat a small doubt of head is a large one of flow; the effect of each doubt is therefore
 * taken over its whole width, V̇(H − u) − V̇(H + u) over 2, and kept within the curve. With the collector out
 * as well, the rise in head is free of the gauges' constant errors, and the two flows show what the collector
 * costs the filter.
 *
 * @param test a person's readings, and the curve from the pump shelf
 * @throws {DomainError} density not above 0, or a limit negative or not finite
 * @example gaugeFlow({ collectorIn: { pressure_Pa: 9e4, suction_Pa: -2e4 }, … }).flow?.flow_m3s
 */
export function gaugeFlow(test: GaugeTest): GaugeOutcome {
  if (!(test.density_kgm3 > 0)) throw new DomainError('density', test.density_kgm3, '(0, ∞) kg/m³');
  const notices: Notice[] = [];
  const inside = through(test, test.collectorIn, '/collectorIn', notices);
  const outside = test.collectorOut && through(test, test.collectorOut, '/collectorOut', notices);
  const headRise = inside && outside ? inside.head - outside.head : undefined;
  if (inside && outside && !(inside.head >= outside.head))
    notices.push({
      code: 'gauges-swapped',
      severity: 'unsure',
      path: '/collectorOut',
      message: 'The pump works against less head with the collector in than out, which cannot be.',
      remedy: 'See whether the two sets of readings were swapped, or the filter was cleaned between them.',
    });
  const base = {
    notices,
    head_m: inside?.head,
    flowOut_m3s: outside?.flow,
    headRise_m: headRise,
    headRiseUncertainty_m: headRise === undefined ? undefined : riseUncertainty(test),
  };
  if (!inside || !(inside.flow > 0)) return { ...base, flow: undefined };
  const components = headLimits(test, inside.head).map((limit) => carried(limit, inside.head, test.pump));
  const flow = flowFrom('gauges', inside.flow, components);
  if (flow.standardUncertainty_m3s > 0.2 * flow.flow_m3s)
    notices.push({
      code: 'gauges-flat-curve',
      severity: 'unsure',
      path: '/collectorIn',
      message: 'Here the pump curve is so flat that the gauges hardly tell the flow.',
      remedy: 'Measure with pail or meter; keep the gauges for watching changes.',
    });
  return { ...base, flow };
}

interface Point {
  head: number;
  flow: number;
}

function through(test: GaugeTest, reading: GaugeReading, path: string, notices: Notice[]): Point | undefined {
  const ρg = test.density_kgm3 * GRAVITY_MS2;
  const still = (reading.pressure_Pa - reading.suction_Pa) / ρg + (test.heightDifference_m ?? 0);
  let flow = 0;
  let head = still;
  for (let i = 0; i < 8; i++) {
    head = still + velocityHead(flow, test.pressureBore_m) - velocityHead(flow, test.suctionBore_m);
    flow = flowAt(test.pump, head);
  }
  if (!Number.isFinite(still) || head <= 0) {
    notices.push({
      code: 'gauges-no-head',
      severity: 'unsure',
      path,
      message: 'The readings give the pump no head: pressure must stand above suction.',
      remedy: 'A vacuum is entered as a negative pressure. Is the pump running?',
    });
    return undefined;
  }
  if (head >= test.pump.head_m(0)) {
    notices.push({
      code: 'gauges-above-curve',
      severity: 'unsure',
      path,
      message: `${head.toFixed(1)} m is more than this pump can make (${test.pump.head_m(0).toFixed(1)} m).`,
      remedy: 'Check the gauges’ zero with the pump off, and which pump and speed the curve belongs to.',
    });
    return undefined;
  }
  if (head <= test.pump.head_m(test.pump.maxFlow_m3s))
    notices.push({
      code: 'gauges-end-of-curve',
      severity: 'unsure',
      path,
      message: 'The head lies beyond the end of the pump curve; its last flow is shown.',
    });
  return { head, flow };
}

const velocityHead = (flow: number, bore: number | undefined): number =>
  bore === undefined ? 0 : (flow / ((Math.PI / 4) * bore ** 2)) ** 2 / (2 * GRAVITY_MS2);

function flowAt(pump: PumpCurve, head: number): number {
  if (head >= pump.head_m(0)) return 0;
  if (head <= pump.head_m(pump.maxFlow_m3s)) return pump.maxFlow_m3s;
  return pump.flow_m3s(head);
}

function headLimits(test: GaugeTest, head: number): Component[] {
  const ρg = test.density_kgm3 * GRAVITY_MS2;
  return [
    fromLimits('gauges.pressureClass', 'class of the pressure gauge', 1 / ρg, test.pressureLimit_Pa),
    fromLimits('gauges.suctionClass', 'class of the vacuum gauge', -1 / ρg, test.suctionLimit_Pa),
    fromLimits(
      'gauges.pressureReading',
      'reading the pressure gauge',
      0.5 / ρg,
      test.pressureDivision_Pa ?? 0,
    ),
    fromLimits('gauges.suctionReading', 'reading the vacuum gauge', -0.5 / ρg, test.suctionDivision_Pa ?? 0),
    fromLimits('gauges.curve', 'the pump curve', -head, test.curveLimitShare),
  ];
}

/** A doubt of head becomes one of flow over its whole width. */
function carried(limit: Component, head: number, pump: PumpCurve): Component {
  const effect = (flowAt(pump, head + limit.effect) - flowAt(pump, head - limit.effect)) / 2;
  return { ...limit, effect };
}

/** Only reading the marks twice remains in a difference from the same gauges. */
function riseUncertainty(test: GaugeTest): number {
  const ρg = test.density_kgm3 * GRAVITY_MS2;
  const each =
    Math.hypot(test.pressureDivision_Pa ?? 0, test.suctionDivision_Pa ?? 0) / (2 * Math.sqrt(3)) / ρg;
  return Math.SQRT2 * each;
}

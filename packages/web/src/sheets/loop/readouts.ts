import { PRESSURE_VELOCITY_MS, SUCTION_VELOCITY_MS } from '@sunlap/engine/hydraulics/limits';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Study } from '../../compute/usecases';
import { against, bandOf, quantity, type Readout } from '../../parts/readout';
import { dashed, standsStill } from '../../parts/runs';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';

/** What still holds where the pump cannot draw what is asked of it. */
const STANDING = new Set(['lowest']);
/** What the pump does where none of its water goes to the collector. */
const MOVING = new Set(['flow', 'head', 'pumpHead', 'power', 'turnover', 'suction', 'pressure', 'lowest']);

export function loopReadouts(now: Study, held: Study | null, u: UnitSystem): Readout[] {
  const r = now.flow.result;
  const h = held?.flow.result;
  const { band } = now.flow;
  const out: Readout[] = [
    {
      id: 'heat',
      label: t.read.heat,
      value: now.heat?.result.heat_W ?? null,
      write: quantity('heatRate', u),
      band: bandOf(now.heat?.band.heat_W, 'heatRate', u),
      difference: against(now.heat?.result.heat_W, held?.heat?.result.heat_W, 'heatRate', u),
      first: true,
    },
    {
      id: 'flow',
      label: t.read.pumpFlow,
      value: r.flow_m3s,
      write: quantity('flow', u),
      band: bandOf(band.flow_m3s, 'flow', u),
      difference: against(r.flow_m3s, h?.flow_m3s, 'flow', u),
    },
    {
      id: 'head',
      label: t.read.collectorFlow,
      value: r.collectorFlow_m3s,
      write: quantity('flow', u),
      band: bandOf(band.collectorFlow_m3s, 'flow', u),
      difference: against(r.collectorFlow_m3s, h?.collectorFlow_m3s, 'flow', u),
    },
    {
      id: 'pumpHead',
      label: t.read.pumpHead,
      value: r.pump.head_m,
      write: quantity('head', u),
      difference: against(r.pump.head_m, h?.pump.head_m, 'head', u),
    },
    {
      id: 'power',
      label: t.read.power,
      value: r.pump.power_W,
      write: quantity('power', u),
      difference: against(r.pump.power_W, h?.pump.power_W, 'power', u),
    },
    {
      id: 'turnover',
      label: t.read.turnover,
      value: r.turnover_h === null ? null : r.turnover_h * 3600,
      write: quantity('time', u),
      difference: against(
        r.turnover_h === null ? null : r.turnover_h * 3600,
        h === undefined || h.turnover_h === null ? null : h.turnover_h * 3600,
        'time',
        u,
      ),
    },
    {
      id: 'suction',
      label: t.read.suction,
      value: r.loop.suctionVelocity_ms,
      write: quantity('speed', u),
      sub: t.read.limit(say(SUCTION_VELOCITY_MS, 'speed', u)),
      difference: against(r.loop.suctionVelocity_ms, h?.loop.suctionVelocity_ms, 'speed', u),
    },
    {
      id: 'pressure',
      label: t.read.pressure,
      value: r.loop.pressureVelocity_ms,
      write: quantity('speed', u),
      sub: t.read.limit(say(PRESSURE_VELOCITY_MS, 'speed', u)),
      difference: against(r.loop.pressureVelocity_ms, h?.loop.pressureVelocity_ms, 'speed', u),
    },
    {
      id: 'lowest',
      label: t.read.lowest,
      value: r.lowestPressure.absolute_Pa,
      write: quantity('pressure', u),
      sub: r.lowestPressure.at,
      difference: against(r.lowestPressure.absolute_Pa, h?.lowestPressure.absolute_Pa, 'pressure', u),
    },
  ];
  const why = standsStill(now);
  if (why === null) return out;
  return dashed(out, why, r.attainable ? MOVING : STANDING);
}

export function loopInputs(now: Study, u: UnitSystem): Record<string, [string, string][]> {
  const r = now.flow.result;
  const pump: [string, string][] = [
    [t.read.pumpFlow, say(r.flow_m3s, 'flow', u)],
    [t.read.pumpHead, say(r.pump.head_m, 'head', u)],
    [t.fields.speed, say(r.pump.speed, 'ratio', u)],
  ];
  return {
    heat: [[t.read.collectorFlow, say(r.collectorFlow_m3s, 'flow', u)]],
    flow: pump,
    head: r.collector.sections.map((s): [string, string] => [s.name, say(s.flow_m3s, 'flow', u)]),
    pumpHead: pump,
    power: pump,
    turnover: [[t.read.pumpFlow, say(r.flow_m3s, 'flow', u)]],
    suction: r.suctions.map((s): [string, string] => [s.name, say(s.flow_m3s, 'flow', u)]),
    pressure: r.outlets.map((s): [string, string] => [s.name, say(s.flow_m3s, 'flow', u)]),
    lowest: [
      [t.why.at, r.lowestPressure.at],
      [t.read.npsh, say(r.pump.npshAvailable_m, 'head', u)],
    ],
  };
}

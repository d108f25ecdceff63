import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Study } from '../../compute/usecases';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { inputsText } from '../../text/inputs';

/** Why each of them is what it is: what it was made from. */
export function collectorInputs(now: Study, u: UnitSystem): Record<string, [string, string][]> {
  const flow = now.flow.result;
  const heat = now.heat?.result;
  const bank = flow.collector.banks[0];
  const q = (v: number, kind: Parameters<typeof say>[1]) => say(v, kind, u);
  const common: [string, string][] =
    heat === undefined
      ? []
      : [
          [inputsText.sunOnPlane, q(heat.planeIrradiance_Wm2, 'irradiance')],
          [inputsText.sunHeight, q(heat.moment.sun.elevation_deg, 'angle')],
          [t.fields.air, q(heat.moment.air_C, 'temperature')],
          [t.fields.wind, q(heat.moment.wind_ms, 'windSpeed')],
          [inputsText.waterIn, q(heat.inlet_C, 'temperature')],
          [inputsText.waterOut, q(heat.outlet_C, 'temperature')],
          [inputsText.area, q(heat.area.absorber_m2, 'area')],
          [inputsText.kept, heat.efficiency === null ? '–' : q(heat.efficiency, 'ratio')],
        ];
  const resist: [string, string][] =
    heat === undefined
      ? []
      : [
          [
            inputsText.resistances,
            [heat.resistances.air_mKW, heat.resistances.wall_mKW, heat.resistances.water_mKW]
              .map((v) => v.toFixed(3))
              .join(' · '),
          ],
          [inputsText.dry, q(heat.dryStanding_C, 'temperature')],
        ];
  return {
    heat: [...common, [t.read.flow, q(flow.collectorFlow_m3s, 'flow')], ...resist],
    rise: [...common.slice(4, 6), [t.read.flow, q(flow.collectorFlow_m3s, 'flow')]],
    flow: [
      [t.read.pumpFlow, q(flow.flow_m3s, 'flow')],
      [t.read.pumpHead, q(flow.pump.head_m, 'head')],
      [
        inputsText.solver,
        inputsText.solverText(now.flow.solver.iterations, now.flow.solver.residual.toExponential(1)),
      ],
    ],
    head: [
      [t.read.flow, q(flow.collectorFlow_m3s, 'flow')],
      ...flow.collector.sections.map((s): [string, string] => [s.name, q(s.headLoss_m, 'head')]),
    ],
    least:
      bank === undefined
        ? []
        : flow.collector.banks.map((b): [string, string] => [
            b.name,
            `${Math.round(b.leastOverMean * 100)} %`,
          ]),
    most:
      bank === undefined
        ? []
        : flow.collector.banks.map((b): [string, string] => [
            b.name,
            `${Math.round(b.mostOverMean * 100)} %`,
          ]),
    header: flow.collector.banks
      .filter((b) => b.headerNumber !== null)
      .map((b): [string, string] => [inputsText.headerNumber(b.name), b.headerNumber!.toFixed(2)]),
    air: flow.collector.banks.map((b): [string, string] => [
      b.name,
      inputsText.airText(
        b.tubes.filter((x) => x.air === 'clears').length,
        b.tubes.filter((x) => x.air === 'doubtful').length,
        b.tubes.filter((x) => x.air === 'holds').length,
      ),
    ]),
    drains: [[inputsText.stays, q(flow.collector.drains.litresLeft / 1000, 'volume')]],
  };
}

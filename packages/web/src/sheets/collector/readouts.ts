import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BankFlow } from '@sunlap/workbench/results';
import type { Study } from '../../compute/usecases';
import { against, bandOf, quantity, type Readout } from '../../parts/readout';
import { say, show } from '../../shape/quantity';
import { t } from '../../text/catalogue';

const worst = { bigEnough: 0, marginal: 1, tooSmall: 2 } as const;

const banksOf = (s: Study, focus: string | null): BankFlow[] =>
  s.flow.result.collector.banks.filter((b) => focus === null || b.section === focus);

function summary(s: Study, focus: string | null) {
  const banks = banksOf(s, focus);
  const least = banks.reduce<BankFlow | null>(
    (a, b) => (a === null || b.leastOverMean < a.leastOverMean ? b : a),
    null,
  );
  const most = banks.reduce<BankFlow | null>(
    (a, b) => (a === null || b.mostOverMean > a.mostOverMean ? b : a),
    null,
  );
  const tubes = banks.flatMap((b) => b.tubes);
  const verdicts = banks.map((b) => b.headerVerdict).filter((v) => v !== null);
  return {
    least,
    most,
    holds: tubes.filter((x) => x.air === 'holds' || x.state === 'airBound').length,
    doubtful: tubes.filter((x) => x.air === 'doubtful').length,
    verdict: verdicts.sort((a, b) => worst[b] - worst[a])[0] ?? null,
    number: Math.max(...banks.map((b) => b.headerNumber ?? 0), 0),
  };
}

const percent = (v: number) => ({ number: String(Math.round(v * 100)), unit: t.read.ofMean });
const whole = (v: number) => ({ number: String(Math.round(v)), unit: t.read.tubesUnit });

/** The answers of the Collector sheet's title block. */
export function collectorReadouts(
  now: Study,
  held: Study | null,
  focus: string | null,
  u: UnitSystem,
): Readout[] {
  const flow = now.flow.result;
  const heat = now.heat?.result ?? null;
  const heatBand = now.heat?.band ?? {};
  const s = summary(now, focus);
  const h = held === null ? null : summary(held, focus);
  const points = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined
      ? undefined
      : Math.round((a - b) * 100) === 0
        ? t.read.sameAsReference
        : `${a > b ? '▲' : '▼'} ${Math.abs(Math.round((a - b) * 100))}`;
  const out: Readout[] = [
    {
      id: 'heat',
      label: t.read.heat,
      value: heat?.heat_W ?? null,
      write: quantity('heatRate', u),
      band: bandOf(heatBand.heat_W, 'heatRate', u),
      difference: against(heat?.heat_W, held?.heat?.result.heat_W, 'heatRate', u),
      sub: heat !== null && heat.moment.sun.elevation_deg <= 0 ? t.read.night : undefined,
      first: true,
    },
    {
      id: 'rise',
      label: t.read.rise,
      value: heat?.rise_K ?? null,
      write: quantity('temperatureDifference', u),
      band: bandOf(heatBand.rise_K, 'temperatureDifference', u),
      difference: against(heat?.rise_K, held?.heat?.result.rise_K, 'temperatureDifference', u),
    },
    {
      id: 'flow',
      label: t.read.flow,
      value: flow.collectorFlow_m3s,
      write: quantity('flow', u),
      sub: t.read.ofPump(say(flow.flow_m3s, 'flow', u)),
      difference: against(flow.collectorFlow_m3s, held?.flow.result.collectorFlow_m3s, 'flow', u),
    },
    {
      id: 'head',
      label: t.read.head,
      value: flow.collector.headLoss_m,
      write: quantity('head', u),
      band: bandOf(now.flow.band['collector.headLoss_m'], 'head', u),
      difference: against(flow.collector.headLoss_m, held?.flow.result.collector.headLoss_m, 'head', u),
    },
  ];
  if (s.least !== null && s.most !== null)
    out.push(
      {
        id: 'least',
        label: t.read.least,
        value: s.least.leastOverMean,
        write: percent,
        band: { low: percent(s.least.leastBand.low).number, high: percent(s.least.leastBand.high).number },
        difference: points(s.least.leastOverMean, h?.least?.leastOverMean),
      },
      {
        id: 'most',
        label: t.read.most,
        value: s.most.mostOverMean,
        write: percent,
        band: { low: percent(s.most.mostBand.low).number, high: percent(s.most.mostBand.high).number },
        difference: points(s.most.mostOverMean, h?.most?.mostOverMean),
      },
    );
  if (s.verdict !== null)
    out.push({
      id: 'header',
      label: t.read.header,
      value: null,
      write: whole,
      word: t.read[s.verdict],
      difference:
        h?.verdict !== undefined && h.verdict !== null && h.verdict !== s.verdict
          ? t.read[h.verdict]
          : undefined,
    });
  const dry = flow.collector.tubesWithoutWater;
  out.push({
    id: 'air',
    label: dry > 0 ? t.read.noWater : t.read.airTubes,
    value: dry > 0 ? dry : s.holds,
    write: whole,
    word: dry === 0 && s.holds === 0 ? t.read.none : undefined,
    sub: s.doubtful > 0 ? `${s.doubtful} ${t.tube.air.doubtful.replace('air ', '')}` : undefined,
    difference:
      h === null
        ? undefined
        : pointsOf(
            (dry > 0 ? dry : s.holds) - (dry > 0 ? held!.flow.result.collector.tubesWithoutWater : h.holds),
          ),
  });
  const { drains } = flow.collector;
  out.push({
    id: 'drains',
    label: t.read.drains,
    value: null,
    write: whole,
    word: drains.ok ? t.read.yes : t.read.no,
    sub: drains.ok ? undefined : t.read.stays(show(drains.litresLeft / 1000, 'volume', u).text),
  });
  return out;
}

const pointsOf = (d: number) => (d === 0 ? t.read.sameAsReference : `${d > 0 ? '▲' : '▼'} ${Math.abs(d)}`);

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
          [t.inputs.sunOnPlane, q(heat.planeIrradiance_Wm2, 'irradiance')],
          [t.inputs.sunHeight, q(heat.moment.sun.elevation_deg, 'angle')],
          [t.fields.air, q(heat.moment.air_C, 'temperature')],
          [t.fields.wind, q(heat.moment.wind_ms, 'windSpeed')],
          [t.inputs.waterIn, q(heat.inlet_C, 'temperature')],
          [t.inputs.waterOut, q(heat.outlet_C, 'temperature')],
          [t.inputs.area, q(heat.area.absorber_m2, 'area')],
          [t.inputs.kept, heat.efficiency === null ? '–' : q(heat.efficiency, 'ratio')],
        ];
  const resist: [string, string][] =
    heat === undefined
      ? []
      : [
          [
            t.inputs.resistances,
            [heat.resistances.air_mKW, heat.resistances.wall_mKW, heat.resistances.water_mKW]
              .map((v) => v.toFixed(3))
              .join(' · '),
          ],
          [t.inputs.dry, q(heat.dryStanding_C, 'temperature')],
        ];
  return {
    heat: [...common, [t.read.flow, q(flow.collectorFlow_m3s, 'flow')], ...resist],
    rise: [...common.slice(4, 6), [t.read.flow, q(flow.collectorFlow_m3s, 'flow')]],
    flow: [
      [t.read.pumpFlow, q(flow.flow_m3s, 'flow')],
      [t.read.pumpHead, q(flow.pump.head_m, 'head')],
      [
        t.inputs.solver,
        t.inputs.solverText(now.flow.solver.iterations, now.flow.solver.residual.toExponential(1)),
      ],
    ],
    head: [
      [t.read.flow, q(flow.collectorFlow_m3s, 'flow')],
      ...flow.collector.sections.map((s): [string, string] => [s.name, q(s.headLoss_m, 'head')]),
    ],
    least:
      bank === undefined
        ? []
        : flow.collector.banks.map((b): [string, string] => [b.name, `${percent(b.leastOverMean).number} %`]),
    most:
      bank === undefined
        ? []
        : flow.collector.banks.map((b): [string, string] => [b.name, `${percent(b.mostOverMean).number} %`]),
    header: flow.collector.banks
      .filter((b) => b.headerNumber !== null)
      .map((b): [string, string] => [t.inputs.headerNumber(b.name), b.headerNumber!.toFixed(2)]),
    air: flow.collector.banks.map((b): [string, string] => [
      b.name,
      t.inputs.airText(
        b.tubes.filter((x) => x.air === 'clears').length,
        b.tubes.filter((x) => x.air === 'doubtful').length,
        b.tubes.filter((x) => x.air === 'holds').length,
      ),
    ]),
    drains: [[t.inputs.stays, q(flow.collector.drains.litresLeft / 1000, 'volume')]],
  };
}

import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BankFlow } from '@sunlap/workbench/results';
import type { Study } from '../../compute/usecases';
import { against, bandOf, quantity, type Readout } from '../../parts/readout';
import { dashed, standsStill } from '../../parts/runs';
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
    blocked: tubes.filter((x) => x.state === 'blocked').length,
    verdict: verdicts.sort((a, b) => worst[b] - worst[a])[0] ?? null,
    number: Math.max(...banks.map((b) => b.headerNumber ?? 0), 0),
  };
}

const percent = (v: number) => ({ number: String(Math.round(v * 100)), unit: t.read.ofMean });
const whole = (v: number) => ({ number: String(Math.round(v)), unit: t.read.tubesUnit(Math.round(v)) });

/** What stands of the panel even when no water runs. */
const STANDING = new Set(['drains']);
/** Without any flow there are still tubes that are known to carry none, and none that the pump would not reach. */
const STILL = new Set(['flow', 'air', 'drains']);

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
    sub:
      dry > 0 && s.blocked > 0
        ? t.read.shut(s.blocked)
        : s.doubtful > 0
          ? dry > 0
            ? `${s.doubtful}: ${t.tube.air.doubtful}`
            : `${s.doubtful} ${t.tube.air.doubtful.replace('air ', '')}`
          : undefined,
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
  const why = standsStill(now);
  if (why === null) return out;
  return dashed(out, why, flow.attainable ? STILL : STANDING);
}

const pointsOf = (d: number) => (d === 0 ? t.read.sameAsReference : `${d > 0 ? '▲' : '▼'} ${Math.abs(d)}`);

/** Deterministic stand-in for the use-cases while drawing the sheets. Shapes are right, numbers are invented. */
import type { BankFlow, FlowAnswer, HeatAnswer, LoopPiece, TubeFlow } from '@sunlap/workbench/results';
import type { Bank } from '@sunlap/project/schema/collector';
import type { Path } from '@sunlap/project/schema/path';
import type { Doc } from '../../src/store/doc';

export interface Study {
  flow: FlowAnswer;
  heat: HeatAnswer | null;
}

function bankFlow(section: string, bank: Bank, total: number): BankFlow {
  const n = bank.count;
  const weights = Array.from({ length: n }, (_, i) =>
    bank.blocked?.includes(i + 1) || bank.airBound?.includes(i + 1) ? 0 : 1 + 0.3 * ((1 - i / n) ** 2 - 0.33),
  );
  const open = weights.filter((w) => w > 0).length || 1;
  const sum = weights.reduce((a, b) => a + b, 0) || 1;
  const tubes: TubeFlow[] = weights.map((w, i) => ({
    number: i + 1,
    position: i + 1,
    flow_m3s: (total * w) / sum,
    velocity_ms: (total * w) / sum / 3.6e-4,
    reynolds: 4000 * w,
    state: bank.blocked?.includes(i + 1) ? 'blocked' : bank.airBound?.includes(i + 1) ? 'airBound' : 'full',
    air: i > n - 3 ? 'holds' : 'clears',
    share: (w / sum) * open,
    shareBand: { low: 0.9, high: 1.1 },
  }));
  const flows = tubes.map((t) => t.flow_m3s);
  let left = total;
  const supply = flows.map((q) => (left -= q) + q);
  let got = 0;
  const gather = flows.map((q) => (got += q));
  const live = tubes.filter((t) => t.share > 0).map((t) => t.share);
  return {
    section,
    id: bank.id,
    name: bank.id,
    kind: bank.kind,
    headerNumber: 0.31,
    headerVerdict: 'marginal',
    leastOverMean: Math.min(...live),
    mostOverMean: Math.max(...live),
    leastBand: { low: 0.8, high: 0.9 },
    mostBand: { low: 1.1, high: 1.3 },
    flow_m3s: total,
    headLoss_m: 0.4,
    tubes,
    supplyHeader_m3s: supply,
    gatherHeader_m3s: gather,
  };
}

export function study(doc: Doc): Study {
  const { project, moment } = doc;
  const { collector, loop } = project;
  const to = loop.bypass.kind === 'threeWay' ? loop.bypass.toCollector : loop.bypass.kind === 'none' ? 1 : loop.bypass.toCollector.opening;
  const flow = 0.0024 * loop.pump.speed;
  const through = flow * to;
  const per = through / collector.sections.length;
  const banks = collector.sections.flatMap((s) => s.banks.map((b) => bankFlow(s.id, b, per)));
  const length = collector.sections.reduce((a, s) => a + s.banks.reduce((x, b) => x + b.count * b.length_m, 0), 0);
  const heat_W = length * 26 * (1 - Math.exp(-through / 0.0006));
  const rise = heat_W / (through * 4.17e6 || 1);
  const pieces: LoopPiece[] = [];
  let at = 0;
  let z = -0.1;
  let h = 0;
  const put = (kind: LoopPiece['kind'], id: string, name: string, path: string, len: number, end: number, dh: number, way: LoopPiece['way'] = 'common') => {
    pieces.push({
      id, name, path, kind, way, flow_m3s: way === 'through' ? through : flow, velocity_ms: 1.6, start_m: at, end_m: at + len,
      startHeight_m: z, endHeight_m: end, startHead_m: h, endHead_m: h - dh, startGauge_Pa: (h - z) * 9780, endGauge_Pa: (h - dh - end) * 9780, headLoss_m: dh,
    });
    at += len; z = end; h -= dh;
  };
  const path = (p: Path, base: string, way: LoopPiece['way'] = 'common') => {
    p.forEach((e, i) => {
      if (e.kind === 'pipe') put('pipe', e.id, e.name ?? e.id, `${base}/${i}`, e.length_m, e.endHeight_m ?? z, e.length_m * 0.06, way);
      else if (e.kind === 'valve') put('valve', e.id, e.name ?? e.id, `${base}/${i}`, 0, z, 0.2, way);
      else if (e.kind === 'checkValve') put('checkValve', e.id, e.name ?? e.id, `${base}/${i}`, 0, z, 0.3, way);
      else if (e.kind === 'device') put('device', e.id, e.name, `${base}/${i}`, 0, z, 0.25, way);
    });
  };
  const s = loop.suctions[0];
  put('suction', s.id, s.name ?? s.id, '/loop/suctions/0', 0, -s.depth_m, 0.05);
  path(s.path, '/loop/suctions/0/path');
  path(loop.toPump, '/loop/toPump');
  put('pump', 'pump', loop.pump.name ?? 'Pump', '/loop/pump', 0, loop.pump.height_m, -15 * loop.pump.speed ** 2);
  if (loop.filter) put('filter', 'filter', 'Filter', '/loop/filter', 0, loop.filter.height_m ?? z, 1.8 * loop.filter.dirt);
  path(loop.toBypass, '/loop/toBypass');
  put('bypass', 'bypass', 'Valve', '/loop/bypass', 0, z, 0.9);
  path(loop.feed, '/loop/feed', 'through');
  const c = collector.placement;
  put('collector', 'collector', 'Collector', '/collector', 6, c.lowestHeight_m + 2 * Math.sin((c.tilt_deg * Math.PI) / 180), 1.5, 'through');
  path(loop.return, '/loop/return', 'through');
  path(loop.toPool, '/loop/toPool');
  const o = loop.outlets[0];
  put('outlet', o.id, o.name ?? o.id, '/loop/outlets/0', 0, o.height_m, h);
  const curve = (k: number, h0 = 0) => Array.from({ length: 30 }, (_, i) => ({ flow_m3s: i * 0.0002, head_m: h0 + k * (i * 0.0002) ** 2 }));
  const flowAnswer: FlowAnswer = {
    result: {
      flow_m3s: flow,
      collectorFlow_m3s: through,
      pump: { head_m: 14, power_W: 900 * loop.pump.speed ** 3, speed: loop.pump.speed, npshAvailable_m: 8, suction_Pa: -12000 },
      collector: {
        headLoss_m: 1.5, volume_m3: 0.21,
        sections: collector.sections.map((x) => ({ id: x.id, name: x.name ?? x.id, flow_m3s: per, headLoss_m: 1.4, share: 1 / collector.sections.length })),
        banks, tubesWithoutWater: 0, drains: { ok: false, litresLeft: 3.2, where: ['/collector/sections/0/banks/0'] },
      },
      suctions: loop.suctions.map((x) => ({ id: x.id, name: x.name ?? x.id, flow_m3s: flow / 2, share: 0.5, coverRating_m3s: x.coverRating_m3s ?? null })),
      outlets: loop.outlets.map((x) => ({ id: x.id, name: x.name ?? x.id, flow_m3s: flow / 2 })),
      start: { leastFlowAllTubes_m3s: 0.001, leastStartSpeed: 0.4, leastRunSpeed: 0.3, sections: [] },
      vacuumBreaker: null, lowestPressure: { absolute_Pa: 79000, at: 'suction-main' }, turnover_h: 8.4,
      loop: { pieces, pumpCurve: curve(-3.6e5, 19.5 * loop.pump.speed ** 2), curveThrough: curve(3.2e6), curveNow: curve(2.4e6), curvePast: curve(1.1e6), suctionVelocity_ms: 1.2, pressureVelocity_ms: 1.9 },
      firstFill: { volume_m3: 0.3, minutes: 3, poolFall_m: 0.007 },
    },
    solver: { converged: true, iterations: 9, residual: 1e-12 },
    band: { 'collector.headLoss_m': { low: 1.3, high: 1.9 } },
    notices: [
      { code: 'no-drain', severity: 'damage', path: '/collector/sections/0/banks/0', message: 'Pass A1 does not drain: 3.2 L stay in the tubes.', remedy: 'Let the tubes fall 1/8 in per foot towards the inlet.' },
      { code: 'uneven', severity: 'heat', path: '/collector/sections/1/banks/0', message: 'The far tubes of B1 get 17 % less water; costs about 1.1 % of the heat.', remedy: 'Feed the header at both ends.' },
      { code: 'cover-rating', severity: 'safety', path: '/loop/suctions/1', message: 'More water than the drain cover is rated for would pass if the skimmer were shut.', remedy: 'Close the main drain a little further.' },
    ],
  };
  const t0 = moment.water_C;
  const heatAnswer: HeatAnswer = {
    result: {
      moment: { ...moment, directNormal_Wm2: 850, diffuse_Wm2: 90, global_Wm2: 780, sun: { elevation_deg: 57, azimuth_deg: 138 }, assumed: [] },
      heat_W, collectorHeat_W: heat_W, pipesHeat_W: 0, inlet_C: t0, outlet_C: t0 + rise, rise_K: rise, efficiency: 0.71,
      area: { absorber_m2: 12, gross_m2: 38 }, planeIrradiance_Wm2: 905, dryStanding_C: 58,
      firstSlug: { temperature_C: 54, volume_m3: 0.2, seconds: 80, timeConstant_s: 900 },
      banks: collector.sections.flatMap((sec) =>
        sec.banks.map((b, k) => {
          const n = sec.banks.length;
          const a = t0 + (rise * k) / n;
          return {
            section: sec.id, id: b.id, heat_W: heat_W / 6, inlet_C: a, outlet_C: a + rise / n,
            tubes: (banks.find((x) => x.section === sec.id && x.id === b.id)?.tubes ?? []).map((t) => {
              const out = a + rise / n / (t.share || 1);
              return { number: t.number, position: t.position, inlet_C: a, outlet_C: out, heat_W: 300, profile_C: [0, 0.25, 0.5, 0.75, 1].map((u) => a + (out - a) * u) };
            }),
          };
        }),
      ),
      resistances: { air_mKW: 0.6, wall_mKW: 0.29, water_mKW: 0.01, efficiencyFactor: 0.66 },
      curves: [], poolPerSunnyDay_K: 1.4,
    },
    solver: flowAnswer.solver,
    band: { heat_W: { low: heat_W * 0.9, high: heat_W * 1.08 }, rise_K: { low: rise * 0.9, high: rise * 1.08 } },
    notices: [], flow: flowAnswer,
  };
  return { flow: flowAnswer, heat: heatAnswer };
}

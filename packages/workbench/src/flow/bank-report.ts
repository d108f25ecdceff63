import { airClearing } from '@sunlap/engine/hydraulics/clearing';
import { frictionFactorChurchill } from '@sunlap/engine/hydraulics/friction';
import { headerNumber } from '@sunlap/engine/hydraulics/manifold-closed-form';
import type { Collector } from '@sunlap/project/schema/collector';
import type { BankGeometry } from '../assembly/geometry';
import type { AssembledNetwork } from '../assembly/network';
import type { AirGrade, BankFlow, HeaderVerdict, TubeFlow, TubeState } from '../results';
import type { LoopSolution } from './solver';
import { still } from './still';

/** Spread (most − least)/mean up to which a header is big enough, and beyond which it is too small; common practice. */
const BIG_ENOUGH = 0.1;
const TOO_SMALL = 0.3;
/** Least Reynolds number for which a header number is worked out. */
const STILL_RE = 1;

/** Banks as they run, in the order of the file. */
export function bankFlows(
  assembled: AssembledNetwork,
  collector: Collector,
  solution: LoopSolution,
): BankFlow[] {
  const states = new Map<number, TubeState>();
  if (solution.air) {
    const layout = solution.airTubes;
    solution.air.tubes.forEach((t, i) => {
      if (layout[i] !== undefined) states.set(layout[i], t.state);
    });
  }
  return assembled.banks.flatMap((links, place) => {
    if (!links) return [];
    const section = collector.sections[links.section];
    const bank = section.banks[links.bank];
    const geometry = assembled.geometry.banks[place];
    const blocked = new Set(bank.blocked ?? []);
    const airBound = new Set(bank.airBound ?? []);
    const { network } = solution;
    const density = assembled.description.referenceDensity_kgm3;
    const tubes: TubeFlow[] = geometry.units.map((unit, i) => {
      const link = links.units[i];
      const flow_m3s = still(network.flow_kgs[link] / density);
      const marked: TubeState | null = blocked.has(i + 1)
        ? 'blocked'
        : airBound.has(i + 1)
          ? 'airBound'
          : null;
      return {
        number: unit.number,
        position: unit.position,
        flow_m3s,
        velocity_ms: flow_m3s === 0 ? 0 : network.velocity_ms[link],
        reynolds: flow_m3s === 0 ? 0 : network.reynolds[link],
        state: marked ?? states.get(link) ?? 'full',
        air: airGrade(geometry, i, network.velocity_ms[link], assembled, link, collector.placement.tilt_deg),
        share: 0,
        shareBand: { low: 0, high: 0 },
      };
    });
    const able = tubes.filter((t) => t.state !== 'blocked' && t.state !== 'airBound');
    const mean = able.reduce((sum, t) => sum + t.flow_m3s, 0) / Math.max(1, able.length);
    for (const t of tubes) {
      // with nothing flowing every tube has its even share of nothing
      t.share = Math.abs(mean) > 1e-12 ? t.flow_m3s / mean : able.includes(t) ? 1 : 0;
      t.shareBand = { low: t.share, high: t.share };
    }
    const shares = able.map((t) => t.share);
    const least = shares.length > 0 ? Math.min(...shares) : 0;
    const most = shares.length > 0 ? Math.max(...shares) : 0;
    const meanRe = able.reduce((sum, t) => sum + t.reynolds, 0) / Math.max(1, able.length);
    const number = bankHeaderNumber(geometry, able.length, meanRe);
    const along = (link: number): number => (link < 0 ? 0 : still(network.flow_kgs[link] / density));
    const runs = tubes.some((t) => t.flow_m3s !== 0);
    const head = (nodes: readonly number[]): number =>
      nodes.reduce((sum, n) => sum + network.head_m[n], 0) / Math.max(1, nodes.length);
    return [
      {
        section: section.id,
        id: bank.id,
        name: bank.name ?? bank.id,
        kind: bank.kind,
        headerNumber: number,
        headerVerdict: number === null || !runs ? null : verdict(most - least),
        leastOverMean: least,
        mostOverMean: most,
        leastBand: { low: least, high: least },
        mostBand: { low: most, high: most },
        flow_m3s: bankTotal(
          tubes,
          links.supplyTees.length === 0 && bank.kind !== 'tubes' && bank.join === 'series',
        ),
        headLoss_m: head(links.inNodes) - head(links.outNodes),
        tubes: [...tubes].sort((a, b) => a.number - b.number),
        supplyHeader_m3s: links.supply.map(along),
        gatherHeader_m3s: links.gather.map(along),
      },
    ];
  });
}

function bankTotal(tubes: readonly TubeFlow[], series: boolean): number {
  return series ? tubes[0].flow_m3s : tubes.reduce((sum, t) => sum + t.flow_m3s, 0);
}

/** Big enough, marginal or too small, by how unevenly the tubes share: 10 % and 30 %. */
export function verdict(spread: number): HeaderVerdict {
  return spread <= BIG_ENOUGH ? 'bigEnough' : spread <= TOO_SMALL ? 'marginal' : 'tooSmall';
}

/** m of the closed form for a bank's smaller header; null where no header shares water out. */
export function bankHeaderNumber(geometry: BankGeometry, tubes: number, reynolds: number): number | null {
  const { supply, gather, size } = geometry;
  if (!supply || !gather || !size || geometry.kind === 'rated' || tubes < 2) return null;
  const header = Math.min(supply.size.bore_m, gather.size.bore_m);
  const re = Math.max(reynolds, STILL_RE);
  const f = frictionFactorChurchill(re, size.roughness_m / size.bore_m);
  const m = headerNumber(
    tubes,
    (size.bore_m / header) ** 2,
    (f * geometry.units[0].length_m) / size.bore_m,
    1.5,
  );
  const both = geometry.ends.inflow.length > 1 && geometry.ends.outflow.length > 1;
  return both ? m / 4 : m;
}

function airGrade(
  geometry: BankGeometry,
  i: number,
  velocity_ms: number,
  assembled: AssembledNetwork,
  link: number,
  tilt_deg: number,
): AirGrade {
  const unit = geometry.units[i];
  const slope = Math.max(-1, Math.min(1, unit.fall_m / unit.length_m));
  // a turn of a coil falls as often as it rises: judged by its steepest fall
  const angle = geometry.kind === 'coil' ? tilt_deg : (Math.asin(slope) * 180) / Math.PI;
  return airClearing(velocity_ms, assembled.description.links[link].law.bore_m, angle).grade;
}

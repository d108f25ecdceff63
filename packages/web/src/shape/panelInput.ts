import type { PanelBank, PanelInput } from '@sunlap/drawing/panelPlan';
import type { PanelData } from '@sunlap/drawing/panelSheet';
import type { Bank, Collector } from '@sunlap/project/schema/collector';
import type { Study } from '../compute/usecases';
import { reach_m, spacing_m } from '../edits/extent';
import { outer_m } from './pipes';

function bankInput(bank: Bank): PanelBank {
  const headers =
    bank.kind === 'rated' ? [bank.headerPipe, bank.headerPipe] : [bank.supply?.pipe, bank.gather?.pipe];
  const [supply, gather] = headers.map((pipe) => (pipe === undefined ? 0 : outer_m(pipe)));
  const common = {
    id: bank.id,
    kind: bank.kind,
    across_m: bank.across_m,
    along_m: bank.along_m ?? 0,
    depth_m: bank.depth_m,
    count: bank.count,
    length_m: reach_m(bank),
    pitch_m: spacing_m(bank),
    supplyDiameter_m: supply,
    gatherDiameter_m: gather,
  };
  if (bank.kind === 'tubes') return { ...common, shift_m: 0, tubeDiameter_m: outer_m(bank.pipe) };
  if (bank.kind === 'rated') return { ...common, shift_m: bank.width_m / 2, tubeDiameter_m: bank.width_m };
  const mean = (bank.innerDiameter_m + bank.outerDiameter_m) / 2;
  return {
    ...common,
    shift_m: bank.outerDiameter_m / 2,
    tubeDiameter_m: outer_m(bank.pipe),
    coil: {
      inner_m: bank.innerDiameter_m,
      outer_m: bank.outerDiameter_m,
      turns: bank.length_m / (Math.PI * mean),
    },
  };
}

/** What the drawing needs to know of a collector. */
export function panelInput(collector: Collector): PanelInput {
  return {
    facing_deg: collector.placement.facing_deg,
    sections: collector.sections.map((s) => ({
      id: s.id,
      u_m: s.u_m,
      v_m: s.v_m,
      angle_deg: s.direction === 'contour' ? 0 : s.direction === 'slope' ? 90 : (s.angle_deg ?? 0),
      inletSide: s.inletSide,
      inletEnds: s.inletEnds,
      outletEnds: s.outletEnds,
      banks: s.banks.map(bankInput),
      handovers: s.handovers.map((h) => h.joins.map(({ from, to }) => ({ from, to }))),
    })),
  };
}

export interface HeatScale {
  low_C: number;
  high_C: number;
  at(t_C: number): number;
}

/**
 * From the coolest to the warmest water that moves in the panel; at least half a degree, so that still water is one
 * colour. A tube that stands is far hotter and would leave all others one colour.
 */
export function heatScale(study: Study | null): HeatScale {
  const moving = new Set(
    (study?.flow.result.collector.banks ?? []).flatMap((b) =>
      b.tubes.filter((t) => t.flow_m3s !== 0).map((t) => `${b.section}/${b.id}/${t.position}`),
    ),
  );
  const tubes = (study?.heat?.result.banks ?? []).flatMap((b) =>
    b.tubes.map((t) => ({ ...t, moves: moving.has(`${b.section}/${b.id}/${t.position}`) })),
  );
  const shown = moving.size > 0 ? tubes.filter((t) => t.moves) : tubes;
  const values = shown.flatMap((t) => [t.inlet_C, t.outlet_C]);
  const good = values.filter(Number.isFinite);
  const low_C = good.length > 0 ? Math.min(...good) : 0;
  const high_C = Math.max(good.length > 0 ? Math.max(...good) : 1, low_C + 0.5);
  return { low_C, high_C, at: (t) => (t - low_C) / (high_C - low_C) };
}

/** Water in every tube and header, ready to be drawn. */
export function panelData(study: Study | null, scale: HeatScale): PanelData {
  if (study === null) return { tubes: [], headers: [], fullFlow_m3s: 0 };
  const { banks } = study.flow.result.collector;
  const heats = new Map((study.heat?.result.banks ?? []).map((b) => [`${b.section}/${b.id}`, b] as const));
  return {
    fullFlow_m3s: Math.max(
      0,
      ...banks.flatMap((b) => [...b.supplyHeader_m3s, ...b.gatherHeader_m3s].map(Math.abs)),
    ),
    headers: banks.flatMap((b) => {
      const heat = heats.get(`${b.section}/${b.id}`);
      return [
        {
          section: b.section,
          bank: b.id,
          header: 'supply' as const,
          flow_m3s: b.supplyHeader_m3s,
          heat: scale.at(heat?.inlet_C ?? scale.low_C),
        },
        {
          section: b.section,
          bank: b.id,
          header: 'gather' as const,
          flow_m3s: b.gatherHeader_m3s,
          heat: scale.at(heat?.outlet_C ?? scale.low_C),
        },
      ];
    }),
    tubes: banks.flatMap((b) => {
      const heat = heats.get(`${b.section}/${b.id}`);
      const byPosition = new Map((heat?.tubes ?? []).map((t) => [t.position, t]));
      return b.tubes.map((t) => {
        const profile = byPosition.get(t.position)?.profile_C ?? [];
        return {
          section: b.section,
          bank: b.id,
          position: t.position,
          look: t.state,
          holdsAir: t.air === 'holds',
          share: t.share,
          heat:
            profile.length === 0
              ? [{ at: 0, heat: 0 }]
              : profile.map((c, i) => ({
                  at: profile.length === 1 ? 0 : i / (profile.length - 1),
                  heat: scale.at(c),
                })),
        };
      });
    }),
  };
}

import type { ProfilePiece } from '@sunlap/drawing/loopProfile';
import type { Project } from '@sunlap/project/schema/project';
import type { LoopPiece } from '@sunlap/workbench/results';
import type { Study } from '../../compute/usecases';
import { sectionSize } from '../../edits/extent';
import { heatScale } from '../../shape/panelInput';

export interface Way {
  /** One way from a suction to an outlet, through the collector while water goes there. */
  main: LoopPiece[];
  /** Everything else that carries water beside it. */
  beside: LoopPiece[];
}

const root = (piece: LoopPiece, part: string) =>
  new RegExp(`^/loop/${part}/(\\d+)`).exec(piece.path)?.[1] ?? null;

/** Of several suctions or outlets the one with the most water is drawn. */
function chosen(pieces: readonly LoopPiece[], part: string): string | null {
  let best: string | null = null;
  let most = -1;
  for (const p of pieces) {
    const n = root(p, part);
    if (n !== null && Math.abs(p.flow_m3s) > most) {
      most = Math.abs(p.flow_m3s);
      best = n;
    }
  }
  return best;
}

export function wayOf(study: Study): Way {
  const { pieces } = study.flow.result.loop;
  const through = study.flow.result.collectorFlow_m3s > 1e-7;
  const suction = chosen(pieces, 'suctions');
  const outlet = chosen(pieces, 'outlets');
  const main: LoopPiece[] = [];
  const beside: LoopPiece[] = [];
  for (const p of pieces) {
    const [s, o] = [root(p, 'suctions'), root(p, 'outlets')];
    const other =
      (s !== null && s !== suction) ||
      (o !== null && o !== outlet) ||
      (p.way === 'through' && !through) ||
      (p.way === 'past' && through) ||
      p.path.startsWith('/collector/') ||
      p.path.startsWith('/loop/returnOutlet');
    (other ? beside : main).push(p);
  }
  return { main, beside };
}

/** Height of the collector's highest tube over the pool's water. */
function top_m(project: Project): number {
  const { collector } = project;
  const reach = Math.max(
    ...collector.sections.map((s) => {
      const size = sectionSize(s);
      return s.v_m + (s.direction === 'slope' ? size.along_m : size.across_m);
    }),
  );
  return (
    collector.placement.lowestHeight_m + reach * Math.sin((collector.placement.tilt_deg * Math.PI) / 180)
  );
}

export function profilePieces(main: readonly LoopPiece[], study: Study, project: Project): ProfilePiece[] {
  const scale = heatScale(study);
  const heat = study.heat?.result;
  const cold = scale.at(heat?.inlet_C ?? scale.low_C);
  const hot = scale.at(heat?.outlet_C ?? scale.low_C);
  const { flow_m3s, collectorFlow_m3s } = study.flow.result;
  const mixed = flow_m3s > 0 ? cold + ((hot - cold) * collectorFlow_m3s) / flow_m3s : cold;
  const at = main.findIndex((p) => p.kind === 'collector');
  const heatOf = (p: LoopPiece, i: number) => (at < 0 || i <= at ? cold : p.way === 'common' ? mixed : hot);
  return main.map((p, i) => ({
    id: p.id,
    kind: p.kind,
    start_m: p.start_m,
    end_m: p.end_m,
    startHeight_m: p.startHeight_m,
    endHeight_m: p.endHeight_m,
    startHead_m: p.startHead_m,
    endHead_m: p.endHead_m,
    startHeat: heatOf(p, i),
    endHeat: i === at ? hot : heatOf(p, i),
    ...(p.kind === 'collector' ? { top_m: top_m(project) } : {}),
  }));
}

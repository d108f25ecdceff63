import { type BuildDrawing, type BuildShape, rectangle } from './buildPlan';

export interface HeaderJigInput {
  id: string;
  title: string;
  tees: number;
  pitch_m: number;
  /** G and S along the run. */
  takeOff_m: number;
  socket_m: number;
  leadIn_m: number;
  headerOutside_m: number;
  branchOutside_m: number;
  branchTakeOff_m: number;
  teeLabel: string;
  pipeLabel: string;
  /** Ends that pipe goes on from; the others are capped. */
  open: readonly ('first' | 'last')[];
  small(value_m: number): string;
  length(value_m: number): string;
}

/** One header with every tee and nipple, seen from above with the branches up, and the marking strip under it. */
export function headerJig(input: HeaderJigInput): BuildDrawing {
  const { tees, pitch_m: p, takeOff_m: g, socket_m: s, leadIn_m: lead } = input;
  const shapes: BuildShape[] = [];
  const r = input.headerOutside_m / 2;
  // socket walls stand about a fifth of the radius over the pipe
  const wall = r * 1.22;
  const branchWall = (input.branchOutside_m / 2) * 1.25;
  const reach = input.branchTakeOff_m + s;
  const centre = (i: number): number => lead + i * p;
  const end = lead + (tees - 1) * p + lead;
  const nipple = p - 2 * g;

  // pipe under the tees: lead-ins and nipples, as cut
  shapes.push(pipe(Math.min(0, lead - g - 2 * s), lead - g));
  for (let i = 0; i + 1 < tees; i++) shapes.push(pipe(centre(i) + g, centre(i + 1) - g));
  shapes.push(pipe(centre(tees - 1) + g, Math.max(end, centre(tees - 1) + g + 2 * s)));
  for (let i = 0; i < tees; i++) {
    const x = centre(i);
    const half = g + s;
    shapes.push(
      {
        kind: 'polyline',
        layer: 'fitting',
        closed: true,
        filled: 'soft',
        points: rectangle(x - half, -wall, x + half, wall),
      },
      {
        kind: 'polyline',
        layer: 'fitting',
        closed: true,
        filled: 'soft',
        points: rectangle(x - branchWall, wall, x + branchWall, reach),
      },
      {
        kind: 'line',
        layer: 'centre',
        from: [x, -wall * 1.4],
        to: [x, reach * 1.08],
        weight: 'hair',
        dashed: true,
      },
      {
        kind: 'line',
        layer: 'centre',
        from: [x - g, -wall],
        to: [x - g, wall],
        weight: 'hair',
        dashed: true,
      },
      {
        kind: 'line',
        layer: 'centre',
        from: [x + g, -wall],
        to: [x + g, wall],
        weight: 'hair',
        dashed: true,
      },
      { kind: 'text', layer: 'text', at: [x, reach * 1.12], text: String(i + 1), size: 9 },
    );
  }
  function pipe(a: number, b: number): BuildShape {
    return {
      kind: 'polyline',
      layer: 'pipe',
      closed: true,
      points: rectangle(a, -r, Math.max(b, a + 1e-4), r),
    };
  }
  for (const which of ['first', 'last'] as const) {
    const x = which === 'first' ? Math.min(0, lead - g - 2 * s) : Math.max(end, centre(tees - 1) + g + 2 * s);
    if (!input.open.includes(which)) {
      const inward = which === 'first' ? s : -s;
      shapes.push({
        kind: 'polyline',
        layer: 'fitting',
        closed: true,
        filled: 'soft',
        points: rectangle(Math.min(x, x + inward), -wall, Math.max(x, x + inward), wall),
      });
    }
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [x, -wall * 2.1],
      text: input.open.includes(which) ? `${which} end: open` : `${which} end: capped`,
      size: 10,
      anchor: which === 'first' ? 'start' : 'end',
    });
  }

  // marking strip: a rule with the distance of each tee centre from the first end
  const top = -wall * 3.6;
  const bottom = top - r * 1.6;
  shapes.push({ kind: 'polyline', layer: 'pipe', closed: true, points: rectangle(0, bottom, end, top) });
  for (let i = 0; i < tees; i++) {
    shapes.push(
      { kind: 'line', layer: 'fitting', from: [centre(i), bottom], to: [centre(i), top], weight: 'normal' },
      {
        kind: 'text',
        layer: 'text',
        at: [centre(i), bottom - r * 0.5],
        text: input.small(centre(i)),
        size: 8.5,
        anchor: 'end',
        turn_deg: 90,
      },
    );
  }
  shapes.push({
    kind: 'text',
    layer: 'text',
    at: [0, top + r * 0.25],
    text: 'marking strip: tee centres from the first end',
    size: 10,
    anchor: 'start',
  });
  if (tees > 1)
    shapes.push(
      {
        kind: 'dimension',
        layer: 'dimension',
        from: [centre(0), reach],
        to: [centre(1), reach],
        offset: 18,
        text: `p ${input.small(p)}`,
      },
      {
        kind: 'text',
        layer: 'text',
        at: [0, reach + r * 7],
        text: `${tees} × ${input.teeLabel}   ·   ${tees - 1} nipples of ${input.small(nipple)}, ${input.pipeLabel}   ·   G ${input.small(g)}, S ${input.small(s)}`,
        size: 11,
        anchor: 'start',
      },
    );
  shapes.push({
    kind: 'dimension',
    layer: 'dimension',
    from: [centre(0), reach + r * 2.2],
    to: [centre(tees - 1), reach + r * 2.2],
    offset: 30,
    text: input.length((tees - 1) * p),
  });
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${tees} tees at ${input.small(p)}, nipples of ${input.small(nipple)}, tee centres at ${Array.from({ length: tees }, (_, i) => input.small(centre(i))).join(', ')} from the first end.`,
    shapes,
    box: { x0: -r, x1: end + r, y0: bottom - r * 3.4, y1: reach + r * 7.4 },
    stretch: Math.max(1, (0.0155 * (end + 2 * r)) / r),
  };
}

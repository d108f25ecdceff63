import { type BuildDrawing, type BuildShape, paperScale, rectangle, textWidth } from './buildPlan';

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

/** Least height of half a header on paper, so that a long one stays a body and no line. */
const HALF_UNITS = 10;
const NUMBER_SIZE = 10;
const MARK_SIZE = 9.5;

/** Numbers and marks that there is room for: every one, or every second, fifth, tenth … and always the last. */
function shown(tees: number, step_units: number, needed_units: number): (i: number) => boolean {
  const step = [1, 2, 5, 10, 20, 50].find((k) => k * step_units >= needed_units) ?? 100;
  const last = tees - 1;
  return (i) => i === last || (i % step === 0 && (i === 0 || (last - i) * step_units >= needed_units));
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
  const [left, right] = [Math.min(0, lead - g - 2 * s), Math.max(end, centre(tees - 1) + g + 2 * s)];
  const nipple = p - 2 * g;
  const box = { x0: left - r, x1: right + r };
  const stretch = Math.max(1, (HALF_UNITS * paperScale(box).x) / r);
  const unit = paperScale(box, stretch);
  const pitchUnits = p / unit.x;

  // pipe under the tees: lead-ins and nipples, as cut
  shapes.push(pipe(left, lead - g));
  for (let i = 0; i + 1 < tees; i++) shapes.push(pipe(centre(i) + g, centre(i + 1) - g));
  shapes.push(pipe(centre(tees - 1) + g, right));
  const numbered = shown(tees, pitchUnits, textWidth(String(tees), NUMBER_SIZE) + 3);
  for (let i = 0; i < tees; i++) {
    const x = centre(i);
    const half = g + s;
    const hair = { kind: 'line', layer: 'centre', weight: 'hair', dashed: true } as const;
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
      { ...hair, from: [x, -wall * 1.25], to: [x, reach] },
      { ...hair, from: [x - g, -wall], to: [x - g, wall] },
      { ...hair, from: [x + g, -wall], to: [x + g, wall] },
    );
    if (numbered(i))
      shapes.push({
        kind: 'text',
        layer: 'text',
        at: [x, reach + 4 * unit.y],
        text: String(i + 1),
        size: NUMBER_SIZE,
      });
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
    const x = which === 'first' ? left : right;
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
      at: [x, -wall - 16 * unit.y],
      text: input.open.includes(which) ? `${which} end: open` : `${which} end: capped`,
      size: 10,
      anchor: which === 'first' ? 'start' : 'end',
    });
  }

  // marking strip: a rule with the distance of each tee centre from the first end
  const top = -wall - 44 * unit.y;
  const bottom = top - 16 * unit.y;
  shapes.push({
    kind: 'text',
    layer: 'text',
    at: [0, top + 5 * unit.y],
    text: 'marking strip: tee centres from the first end',
    size: 10,
    anchor: 'start',
  });
  shapes.push({ kind: 'polyline', layer: 'pipe', closed: true, points: rectangle(0, bottom, end, top) });
  const marked = shown(tees, pitchUnits, MARK_SIZE + 2.5);
  for (let i = 0; i < tees; i++) {
    shapes.push({
      kind: 'line',
      layer: 'fitting',
      from: [centre(i), bottom],
      to: [centre(i), top],
      weight: marked(i) ? 'normal' : 'hair',
    });
    if (marked(i))
      shapes.push({
        kind: 'text',
        layer: 'text',
        at: [centre(i) + 3 * unit.x, bottom - 5 * unit.y],
        text: input.small(centre(i)),
        size: MARK_SIZE,
        anchor: 'end',
        turn_deg: 90,
      });
  }

  if (tees > 1)
    shapes.push({
      kind: 'dimension',
      layer: 'dimension',
      from: [centre(0), reach],
      to: [centre(1), reach],
      offset: 22,
      text: `p ${input.small(p)}`,
      beside: textWidth(`p ${input.small(p)}`, 12.5, true) + 24 > pitchUnits,
    });
  if (tees > 2)
    shapes.push({
      kind: 'dimension',
      layer: 'dimension',
      from: [centre(0), reach],
      to: [centre(tees - 1), reach],
      offset: 58,
      text: input.length((tees - 1) * p),
    });
  const head = reach + (tees > 2 ? 76 : tees > 1 ? 50 : 22) * unit.y;
  const notes = [
    ...(tees > 1
      ? [`${tees - 1} ${tees === 2 ? 'nipple' : 'nipples'} of ${input.small(nipple)}, ${input.pipeLabel}`]
      : [input.pipeLabel]),
    `${tees} × ${input.teeLabel}, G ${input.small(g)}, S ${input.small(s)}`,
  ];
  notes.forEach((text, i) => {
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [box.x0, head + 14 * i * unit.y],
      text,
      size: 11,
      anchor: 'start',
    });
  });
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${tees} tees at ${input.small(p)}, nipples of ${input.small(nipple)}, tee centres at ${Array.from({ length: tees }, (_, i) => input.small(centre(i))).join(', ')} from the first end.`,
    shapes,
    box: { ...box, y0: bottom, y1: head },
    stretch,
  };
}

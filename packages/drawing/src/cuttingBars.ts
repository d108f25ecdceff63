import { type BuildDrawing, type BuildShape, paperScale, rectangle, textWidth } from './buildPlan';

export interface CuttingBarsInput {
  id: string;
  title: string;
  bars: readonly {
    count: number;
    stock_m: number;
    onHand: boolean;
    cuts: readonly { length_m: number; count: number }[];
    left_m: number;
  }[];
  kerf_m: number;
  length(value_m: number): string;
}

/** Each way of cutting as a bar to scale along its length; what is left is hatched. */
export function cuttingBars(input: CuttingBarsInput): BuildDrawing {
  const longest = Math.max(0.1, ...input.bars.map((b) => b.stock_m));
  const shapes: BuildShape[] = [];
  // heights are in the unit of lengths, so that the sheet stays true to scale
  const h = longest * 0.031;
  const step = longest * 0.07;
  const label = longest * 0.26;
  const unit = paperScale({ x0: -label, x1: longest }).x;
  let y = 0;
  for (const bar of input.bars) {
    shapes.push({
      kind: 'text',
      layer: 'text',
      at: [-label, y - h * 0.75],
      text: `${bar.count} × ${input.length(bar.stock_m)}${bar.onHand ? ' on hand' : ''}`,
      size: 11,
      anchor: 'start',
      bold: true,
    });
    let x = 0;
    const under = { clear: Number.NEGATIVE_INFINITY };
    for (const cut of bar.cuts) {
      // many short equal pieces are drawn as one block with their count
      const narrow = cut.length_m < longest * 0.05;
      if (narrow && cut.count > 1) {
        const wide = cut.count * (cut.length_m + input.kerf_m);
        shapes.push({
          kind: 'polyline',
          layer: 'pipe',
          closed: true,
          points: rectangle(x, y - h, x + wide, y),
        });
        // closer lines would only blacken it
        const lines = cut.length_m / unit >= LEAST_GAP ? cut.count : 0;
        for (let i = 1; i < lines; i++) {
          const at = x + i * (cut.length_m + input.kerf_m);
          shapes.push({ kind: 'line', layer: 'pipe', from: [at, y - h], to: [at, y], weight: 'hair' });
        }
        note(
          shapes,
          x + wide / 2,
          y,
          h,
          `${cut.count} × ${input.length(cut.length_m)}`,
          wide,
          unit,
          under,
          true,
        );
        x += wide;
        continue;
      }
      for (let i = 0; i < cut.count; i++) {
        shapes.push({
          kind: 'polyline',
          layer: 'pipe',
          closed: true,
          points: rectangle(x, y - h, x + cut.length_m, y),
        });
        note(shapes, x + cut.length_m / 2, y, h, input.length(cut.length_m), cut.length_m, unit, under);
        x += cut.length_m + input.kerf_m;
      }
    }
    if (bar.left_m > longest * 1e-3) {
      const from = bar.stock_m - bar.left_m;
      shapes.push({
        kind: 'polyline',
        layer: 'waste',
        closed: true,
        filled: 'hatch',
        points: rectangle(from, y - h, bar.stock_m, y),
      });
      const words = `left ${input.length(bar.left_m)}`;
      if (bar.left_m > (textWidth(words, NOTE_SIZE) + 6) * unit)
        shapes.push({
          kind: 'text',
          layer: 'text',
          at: [from + bar.left_m / 2, y - h * 0.72],
          text: words,
          size: NOTE_SIZE,
          plate: true,
        });
    }
    y -= step;
  }
  return {
    id: input.id,
    title: input.title,
    description: `${input.title}: ${input.bars.map((b) => `${b.count} of ${input.length(b.stock_m)} into ${b.cuts.map((c) => `${c.count} × ${input.length(c.length_m)}`).join(', ')}, left ${input.length(b.left_m)}`).join('; ')}.`,
    shapes,
    box: { x0: -label, x1: longest, y0: Math.min(y + step - h, -h), y1: 0 },
    stretch: 1,
  };
}

/** Lines inside a block stand at least so far apart, in paper units. */
const LEAST_GAP = 3;
const NOTE_SIZE = 10.5;
const SMALL_SIZE = 8.5;

/** A length inside its piece; under it where the piece is too narrow and nothing stands there yet; else in the table only. */
function note(
  shapes: BuildShape[],
  x: number,
  y: number,
  h: number,
  text: string,
  wide_m: number,
  unit: number,
  under: { clear: number },
  plate = false,
): void {
  if (wide_m >= (textWidth(text, NOTE_SIZE) + 4) * unit) {
    shapes.push({ kind: 'text', layer: 'text', at: [x, y - h * 0.72], text, size: NOTE_SIZE, plate });
    return;
  }
  const half = (textWidth(text, SMALL_SIZE) / 2) * unit;
  if (x - half < under.clear) return;
  under.clear = x + half + 4 * unit;
  shapes.push({ kind: 'text', layer: 'text', at: [x, y - h - 9 * unit], text, size: SMALL_SIZE });
}

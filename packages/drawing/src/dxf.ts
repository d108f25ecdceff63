import DxfDrawing from 'dxf-writer';
import { BUILD_LAYERS, type BuildDrawing, type BuildLayer, type BuildShape, paperScale } from './buildPlan';
import type { Point } from './display';

/** AutoCAD colour numbers of the layers: 7 black or white, 8 and 9 greys. */
const COLOUR: Record<BuildLayer, number> = {
  pipe: 7,
  fitting: 7,
  support: 8,
  centre: 9,
  dimension: 8,
  text: 7,
  waste: 9,
};

/**
 * A drawing as a DXF file in metres, one layer for each kind of thing. Dimensions are written as their lines and texts,
 * which every reader shows alike; letters outside ASCII as \U+xxxx.
 *
 * @example toDxf(headerJig(input)).startsWith('0') // a DXF begins with its first group code
 */
export function toDxf(drawing: BuildDrawing): string {
  const out = new DxfDrawing();
  out.setUnits('Meters');
  for (const layer of BUILD_LAYERS)
    out.addLayer(layer, COLOUR[layer], layer === 'centre' ? 'DASHED' : 'CONTINUOUS');
  out.addLineType('DASHED', '_ _ _ ', [0.05, -0.03]);
  const unit = paperScale(drawing.box, drawing.stretch).x;
  for (const shape of drawing.shapes) write(out, shape, unit, drawing.stretch);
  return out.toDxfString();
}

function write(out: DxfDrawing, s: BuildShape, unit: number, stretch: number): void {
  out.setActiveLayer(s.layer);
  switch (s.kind) {
    case 'line':
      out.drawLine(s.from[0], s.from[1], s.to[0], s.to[1]);
      return;
    case 'polyline':
      out.drawPolyline(
        s.points.map((p): [number, number] => [p[0], p[1]]),
        s.closed ?? false,
      );
      return;
    case 'circle':
      out.drawCircle(s.centre[0], s.centre[1], s.radius_m);
      return;
    case 'text':
      text(out, s.at, s.text, (s.size ?? 12) * unit * 0.72, s.anchor ?? 'middle', s.turn_deg ?? 0);
      return;
    case 'dimension':
      dimension(out, s.from, s.to, (s.offset * unit) / stretch, s.text, 12.5 * unit * 0.72, s.beside);
  }
}

const ALIGN = { start: 'left', middle: 'center', end: 'right' } as const;

function text(
  out: DxfDrawing,
  at: Point,
  words: string,
  height: number,
  anchor: 'start' | 'middle' | 'end',
  turn_deg: number,
): void {
  out.drawText(at[0], at[1], height, turn_deg, escaped(words), ALIGN[anchor], 'baseline');
}

/** ASCII as it is, the rest as \U+xxxx. */
function escaped(words: string): string {
  return Array.from(words, (c) => {
    const code = c.codePointAt(0)!;
    return code < 127 ? c : `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
  }).join('');
}

/** Dimension line to the left of from → to, ticks at 45°, text above. */
function dimension(
  out: DxfDrawing,
  from: Point,
  to: Point,
  offset: number,
  words: string,
  height: number,
  beside = false,
): void {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const l = Math.hypot(dx, dy);
  if (!(l > 0)) return;
  const [nx, ny] = [-dy / l, dx / l];
  const at = (p: Point, k: number): Point => [p[0] + nx * k, p[1] + ny * k];
  const [a, b] = [at(from, offset), at(to, offset)];
  const tick = height * 0.5;
  out.drawLine(from[0], from[1], at(from, offset * 1.15)[0], at(from, offset * 1.15)[1]);
  out.drawLine(to[0], to[1], at(to, offset * 1.15)[0], at(to, offset * 1.15)[1]);
  out.drawLine(a[0], a[1], b[0], b[1]);
  for (const p of [a, b]) out.drawLine(p[0] - tick, p[1] - tick, p[0] + tick, p[1] + tick);
  if (beside) {
    const right = a[0] > b[0] ? a : b;
    text(out, [right[0] + height, right[1] - height * 0.4], words, height, 'start', 0);
    return;
  }
  const mid = at([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], height * 0.4);
  text(out, mid, words, height, 'middle', (Math.atan2(dy, dx) * 180) / Math.PI);
}

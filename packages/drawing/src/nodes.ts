import { type DisplayList, type Item, LAYERS, type Point } from './display';
import { heatColour } from './heatColour';
import type { Palette } from './palette';

/** An SVG element as plain data: written as text here, or handed to whatever makes elements. */
export interface SvgNode {
  tag: string;
  attributes: Record<string, string | number>;
  children: SvgNode[];
  text?: string;
}

const r = (v: number): number => Math.round(v * 1000) / 1000 || 0;
const list = (points: readonly Point[]) => points.map(([x, y]) => `${r(x)},${r(y)}`).join(' ');

function element(tag: string, attributes: Record<string, string | number | undefined>): SvgNode {
  const kept: Record<string, string | number> = {};
  for (const [key, value] of Object.entries(attributes)) if (value !== undefined) kept[key] = value;
  return { tag, attributes: kept, children: [] };
}

function stroke(
  item: { ink: keyof Palette; width: number; dash?: readonly number[]; cap?: string },
  p: Palette,
) {
  return {
    stroke: item.width > 0 ? p[item.ink] : 'none',
    'stroke-width': item.width > 0 ? r(item.width) : undefined,
    'stroke-dasharray': item.dash?.map(r).join(' '),
    'stroke-linecap': item.cap,
  };
}

function oneItem(item: Item, p: Palette, gradientId: string): SvgNode[] {
  const name = item.id === undefined ? {} : { 'data-id': item.id };
  switch (item.kind) {
    case 'line':
      return [
        element('line', {
          ...name,
          x1: r(item.from[0]),
          y1: r(item.from[1]),
          x2: r(item.to[0]),
          y2: r(item.to[1]),
          ...stroke(item, p),
        }),
      ];
    case 'polyline': {
      const fill =
        item.fillHeat === undefined
          ? item.fill === undefined
            ? 'none'
            : p[item.fill]
          : heatColour(item.fillHeat, p);
      return [
        element(item.closed === true ? 'polygon' : 'polyline', {
          ...name,
          points: list(item.points),
          fill,
          'fill-opacity': item.fillOpacity,
          'stroke-linejoin': 'round',
          ...stroke(item, p),
        }),
      ];
    }
    case 'water': {
      const [x1, y1, x2, y2] = [r(item.from[0]), r(item.from[1]), r(item.to[0]), r(item.to[1])];
      const same = item.stops.every((s) => Math.abs(s.heat - item.stops[0].heat) < 0.004);
      const line = { ...name, x1, y1, x2, y2, 'stroke-width': r(item.width) };
      if (same) return [element('line', { ...line, stroke: heatColour(item.stops[0]?.heat ?? 0, p) })];
      const gradient = element('linearGradient', {
        id: gradientId,
        gradientUnits: 'userSpaceOnUse',
        x1,
        y1,
        x2,
        y2,
      });
      gradient.children = item.stops.map((s) =>
        element('stop', { offset: r(s.at), 'stop-color': heatColour(s.heat, p) }),
      );
      return [gradient, element('line', { ...line, stroke: `url(#${gradientId})` })];
    }
    case 'waterPath':
      return [
        element('polyline', {
          ...name,
          points: list(item.points),
          fill: 'none',
          stroke: heatColour(item.heat, p),
          'stroke-width': r(item.width),
          'stroke-linejoin': 'round',
          'stroke-linecap': 'round',
        }),
      ];
    case 'circle':
      return [
        element('circle', {
          ...name,
          cx: r(item.centre[0]),
          cy: r(item.centre[1]),
          r: r(item.radius),
          fill: item.fill === undefined ? 'none' : p[item.fill],
          ...stroke(item, p),
        }),
      ];
    case 'text': {
      const node = element('text', {
        ...name,
        x: r(item.at[0]),
        y: r(item.at[1]),
        fill: p[item.ink],
        'font-size': r(item.size),
        'font-weight': item.weight ?? 400,
        'text-anchor': item.anchor === 'start' ? undefined : item.anchor,
        transform:
          item.turn_deg === undefined
            ? undefined
            : `rotate(${r(item.turn_deg)} ${r(item.at[0])} ${r(item.at[1])})`,
        stroke: item.halo === undefined ? undefined : p[item.halo],
        'stroke-width': item.halo === undefined ? undefined : 4,
        'paint-order': item.halo === undefined ? undefined : 'stroke',
        'stroke-linejoin': item.halo === undefined ? undefined : 'round',
      });
      node.text = item.text;
      return [node];
    }
  }
}

/**
 * Display list to SVG elements, one group per layer in drawing order.
 *
 * @param prefix  makes gradient names unique when several drawings share a page
 */
export function svgNodes(items: DisplayList, palette: Palette, prefix: string): SvgNode[] {
  const groups: SvgNode[] = [];
  let n = 0;
  for (const layer of LAYERS) {
    const children = items
      .filter((item) => item.layer === layer)
      .flatMap((item) => oneItem(item, palette, `${prefix}-${n++}`));
    if (children.length > 0) groups.push({ tag: 'g', attributes: { 'data-layer': layer }, children });
  }
  return groups;
}

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heatColour } from '../src/heatColour';
import { svgNodes } from '../src/nodes';
import { DARK, LIGHT, type Palette, PRINT } from '../src/palette';
import { toSvg } from '../src/svg';

/** Relative luminance and contrast, WCAG 2.2. */
function luminance(hex: string): number {
  const n = Number.parseInt(hex.slice(1), 16);
  const [r, g, b] = [n >> 16, (n >> 8) & 255, n & 255].map((c) =>
    c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
const contrast = (a: string, b: string): number => {
  const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (x + 0.05) / (y + 0.05);
};

describe('heatColour', () => {
  it('runs from cool over sand to warm', () => {
    expect(heatColour(0, LIGHT)).toBe(LIGHT.cool);
    expect(heatColour(0.5, LIGHT)).toBe(LIGHT.sand);
    expect(heatColour(1, LIGHT)).toBe(LIGHT.warm);
  });

  it('always gives a colour, whatever it is asked', () => {
    fc.assert(
      fc.property(fc.double(), (t) => {
        expect(heatColour(t, DARK)).toMatch(/^#[0-9a-f]{6}$/);
      }),
      { seed: 3 },
    );
    expect(heatColour(Number.NaN, LIGHT)).toBe(LIGHT.cool);
    expect(heatColour(9, LIGHT)).toBe(LIGHT.warm);
  });

  it('is lightest in the middle on a light sheet, so that grey print tells both ends from it', () => {
    const mid = luminance(heatColour(0.5, LIGHT));
    expect(mid).toBeGreaterThan(luminance(heatColour(0, LIGHT)));
    expect(mid).toBeGreaterThan(luminance(heatColour(1, LIGHT)));
  });
});

describe('palettes', () => {
  const pairs: [keyof Palette, keyof Palette, number][] = [
    ['ink', 'sheet', 4.5],
    ['ink', 'paper', 4.5],
    ['soft', 'sheet', 4.5],
    ['soft', 'paper', 4.5],
    ['soft', 'grid', 4.5],
    ['flag', 'flagFill', 4.5],
    ['ink', 'flagFill', 4.5],
    ['cool', 'sheet', 3],
    ['warm', 'sheet', 3],
  ];
  for (const [name, palette] of Object.entries({ LIGHT, DARK, PRINT }))
    for (const [a, b, least] of pairs)
      it(`${name}: ${a} on ${b} meets WCAG AA`, () => {
        expect(contrast(palette[a], palette[b])).toBeGreaterThanOrEqual(least);
      });
});

describe('svg', () => {
  it('writes what it is given and lets nothing break out', () => {
    const svg = toSvg(
      [{ kind: 'text', layer: 'text', at: [1.23456, 2], text: '<b>&"', size: 10, ink: 'ink' }],
      { width: 10, height: 10, palette: LIGHT, title: '</title><script>', description: 'd' },
    );
    expect(svg).not.toContain('<script>');
    expect(svg).toContain('&lt;b&gt;&amp;&quot;');
    expect(svg).toContain('x="1.235"');
  });

  it('draws layers in one order, whatever order items come in', () => {
    const nodes = svgNodes(
      [
        { kind: 'circle', layer: 'flag', centre: [0, 0], radius: 1, ink: 'ink', width: 1 },
        { kind: 'circle', layer: 'grid', centre: [0, 0], radius: 1, ink: 'ink', width: 1 },
      ],
      LIGHT,
      'x',
    );
    expect(nodes.map((n) => n.attributes['data-layer'])).toEqual(['grid', 'flag']);
  });

  it('gives each coloured stroke a gradient of its own', () => {
    const water = (y: number) => ({
      kind: 'water' as const,
      layer: 'water' as const,
      from: [0, y] as const,
      to: [10, y] as const,
      width: 2,
      stops: [
        { at: 0, heat: 0 },
        { at: 1, heat: 1 },
      ],
    });
    const [group] = svgNodes([water(0), water(5)], LIGHT, 'p');
    const ids = group.children.filter((n) => n.tag === 'linearGradient').map((n) => n.attributes.id);
    expect(new Set(ids).size).toBe(2);
  });
});

import type { DisplayList } from './display';
import { type SvgNode, svgNodes } from './nodes';
import type { Palette } from './palette';

const escaped = (s: string) =>
  s.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function write(node: SvgNode, indent: string): string {
  const attributes = Object.entries(node.attributes)
    .map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    .join('');
  if (node.text !== undefined)
    return `${indent}<${node.tag}${attributes}>${escaped(node.text)}</${node.tag}>`;
  if (node.children.length === 0) return `${indent}<${node.tag}${attributes}/>`;
  const inner = node.children.map((child) => write(child, `${indent}  `)).join('\n');
  return `${indent}<${node.tag}${attributes}>\n${inner}\n${indent}</${node.tag}>`;
}

/** A whole SVG file. Numbers are rounded to 3 decimals; `title` and `description` are read aloud. */
export function toSvg(
  items: DisplayList,
  options: { width: number; height: number; palette: Palette; title: string; description: string },
): string {
  const { width, height, palette, title, description } = options;
  const body = svgNodes(items, palette, 'w')
    .map((node) => write(node, '  '))
    .join('\n');
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" font-family="Atkinson Hyperlegible Next, sans-serif">`,
    `  <title>${escaped(title)}</title>`,
    `  <desc>${escaped(description)}</desc>`,
    `  <rect width="${width}" height="${height}" fill="${palette.sheet}"/>`,
    body,
    '</svg>',
    '',
  ].join('\n');
}

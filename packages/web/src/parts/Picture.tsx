import type { DisplayList } from '@sunlap/drawing/display';
import { type SvgNode, svgNodes } from '@sunlap/drawing/nodes';
import { type ComponentChildren, h, type VNode } from 'preact';
import { palette } from '../app/state';

const node = (n: SvgNode, key: number): VNode =>
  h(n.tag, { ...n.attributes, key }, n.text ?? n.children.map(node));

interface Props {
  items: DisplayList;
  width: number;
  height: number;
  /** Unique on the page. */
  name: string;
  title: string;
  /** Says what the drawing says. */
  says: string;
  children?: ComponentChildren;
}

/** A display list as SVG, with what it says for those who do not see it. */
export function Picture({ items, width, height, name, title, says, children }: Props) {
  return (
    <svg
      class="picture"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-labelledby={`${name}-title ${name}-desc`}
    >
      <title id={`${name}-title`}>{title}</title>
      <desc id={`${name}-desc`}>{says}</desc>
      {svgNodes(items, palette.value, name).map(node)}
      {children}
    </svg>
  );
}

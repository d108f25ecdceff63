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
  /** Shown size over its own. */
  scale?: number;
  /** Turned upright, for a narrow screen: its left is then at the top. */
  turned?: boolean;
  children?: ComponentChildren;
}

/** A display list as SVG, with what it says for those who do not see it. */
export function Picture({
  items,
  width,
  height,
  name,
  title,
  says,
  scale = 1,
  turned = false,
  children,
}: Props) {
  const [across, down] = turned ? [height, width] : [width, height];
  const drawn = svgNodes(items, palette.value, name).map(node);
  return (
    <svg
      class="picture"
      width={across * scale}
      height={down * scale}
      viewBox={`0 0 ${across} ${down}`}
      role="img"
      aria-labelledby={`${name}-title ${name}-desc`}
    >
      <title id={`${name}-title`}>{title}</title>
      <desc id={`${name}-desc`}>{says}</desc>
      {turned ? <g transform={`translate(${across} 0) rotate(90)`}>{drawn}</g> : drawn}
      {children}
    </svg>
  );
}

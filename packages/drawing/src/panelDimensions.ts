import { dimension } from './dimension';
import type { Anchor, Item } from './display';
import type { SheetTube } from './sheetTube';

export interface Box {
  id: string;
  x: number;
  y: number;
  width: number;
  height: number;
}

interface Gaps {
  dimensionGap: number;
  countGap: number;
}

/** Extent of a section's first bank on the sheet. */
function reach(tubes: readonly SheetTube[], section: string) {
  const bank = tubes.find((t) => t.section === section)?.bank;
  const mine = tubes.filter((t) => t.section === section && t.bank === bank);
  const xs = mine.flatMap((t) => [t.from[0], t.to[0]]);
  const ys = mine.flatMap((t) => [t.from[1], t.to[1]]);
  return { mine, x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

/**
 * Length and number of tubes as dimensions: the one across the sheet over the highest section, the one up the
 * sheet left of the leftmost, each with a place for its control and one for the mark that is pulled. A coil has
 * no length to be measured on the sheet.
 */
export function panelDimensions(
  tubes: readonly SheetTube[],
  boxes: readonly Box[],
  gaps: Gaps,
  coils: boolean,
): { items: Item[]; anchors: Anchor[] } {
  const highest = [...boxes].sort((a, b) => a.y - b.y || a.x - b.x)[0];
  const leftmost = [...boxes].sort((a, b) => a.x - b.x || b.y - a.y)[0];
  if (highest === undefined || leftmost === undefined) return { items: [], anchors: [] };
  const over = reach(tubes, highest.id);
  const beside = reach(tubes, leftmost.id);
  const [first] = over.mine;
  const level = Math.abs(first.to[0] - first.from[0]) >= Math.abs(first.to[1] - first.from[1]);
  const top = highest.y - gaps.dimensionGap;
  const left = leftmost.x - gaps.countGap - (level ? 0 : 44);
  const acrossName = level ? 'length' : 'count';
  const upName = level ? 'count' : 'length';
  const items: Item[] = [];
  const anchors: Anchor[] = [];
  if (!(coils && level)) {
    const d = dimension({
      from: [over.x0, highest.y],
      to: [over.x1, highest.y],
      offset: gaps.dimensionGap,
      gap: 116,
      id: acrossName,
    });
    items.push(...d.items);
    anchors.push(...d.anchors, { id: `drag-${acrossName}`, x: over.x1, y: top });
  }
  if (!(coils && !level)) {
    const d = dimension({
      from: [leftmost.x, beside.y1],
      to: [leftmost.x, beside.y0],
      offset: leftmost.x - left,
      gap: 42,
      id: upName,
    });
    items.push(...d.items);
    anchors.push(...d.anchors, { id: `drag-${upName}`, x: left, y: beside.y0 });
  }
  return { items, anchors };
}

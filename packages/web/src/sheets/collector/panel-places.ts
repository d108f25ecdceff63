import type { PanelSheet } from '@sunlap/drawing/panelSheet';
import type { SheetTube } from '@sunlap/drawing/sheetTube';
import { doc } from '../../app/state';

/** Where on the drawing a place in the file lies. */
export function placeOf(path: string, sheet: PanelSheet): { x: number; y: number } | null {
  const found = /^\/collector\/sections\/(\d+)(?:\/banks\/(\d+))?/.exec(path);
  if (found === null) return null;
  const section = doc.value.project.collector.sections[Number(found[1])];
  if (section === undefined) return null;
  const bank = found[2] === undefined ? undefined : section.banks[Number(found[2])];
  const tubes = sheet.tubes.filter(
    (s) => s.section === section.id && (bank === undefined || s.bank === bank.id),
  );
  if (tubes.length === 0) return null;
  const t0 = tubes[Math.floor(tubes.length / 2)];
  return { x: t0.from[0] * 0.22 + t0.to[0] * 0.78, y: t0.from[1] * 0.22 + t0.to[1] * 0.78 };
}

/** The tube that a finger at this place means; null where none is near. */
export function nearestTube(sheet: PanelSheet, x: number, y: number): SheetTube | null {
  let best: SheetTube | null = null;
  let least = 14;
  for (const tube of sheet.tubes) {
    const [dx, dy] = [tube.to[0] - tube.from[0], tube.to[1] - tube.from[1]];
    const l2 = dx * dx + dy * dy || 1;
    const u = Math.max(0, Math.min(1, ((x - tube.from[0]) * dx + (y - tube.from[1]) * dy) / l2));
    const d = Math.hypot(x - tube.from[0] - dx * u, y - tube.from[1] - dy * u);
    if (d < least) {
      least = d;
      best = tube;
    }
  }
  return best;
}

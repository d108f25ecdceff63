import type { Collector, Plumbing } from '@sunlap/project/schema/collector';
import type { PanelPoint } from './frame';
import type { PanelGeometry, SectionGeometry } from './geometry';

/** Where the collector's first way in lies; null when pipe comes before it or nothing is plumbed. */
export function inletPoint(part: Plumbing, collector: Collector, geometry: PanelGeometry): PanelPoint | null {
  if (part.before !== undefined) return null;
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.inlet ?? null;
  if (part.series) return inletPoint(part.series[0], collector, geometry);
  if (part.parallel?.some((p) => p.before !== undefined)) return null;
  return part.parallel ? inletPoint(part.parallel[0], collector, geometry) : null;
}

/** Where a part's water leaves it; null when pipe comes behind it or nothing is plumbed. */
export function outletPoint(
  part: Plumbing,
  collector: Collector,
  geometry: PanelGeometry,
): PanelPoint | null {
  if (part.after !== undefined) return null;
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.outlet ?? null;
  if (part.series) return outletPoint(part.series[part.series.length - 1], collector, geometry);
  if (part.parallel?.some((p) => p.after !== undefined)) return null;
  return part.parallel ? outletPoint(part.parallel[0], collector, geometry) : null;
}

/** Height at which water enters the first section of a part, whatever comes before. */
export function inletHeight_m(part: Plumbing, collector: Collector, geometry: PanelGeometry): number | null {
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.inlet.height_m ?? null;
  const inner = part.series ?? part.parallel;
  return inner ? inletHeight_m(inner[0], collector, geometry) : null;
}

function sectionOf(id: string, collector: Collector, geometry: PanelGeometry): SectionGeometry | undefined {
  return geometry.sections[collector.sections.findIndex((s) => s.id === id)];
}

/** Place of the first section of a part in the file's list. */
export function firstSection(part: Plumbing, collector: Collector): number {
  if (part.section !== undefined)
    return Math.max(
      0,
      collector.sections.findIndex((s) => s.id === part.section),
    );
  const inner = part.series ?? part.parallel;
  return inner ? firstSection(inner[0], collector) : 0;
}

import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { openPlugs } from './standing';

/**
 * What stands plugged by a repair and is counted as carrying nothing, each tube with the day of its repair.
 *
 * @example plugNotices(project)[0].message // 'Tube 11 of Pass B2 is plugged (repair of 2026-05-25): …'
 */
export function plugNotices(project: Project): Notice[] {
  const { collector, repairs } = project;
  return openPlugs(project).flatMap((plug): Notice[] => {
    const s = collector.sections.findIndex((x) => x.id === plug.section);
    const section = collector.sections[s];
    const found = section?.banks.map((bank, b) => ({ bank, b })) ?? [];
    const { tube } = plug;
    return found.flatMap(({ bank, b }): Notice[] => {
      if (tube === undefined || tube > bank.count) return [];
      if (plug.bank !== undefined && plug.bank !== bank.id) return [];
      const place = repairs.findIndex((r) => r.id === plug.id);
      return [
        {
          code: 'tube-plugged',
          severity: 'heat',
          path: place < 0 ? `/collector/sections/${s}/banks/${b}` : `/repairs/${place}`,
          message: `Tube ${tube} of ${bank.name ?? bank.id} is plugged (repair of ${plug.date}): counted as carrying nothing.`,
          remedy: 'Once it is mended, write the repair down: replaced, or joined with a coupling.',
        },
      ];
    });
  });
}

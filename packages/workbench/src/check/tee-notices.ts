import { headerTee } from '@sunlap/data/headerTee';
import { joinableOf, sizeText } from '@sunlap/data/joinable';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { Tables } from '../assembly/tables';
import { measuredParts } from '../build/options';

/** Bore of a branch over that of its header up to which the tee models reach [–]; a thin wall on a thick one is let pass. */
const MOST_BORE = 1.1;

/** Tees that nobody makes, and tees of a size that no model of their losses knows. */
export function teeNotices(project: Project, tables: Tables): Notice[] {
  const measured = measuredParts(project);
  return project.collector.sections.flatMap((section, s) =>
    section.banks.flatMap((bank, b): Notice[] => {
      if (bank.kind !== 'tubes') return [];
      const at = `/collector/sections/${s}/banks/${b}`;
      const name = bank.name ?? bank.id;
      const out: Notice[] = [];
      for (const which of ['supply', 'gather'] as const) {
        const { pipe } = bank[which];
        if (which === 'gather' && pipe === bank.supply.pipe) break;
        const [run, unit] = [joinableOf(pipe), joinableOf(bank.pipe)];
        const tee = run && unit ? headerTee(run, unit, measured) : null;
        if (run && tee && !tee.made) {
          out.push({
            code: 'tee-not-made',
            severity: 'damage',
            path: `${at}/${which}/pipe`,
            message: `${name}: nobody makes a tee of ${sizeText(run.pipe.nominal, run.base)} with a branch of ${sizeText(tee.branchNominal, run.base)} that the tables know.`,
            remedy: 'Choose a larger header or a smaller tube, or measure the tee that you have.',
          });
        }
        if (!tables.knowsPipe(pipe) || !tables.knowsPipe(bank.pipe)) continue;
        const ratio = tables.sizes(bank.pipe).bore_m / tables.sizes(pipe).bore_m;
        if (!(ratio > MOST_BORE)) continue;
        out.push({
          code: 'tee-beyond-models',
          severity: 'unsure',
          path: `${at}/${which}/pipe`,
          message: `${name}: the tubes are ${ratio.toFixed(1)} times as wide as the header that feeds them. No model of a tee knows a branch wider than its run, so how the tubes share the water is a guess.`,
          remedy: 'Choose a header at least as wide as its tubes.',
        });
      }
      return out;
    }),
  );
}

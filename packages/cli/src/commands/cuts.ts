import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BuildAnswer } from '@sunlap/workbench/build/build';
import { cutLength, wholeStickWords } from '@sunlap/workbench/build/cut-length';
import { cutsCsv } from '@sunlap/workbench/build/tables-csv';
import { buildTable } from '../build-table';
import { shower } from '../show';
import { table } from '../table';

/** The cutting plans as people read them. */
export function cutsText(answer: BuildAnswer, system: UnitSystem, columns: number): string {
  const v = answer.result;
  const cut = (m: number): string => cutLength(m, system);
  return v.cutting
    .map((sheet) => {
      const { plan } = sheet;
      const unit = sheet.priced ? v.currency : 'm';
      const proof = plan.proven
        ? `${plan.price.toFixed(2)} ${unit}, proven: no plan is cheaper`
        : `${plan.price.toFixed(2)} ${unit}, at most ${plan.gap.toFixed(2)} over the least`;
      return `${sheet.label}: ${proof}; ${plan.sawCuts} cuts\n${table(
        [
          { title: 'bars', right: true },
          { title: 'of', right: true },
          { title: '' },
          { title: 'cut into', wrap: true },
          { title: 'left', right: true },
        ],
        plan.bars.map((bar) => [
          String(bar.bars),
          shower(system)(sheet.stocks[bar.stock].length_m, 'length'),
          sheet.stocks[bar.stock].from === 'onHand' ? 'on hand' : '',
          bar.cuts
            .map(
              (c) =>
                `${c.count} × ${cut(sheet.pieces[c.piece].length_m)}${sheet.pieces[c.piece].onSite ? '*' : ''}`,
            )
            .join(', '),
          cut(bar.left_m),
        ]),
        columns,
      )}`;
    })
    .join('\n')
    .concat(
      `\n* cut on site, when its place is there to be measured\n${wholeStickWords(v, system).trim()}`.trimEnd(),
      '\n',
    );
}

/** How to cut it. */
export const cutsCommand = buildTable({
  name: 'cuts',
  about: 'the cutting plan of each pipe, with its proof or its gap',
  csv: cutsCsv,
  text: cutsText,
});

import { type BuildAnswer, build } from '@sunlap/workbench/build/build';
import { cutsCsv } from '@sunlap/workbench/build/tables-csv';
import { BUILD_OPTIONS, buildOptionsOf } from '../build-options';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { loadProject } from '../load';
import { exitFor } from '../notices';
import { writeOut } from '../output';
import { reportAnswer } from '../report-answer';
import { type Show, shower, systemOf } from '../show';
import { table } from '../table';

/** The cutting plans as people read them. */
export function cutsText(answer: BuildAnswer, show: Show): string {
  const v = answer.result;
  const cut = (m: number): string => show(m, m < 1 ? 'diameter' : 'length');
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
          { title: 'cut into' },
          { title: 'left', right: true },
        ],
        plan.bars.map((bar) => [
          String(bar.bars),
          show(sheet.stocks[bar.stock].length_m, 'length'),
          sheet.stocks[bar.stock].from === 'onHand' ? 'on hand' : '',
          bar.cuts
            .map(
              (c) =>
                `${c.count} × ${cut(sheet.pieces[c.piece].length_m)}${sheet.pieces[c.piece].onSite ? '*' : ''}`,
            )
            .join(', '),
          cut(bar.left_m),
        ]),
      )}`;
    })
    .join('\n')
    .concat('\n* cut on site, when its place is there to be measured\n');
}

/** How to cut it. */
export const cutsCommand: Command = {
  name: 'cuts',
  usage: 'cuts FILE [--csv] [--out FILE] [--json]',
  about: 'the cutting plan of each pipe, with its proof or its gap',
  options: {
    ...BUILD_OPTIONS,
    csv: { about: 'as CSV' },
    out: { value: 'FILE', about: 'write the CSV there' },
    ...OUTPUT_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const project = await loadProject(io, args.words[0]);
    const answer = build(project, await buildOptionsOf(args));
    if (args.on('csv')) {
      await writeOut(io, args, cutsCsv(answer.result));
      return exitFor(answer.notices, true);
    }
    return reportAnswer(
      answer,
      args,
      io,
      () => `${project.name}\n\n${cutsText(answer, shower(systemOf(args, project.units)))}`,
    );
  },
};

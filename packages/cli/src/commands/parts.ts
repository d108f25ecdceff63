import { type BuildAnswer, build } from '@sunlap/workbench/build/build';
import { partsCsv } from '@sunlap/workbench/build/tables-csv';
import { BUILD_OPTIONS, buildOptionsOf } from '../build-options';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { loadProject } from '../load';
import { exitFor } from '../notices';
import { writeOut } from '../output';
import { reportAnswer } from '../report-answer';
import { type Show, shower, systemOf } from '../show';
import { answers, table } from '../table';

/** The shop list as people read it. */
export function partsText(answer: BuildAnswer, show: Show): string {
  const v = answer.result;
  return [
    table(
      [
        { title: '' },
        { title: 'what' },
        { title: 'needed', right: true },
        { title: 'spare', right: true },
        { title: 'on hand', right: true },
        { title: 'buy', right: true },
        { title: 'packs' },
        { title: v.currency, right: true },
        { title: 'price' },
      ],
      v.shop.map((l) => [
        l.group,
        l.label,
        String(l.needed),
        l.spares ? String(l.spares) : '',
        l.onHand ? String(l.onHand) : '',
        `${l.toBuy} ${l.unit}`,
        l.packs.some((p) => p.holds > 1) ? l.packs.map((p) => `${p.count} × ${p.holds}`).join(' + ') : '',
        l.price === null ? 'no price' : l.price.toFixed(2),
        l.priceFrom === 'none' ? '' : l.priceFrom,
      ]),
    ),
    answers([
      [
        'in all',
        `${v.shopTotal.price.toFixed(2)} ${v.currency}`,
        `${v.shopTotal.demo} lines at demo prices, ${v.shopTotal.unpriced} without a price`,
      ],
      ['pipe', show(v.counts.pipe_m, 'length')],
      ['cuts', String(v.counts.sawCuts)],
      ['glued joints', String(v.counts.gluedJoints)],
      ['clamped or threaded joints', String(v.counts.dryJoints)],
      ['weighs, filled', show(v.supports.filled_kg, 'mass')],
    ]),
  ].join('\n');
}

/** What to buy. */
export const partsCommand: Command = {
  name: 'parts',
  usage: 'parts FILE [--csv] [--out FILE] [--json]',
  about: 'every part in shop order, with packs, spares and prices',
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
      await writeOut(io, args, partsCsv(answer.result));
      return exitFor(answer.notices, true);
    }
    return reportAnswer(
      answer,
      args,
      io,
      () => `${project.name}\n\n${partsText(answer, shower(systemOf(args, project.units)))}`,
    );
  },
};

import { reportAnswer } from '@sunlap/workbench/build/report';
import { version } from '../../package.json';
import { BUILD_OPTIONS, buildOptionsOf } from '../build-options';
import type { Command } from '../command';
import { dateOf } from '../dates';
import { loadProject } from '../load';
import { reportFile } from '../report-answer';
import { systemOf } from '../show';
import { YEAR_OPTIONS, yearOf } from '../year';

/** Everything on paper. */
export const reportCommand: Command = {
  name: 'report',
  usage: 'report FILE --out report.html [--date 2026-04-12]',
  about: 'one HTML file that prints: drawings, parts, cuts, order of work, cards, cautions',
  options: {
    out: { value: 'FILE', about: 'write it there instead of to the terminal' },
    date: { value: '2026-04-12', about: 'day of the report and of the expected figures; today when absent' },
    units: { value: 'us|metric', about: 'units of the report; those of the file when absent' },
    ...YEAR_OPTIONS,
    ...BUILD_OPTIONS,
  },
  words: [1, 1],
  async run(args, io) {
    const asked = args.text('date');
    if (asked !== undefined) dateOf(asked, 'date');
    const project = await loadProject(io, args.words[0]);
    const date = asked ?? io.today(project.site.timeZone);
    const units = systemOf(args, project.units);
    const given = { ...project, units };
    const answer = reportAnswer(given, {
      date,
      version,
      build: await buildOptionsOf(args, units),
      ...(await yearOf(args, io, given)),
    });
    return reportFile(answer.result, answer, args, io);
  },
};

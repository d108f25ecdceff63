import { check } from '@sunlap/workbench/check/check';
import { type Command, OUTPUT_OPTIONS } from '../command';
import { loadProject } from '../load';
import { reportAnswer } from '../report-answer';

/** Everything that the file says and does not fit together. */
export const checkCommand: Command = {
  name: 'check',
  usage: 'check FILE [--json]',
  about: 'does the design fit together, fill, drain and stay within its limits',
  options: OUTPUT_OPTIONS,
  words: [1, 1],
  async run(args, io) {
    const project = await loadProject(io, args.words[0]);
    return reportAnswer(check(project), args, io, () => `${project.name}\n`);
  },
};

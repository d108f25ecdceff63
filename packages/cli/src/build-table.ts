import type { UnitSystem } from '@sunlap/project/units/kinds';
import { type BuildAnswer, type BuildValues, build } from '@sunlap/workbench/build/build';
import { BUILD_OPTIONS, buildOptionsOf } from './build-options';
import { type Command, OUTPUT_OPTIONS } from './command';
import { WrongInput } from './io';
import { loadProject } from './load';
import { columnsOf, reportAnswer, reportFile } from './report-answer';
import { systemOf } from './show';
import { YEAR_OPTIONS, yearOf } from './year';

/** A command that builds and prints one table of it, as text, CSV or JSON. */
export function buildTable(table: {
  name: string;
  about: string;
  csv: (values: BuildValues) => string;
  text: (answer: BuildAnswer, system: UnitSystem, columns: number) => string;
  /** True where what it prints rests on a year. */
  money?: boolean;
}): Command {
  return {
    name: table.name,
    usage: `${table.name} FILE [--csv] [--out FILE] [--json]`,
    about: table.about,
    options: {
      ...BUILD_OPTIONS,
      csv: { about: 'as CSV' },
      ...(table.money ? YEAR_OPTIONS : {}),
      ...OUTPUT_OPTIONS,
    },
    words: [1, 1],
    async run(args, io) {
      if (args.on('csv') && args.on('json')) throw new WrongInput('both --csv and --json; expected one');
      const project = await loadProject(io, args.words[0]);
      const system = systemOf(args, project.units);
      const given = { ...project, units: system };
      const studies = table.money && !args.on('csv') ? await yearOf(args, io, given) : {};
      const answer = build(given, await buildOptionsOf(args, system), studies);
      if (args.on('csv')) {
        return reportFile(table.csv(answer.result), answer, args, io);
      }
      return reportAnswer(
        answer,
        args,
        io,
        () => `${project.name}\n\n${table.text(answer, system, columnsOf(io))}`,
      );
    },
  };
}

import { nearest } from '@sunlap/project/file/explain';
import { readArguments } from './args';
import type { Command } from './command';
import { aheadCommand } from './commands/ahead';
import { checkCommand } from './commands/check';
import { cutsCommand } from './commands/cuts';
import { drawCommand } from './commands/draw';
import { flowCommand } from './commands/flow';
import { heatCommand } from './commands/heat';
import { initCommand } from './commands/init';
import { partsCommand } from './commands/parts';
import { reportCommand } from './commands/report';
import { seasonCommand } from './commands/season';
import { sunCommand } from './commands/sun';
import { testDayCommand } from './commands/testday';
import { unitsCommand } from './commands/units';
import { weatherCommand } from './commands/weather';
import { EXIT, type Io, WrongInput } from './io';
import { letReadersLeave, nodeIo } from './node-io';
import { lookAtOutput } from './output';
import { columnsOf } from './report-answer';
import { wrap } from './table';

const COMMANDS: readonly Command[] = [
  aheadCommand,
  checkCommand,
  cutsCommand,
  drawCommand,
  flowCommand,
  heatCommand,
  initCommand,
  partsCommand,
  reportCommand,
  seasonCommand,
  sunCommand,
  testDayCommand,
  unitsCommand,
  weatherCommand,
];

function help(columns: number): string {
  const names = Math.max(...COMMANDS.map((command) => command.name.length));
  return [
    'sunlap: water and heat through a solar pool heater made of pipe',
    '',
    ...COMMANDS.map((command) => entry(`sunlap ${command.name}`, names + 7, command.about, columns)),
    '',
    'sunlap COMMAND --help says what a command takes.',
    wrap(
      'Exit of every command: 0 fine, 1 notices of safety or damage, 2 file or arguments wrong, 3 a solver did not converge. CSV, SVG, DXF and HTML have no room for notices: they go to standard error.',
      columns,
    ),
    '',
  ].join('\n');
}

/** A name and what it is about, in as many lines as the width asks for. */
function entry(name: string, names: number, about: string, columns: number): string {
  const lines = wrap(about, Math.max(30, columns - names - 4)).split('\n');
  return lines.map((line, i) => `  ${(i === 0 ? name : '').padEnd(names)}  ${line}`).join('\n');
}

function commandHelp(command: Command, columns: number): string {
  const rows = Object.entries(command.options).map(([name, option]): [string, string] => [
    `--${name}${option.value ? ` ${option.value}` : ''}`,
    option.about,
  ]);
  const names = Math.max(0, ...rows.map(([name]) => name.length));
  return [
    `sunlap ${command.usage}`,
    wrap(command.about, columns),
    '',
    ...rows.map(([name, about]) => entry(name, names, about, columns)),
    '',
  ].join('\n');
}

/**
 * Runs one command line.
 *
 * @param argv words after the program's name
 * @returns exit code
 */
export async function main(argv: readonly string[], io: Io = nodeIo): Promise<number> {
  if (io === nodeIo) letReadersLeave([process.stdout, process.stderr]);
  const [name, ...rest] = argv;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    io.out(help(columnsOf(io)));
    return name === undefined ? EXIT.wrong : EXIT.fine;
  }
  const command = COMMANDS.find((candidate) => candidate.name === name);
  try {
    if (command === undefined) {
      const names = COMMANDS.map((c) => c.name);
      const near = nearest(name, names);
      throw new WrongInput(
        `there is no command ${name}; ${near ? `did you mean ${near}? ` : ''}expected one of ${names.join(', ')}`,
      );
    }
    if (rest.includes('--help') || rest.includes('-h')) {
      io.out(commandHelp(command, columnsOf(io)));
      return EXIT.fine;
    }
    const [least, most] = command.words;
    const args = readArguments(rest, command.options, { least, most, usage: `sunlap ${command.usage}` });
    if (command.options.out?.value === 'FILE') await lookAtOutput(io, args);
    return await command.run(args, io);
  } catch (error) {
    if (!(error instanceof WrongInput)) throw error;
    io.err(`sunlap: ${error.message}\n`);
    return EXIT.wrong;
  }
}

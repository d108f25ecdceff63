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

function help(): string {
  const names = Math.max(...COMMANDS.map((command) => command.name.length));
  return [
    'sunlap: water and heat through a solar pool heater made of pipe',
    '',
    ...COMMANDS.map((command) => `  sunlap ${command.name.padEnd(names)}  ${command.about}`),
    '',
    'sunlap COMMAND --help says what a command takes.',
    'Exit of every command: 0 fine, 1 notices of safety or damage, 2 file or arguments wrong,',
    '3 a solver did not converge. CSV, SVG, DXF and HTML have no room for notices: they go to standard error.',
    '',
  ].join('\n');
}

function commandHelp(command: Command): string {
  const rows = Object.entries(command.options).map(([name, option]): [string, string] => [
    `--${name}${option.value ? ` ${option.value}` : ''}`,
    option.about,
  ]);
  const names = Math.max(0, ...rows.map(([name]) => name.length));
  return [
    `sunlap ${command.usage}`,
    command.about,
    '',
    ...rows.map(([name, about]) => `  ${name.padEnd(names)}  ${about}`),
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
    io.out(help());
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
      io.out(commandHelp(command));
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

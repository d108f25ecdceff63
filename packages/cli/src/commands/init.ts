import { writeProject } from '@sunlap/project/file/write';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import type { QuantityKind } from '@sunlap/project/units/kinds';
import type { Command } from '../command';
import { EXIT, WrongInput } from '../io';
import { quantityOf } from '../show';

function countOf(text: string | undefined, name: string, most: number): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > most) {
    throw new WrongInput(`--${name} ${text}: expected a whole number from 1 to ${most}`);
  }
  return value;
}

/** Writes a project to begin with. */
export const initCommand: Command = {
  name: 'init',
  usage: 'init FILE [--tubes N --length "20 ft" --passes N …]',
  about: 'write a project to begin with; every answer may be left out',
  options: {
    units: { value: 'us|metric', about: 'units of the file; us when absent' },
    name: { value: 'TEXT', about: 'name of the project' },
    latitude: { value: 'DEGREES', about: 'north positive, e.g. 35.1 or -34.9' },
    longitude: { value: 'DEGREES', about: 'east positive' },
    elevation: { value: '"5200 ft"', about: 'of the yard over the sea' },
    zone: { value: 'America/Denver', about: 'IANA time zone' },
    'pool-length': { value: '"30 ft"', about: 'of the water' },
    'pool-width': { value: '"15 ft"', about: 'of the water' },
    'pool-depth': { value: '"5 ft"', about: 'mean depth' },
    pump: { value: 'ROW', about: 'row of the pump shelf, e.g. single-1hp' },
    pipe: { value: 'ROW', about: 'pipe of the tubes, e.g. pvc-sch40-1/2' },
    'pool-pipe': { value: 'ROW', about: 'pipe of the pool’s own loop; 2 in or 63 mm when absent' },
    headers: { value: 'ROW', about: 'pipe of the headers' },
    tubes: { value: 'N', about: 'tubes in each pass' },
    length: { value: '"20 ft"', about: 'of each tube' },
    passes: { value: 'N', about: 'passes one after another' },
    lift: { value: '"1 ft"', about: 'height of the lowest tube over the water' },
  },
  words: [1, 1],
  async run(args, io) {
    const units = args.text('units') ?? 'us';
    if (units !== 'us' && units !== 'metric') throw new WrongInput(`--units ${units}: expected us or metric`);
    const read = (name: string, kind: QuantityKind) => quantityOf(args, name, kind, units);
    const degrees = (name: string, most: number): number | undefined => {
      const text = args.text(name);
      if (text === undefined) return undefined;
      const value = Number(text);
      if (text.trim() === '' || !(Math.abs(value) <= most)) {
        throw new WrongInput(`--${name} ${text}: expected degrees from -${most} to ${most}`);
      }
      return value;
    };
    const usual = usualAnswers(units, degrees('latitude', 90));
    const zone = args.text('zone') ?? usual.timeZone;
    try {
      new Intl.DateTimeFormat('en', { timeZone: zone });
    } catch {
      throw new WrongInput(`--zone ${zone}: expected an IANA time zone such as America/Denver`);
    }
    const project = startProject({
      ...usual,
      name: args.text('name') ?? usual.name,
      longitude_deg: degrees('longitude', 180) ?? usual.longitude_deg,
      elevation_m: read('elevation', 'length') ?? usual.elevation_m,
      timeZone: zone,
      poolLength_m: read('pool-length', 'length') ?? usual.poolLength_m,
      poolWidth_m: read('pool-width', 'length') ?? usual.poolWidth_m,
      poolDepth_m: read('pool-depth', 'length') ?? usual.poolDepth_m,
      pumpShelf: args.text('pump') ?? usual.pumpShelf,
      tubePipe: args.text('pipe') ?? usual.tubePipe,
      loopPipe: args.text('pool-pipe') ?? usual.loopPipe,
      headerPipe: args.text('headers') ?? usual.headerPipe,
      tubes: countOf(args.text('tubes'), 'tubes', 200) ?? usual.tubes,
      passes: countOf(args.text('passes'), 'passes', 12) ?? usual.passes,
      tubeLength_m: read('length', 'length') ?? usual.tubeLength_m,
      lift_m: read('lift', 'length') ?? usual.lift_m,
    });
    const path = args.words[0];
    const refused = await io.writeNew(path, writeProject(project));
    if (refused) throw new WrongInput(`${path}: ${refused.reason}; expected the name of a new file`);
    io.out(`Wrote ${path}. Look at it with:  sunlap flow ${path}\n`);
    return EXIT.fine;
  },
};

import { writeProject } from '@sunlap/project/file/write';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { knowsTimeZone } from '@sunlap/workbench/heat/local-time';
import type { Command } from '../command';
import { degreesOf, lengthWithin, refuseUnreadable, rowOf } from '../init-checks';
import { EXIT, WrongInput } from '../io';
import { zoneOf } from '../zone';

const LONGEST_NAME = 200;

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
    latitude: { value: 'DEGREES', about: 'north positive, e.g. 35.1 or -34.9, or 34.9S' },
    longitude: { value: 'DEGREES', about: 'east positive, or 98W' },
    elevation: { value: '"5200 ft"', about: 'of the yard over the sea' },
    zone: { value: 'America/Denver', about: 'IANA time zone; guessed from the place when absent' },
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
    const name = args.text('name')?.trim();
    if (name !== undefined && !(name.length >= 1 && name.length <= LONGEST_NAME))
      throw new WrongInput(
        `--name “${name.slice(0, 40)}”: expected a name of 1 to ${LONGEST_NAME} characters`,
      );
    const length = (option: string) => lengthWithin(args, option, units);
    const latitude_deg = degreesOf(args, 'latitude', 90, 'NS');
    const longitude_deg = degreesOf(args, 'longitude', 180, 'EW');
    const usual = usualAnswers(units, latitude_deg);
    const asked = args.text('zone');
    if (asked !== undefined && !knowsTimeZone(asked))
      throw new WrongInput(`--zone ${asked}: expected an IANA time zone such as America/Denver`);
    // a place of one's own is not in the zone of the usual one
    const guessed =
      asked === undefined && (latitude_deg !== undefined || longitude_deg !== undefined)
        ? zoneOf(usual.latitude_deg, longitude_deg ?? usual.longitude_deg)
        : undefined;
    const project = startProject({
      ...usual,
      name: name ?? usual.name,
      longitude_deg: longitude_deg ?? usual.longitude_deg,
      elevation_m: length('elevation') ?? usual.elevation_m,
      timeZone: asked ?? guessed?.timeZone ?? usual.timeZone,
      poolLength_m: length('pool-length') ?? usual.poolLength_m,
      poolWidth_m: length('pool-width') ?? usual.poolWidth_m,
      poolDepth_m: length('pool-depth') ?? usual.poolDepth_m,
      pumpShelf: rowOf(args, 'pump', 'pump') ?? usual.pumpShelf,
      tubePipe: rowOf(args, 'pipe', 'pipe') ?? usual.tubePipe,
      loopPipe: rowOf(args, 'pool-pipe', 'pipe') ?? usual.loopPipe,
      headerPipe: rowOf(args, 'headers', 'pipe') ?? usual.headerPipe,
      tubes: countOf(args.text('tubes'), 'tubes', 200) ?? usual.tubes,
      passes: countOf(args.text('passes'), 'passes', 12) ?? usual.passes,
      tubeLength_m: length('length') ?? usual.tubeLength_m,
      lift_m: length('lift') ?? usual.lift_m,
    });
    const text = writeProject(project);
    refuseUnreadable(text);
    const path = args.words[0];
    const refused = await io.writeNew(path, text);
    if (refused) throw new WrongInput(`${path}: ${refused.reason}; expected the name of a new file`);
    if (guessed)
      io.err(
        `Time zone taken from the place: ${guessed.timeZone}, ${guessed.because}. Another one goes with --zone.\n`,
      );
    io.out(`Wrote ${path}. Look at it with:  sunlap flow ${path}\n`);
    return EXIT.fine;
  },
};

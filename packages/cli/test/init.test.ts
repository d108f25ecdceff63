import { describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { zoneOf } from '../src/zone';
import { world } from './world';

async function init(...argv: string[]) {
  const io = world({});
  const code = await main(['init', 'new.json', ...argv], io);
  const text = io.files.get('new.json');
  return { code, errors: io.errors, project: text === undefined ? null : JSON.parse(String(text)) };
}

describe('the time zone of a new file', () => {
  it('is that of the place, and is said', async () => {
    const sydney = await init('--units', 'metric', '--latitude', '-34', '--longitude', '151');
    expect(sydney.project.site.timeZone).toBe('Australia/Sydney');
    expect(sydney.errors).toMatch(/Australia\/Sydney, that of Sydney.* km away.*--zone/);
  });
  it('is whole hours by the longitude far from any known place', () => {
    expect(zoneOf(-10, -150).timeZone).toBe('Etc/GMT+10');
    expect(zoneOf(0, -30).timeZone).toBe('Etc/GMT+2');
    expect(zoneOf(-50, 75).timeZone).toBe('Etc/GMT-5');
    expect(zoneOf(-40, 1).timeZone).toBe('Etc/GMT');
  });
  it('is as given where it is given, and the usual one where no place is', async () => {
    const given = await init('--latitude', '-34', '--longitude', '151', '--zone', 'Asia/Tokyo');
    expect(given.project.site.timeZone).toBe('Asia/Tokyo');
    expect((await init()).project.site.timeZone).toBe('America/Chicago');
    expect((await init('--units', 'metric')).errors).toBe('');
  });
  it('takes degrees as people write them', async () => {
    const { site } = (await init('--latitude', '35.5S', '--longitude', '70° W')).project;
    expect([site.latitude_deg, site.longitude_deg]).toEqual([-35.5, -70]);
  });
});

describe('a file that no command could read is not written', () => {
  it.each([
    [['--pipe', 'nope'], '--pipe nope: no pipe is known so'],
    [['--headers', 'pvc-sch40-1-1/3'], 'did you mean pvc-sch40-1-1/'],
    [['--pool-pipe', 'copper'], '--pool-pipe copper'],
    [['--pump', 'single1hp'], 'did you mean single-1hp?'],
    [['--length', '-3ft'], '--length -3ft: expected from'],
    [['--length=-3ft'], '--length -3ft'],
    [['--pool-depth', '0'], '--pool-depth 0'],
    [['--pool-length', '1e9'], '--pool-length 1e9'],
    [['--name', ''], '--name'],
    [['--name', '  '], '--name'],
    [['--elevation', '50000ft'], '--elevation 50000ft: expected from'],
    [['--lift', '900 ft'], '--lift 900 ft'],
    [['--latitude', '95N'], '--latitude 95N: expected degrees'],
    [['--latitude', '-35N'], '--latitude -35N'],
    [['--longitude', '35N'], '--longitude 35N'],
  ])('%j', async (argv, message) => {
    const { code, errors, project } = await init(...argv);
    expect([code, project]).toEqual([2, null]);
    expect(errors).toContain(message);
  });
});

import { describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { example, world } from './world';

const quince = example('quince-yard');
const tern = example('tern-roof');
const AT = ['--at', '2026-04-12T11:00'];

/** The example with one place changed; without a value, taken away. */
function changed(path: string, value?: unknown): string {
  const keys = path.split('.');
  const file = JSON.parse(quince);
  let place = file;
  for (const key of keys.slice(0, -1)) place = place[key];
  const last = keys[keys.length - 1];
  if (value === undefined) delete place[last];
  else place[last] = value;
  return JSON.stringify(file);
}

async function run(
  argv: string[],
  files: Record<string, string | Uint8Array> = { 'q.json': quince, 't.json': tern },
) {
  const io = world(files);
  const code = await main(argv, io);
  return { code, text: io.text, errors: io.errors, files: io.files };
}

describe('help', () => {
  it('without a command says what there is, and exits 2', async () => {
    const { code, text } = await run([]);
    expect(code).toBe(2);
    for (const name of ['check', 'flow', 'heat', 'init', 'units']) expect(text).toContain(`sunlap ${name}`);
  });
  it.each(['check', 'flow', 'heat', 'init', 'units'])('of %s names its usage', async (name) => {
    const { code, text } = await run([name, '--help']);
    expect(code).toBe(0);
    expect(text).toContain(`sunlap ${name}`);
  });
});

describe('flow', () => {
  it('as JSON holds what the format promises', async () => {
    const { code, text } = await run(['flow', 'q.json', '--json']);
    const answer = JSON.parse(text);
    expect([0, 1]).toContain(code);
    const { result, solver, band, notices } = answer;
    expect(solver.converged).toBe(true);
    expect(solver).toHaveProperty('iterations');
    expect(solver).toHaveProperty('residual');
    expect(result.collectorFlow_m3s).toBeGreaterThan(0);
    expect(result.collectorFlow_m3s).toBeLessThanOrEqual(result.flow_m3s);
    expect(result.pump.head_m).toBeGreaterThan(0);
    expect(result.pump.power_W).toBeGreaterThan(0);
    expect(result.collector.headLoss_m).toBeGreaterThan(0);
    expect(result.lowestPressure.absolute_Pa).toBeGreaterThan(0);
    expect(result.lowestPressure.at).not.toBe('');
    expect(result.turnover_h).toBeGreaterThan(0);
    for (const key of ['leastFlowAllTubes_m3s', 'leastStartSpeed', 'leastRunSpeed']) {
      expect(result.start).toHaveProperty(key);
    }
    for (const bank of result.collector.banks) {
      expect(bank.leastOverMean).toBeLessThanOrEqual(1 + 1e-12);
      expect(bank.mostOverMean).toBeGreaterThanOrEqual(1 - 1e-12);
      expect(bank).toHaveProperty('headerNumber');
      const sum = bank.tubes.reduce((total: number, tube: { flow_m3s: number }) => total + tube.flow_m3s, 0);
      // Mass closes over the tubes of a bank; density differs from tube to tube by its temperature.
      expect(Math.abs(sum / bank.flow_m3s - 1)).toBeLessThan(1e-3);
      for (const tube of bank.tubes) {
        expect(['full', 'outfall', 'unfilled', 'airBound', 'blocked']).toContain(tube.state);
        expect(['clears', 'doubtful', 'holds']).toContain(tube.air);
        expect(tube.reynolds).toBeGreaterThanOrEqual(0);
      }
    }
    expect(Object.keys(band).length).toBeGreaterThan(0);
    for (const notice of notices) {
      expect(Object.keys(notice)).toEqual(expect.arrayContaining(['code', 'severity', 'path', 'message']));
    }
  });

  it('as text is aligned and speaks the file’s own units, or those asked for', async () => {
    const us = await run(['flow', 'q.json']);
    expect(us.text).toMatch(/through the pump +[\d.]+ gpm/);
    const metric = await run(['flow', 'q.json', '--units', 'metric']);
    expect(metric.text).toMatch(/through the pump +[\d.]+ L\/min/);
    const rules = us.text.split('\n').filter((line) => line.startsWith('──'));
    expect(rules.length).toBeGreaterThan(1);
  });

  it('names air as the person would, and exits 1 for what endangers', async () => {
    const shut = changed('loop.bypass', {
      kind: 'twoValves',
      toCollector: {
        kind: 'valve',
        id: 'up',
        role: 'toCollector',
        type: 'ball',
        pipe: 'pvc-sch40-1-1/2',
        opening: 0,
      },
      pastValve: {
        kind: 'valve',
        id: 'past',
        role: 'past',
        type: 'ball',
        pipe: 'pvc-sch40-1-1/2',
        opening: 0,
      },
      past: [],
    });
    const { code, text } = await run(['flow', 'q.json'], { 'q.json': shut });
    expect(code).toBe(1);
    expect(text).toMatch(/DAMAGE|SAFETY/);
  });
});

describe('heat', () => {
  it('as JSON holds what the format promises', async () => {
    const { text } = await run(['heat', 't.json', ...AT, '--json']);
    const answer = JSON.parse(text);
    for (const key of [
      'heat_W',
      'inlet_C',
      'outlet_C',
      'efficiency',
      'planeIrradiance_Wm2',
      'dryStanding_C',
      'firstSlug',
    ]) {
      expect(answer.result).toHaveProperty(key);
    }
    expect(answer.resistances.wall_mKW).toBeGreaterThan(0);
    for (const bank of answer.result.banks) {
      for (const tube of bank.tubes) expect(Number.isFinite(tube.outlet_C)).toBe(true);
    }
    expect(answer.band.heat_W.low).toBeLessThan(answer.result.heat_W);
    expect(answer.band.heat_W.high).toBeGreaterThan(answer.result.heat_W);
  });
  it('takes what is known in the units people write', async () => {
    const { text } = await run([
      'heat',
      'q.json',
      ...AT,
      '--water',
      '26 C',
      '--air',
      '80F',
      '--dew',
      '50F',
      '--wind',
      '3 m/s',
      '--sky',
      '700',
      '--json',
    ]);
    const { moment } = JSON.parse(text).result;
    expect(moment.water_C).toBe(26);
    expect(moment.air_C).toBeCloseTo(26.6667, 4);
    expect(moment.wind_ms).toBe(3);
    expect(moment.global_Wm2).toBeCloseTo(700, 6);
    expect(moment.assumed).not.toContain('water');
  });
});

describe('init', () => {
  it('writes a file that the other commands read, and never replaces one', async () => {
    const io = world({});
    expect(await main(['init', 'new.json', '--tubes', '16', '--length', '24 ft', '--passes', '3'], io)).toBe(
      0,
    );
    const project = JSON.parse(String(io.files.get('new.json')));
    expect(project.collector.sections[0].banks).toHaveLength(3);
    expect(project.collector.sections[0].banks[0].count).toBe(16);
    expect(project.collector.sections[0].banks[0].length_m).toBeCloseTo(7.3152, 9);
    expect([0, 1]).toContain(await main(['flow', 'new.json'], io));
    expect(await main(['init', 'new.json'], io)).toBe(2);
    expect(io.errors).toMatch(/a file of that name already/);
  });
  it('takes a latitude of the southern half as it is written', async () => {
    const io = world({});
    expect(await main(['init', 'south.json', '--latitude', '-33.9', '--longitude', '-70'], io)).toBe(0);
    const { site, collector } = JSON.parse(String(io.files.get('south.json')));
    expect([site.latitude_deg, site.longitude_deg]).toEqual([-33.9, -70]);
    expect(collector.placement.facing_deg).toBe(0);
  });
  it('begins with a pool pipe in which the usual pump does no damage', async () => {
    for (const units of ['us', 'metric']) {
      const io = world({});
      await main(['init', 'new.json', '--units', units], io);
      await main(['check', 'new.json', '--json'], io);
      const { notices } = JSON.parse(io.text.slice(io.text.indexOf('{')));
      expect(notices.filter((n: { path: string }) => n.path.startsWith('/loop/suctions/0/path'))).toEqual([]);
    }
  });
});

describe('units', () => {
  it('reads a text as people write it', async () => {
    const { code, text } = await run(['units', '42 ft 6 in', '--json', '--kind', 'length']);
    expect(code).toBe(0);
    expect(JSON.parse(text).result[0].value).toBeCloseTo(12.954, 9);
  });
  it('says what it cannot read', async () => {
    const { code, errors } = await run(['units', 'fortnight', '--kind', 'flow']);
    expect(code).toBe(2);
    expect(errors).toMatch(/Expected something like/);
  });
});

describe('bad input exits 2, says where and what was expected, and leaves the file', () => {
  const cases: [string, string, RegExp][] = [
    [
      'wrong type',
      changed('pool.wish_C', 'warm'),
      /q\.json: \/pool\/wish_C \(line 1, column \d+\): found "warm"; expected a number/,
    ],
    ['missing part', changed('loop.pump'), /\/loop\/pump.*expected an object/],
    ['unknown key', changed('pool.depht', 1), /unknown key "depht"/],
    ['negative length', changed('collector.sections.0.banks.0.length_m', -1), /length_m.*more than 0/],
    [
      'dangling pipe id',
      changed('collector.sections.0.banks.0.pipe', 'copper-9'),
      /\/collector\/sections\/0\/banks\/0\/pipe.*copper-9/,
    ],
    [
      'rising pump curve',
      changed('loop.pump.curve.points.2.head_m', 40),
      /\/loop\/pump\/curve\/points\/\d.*must fall with flow/,
    ],
    ['empty file', '', /the file is empty/],
    ['newer version', changed('schemaVersion', 2), /newer program/],
    ['prototype keys', quince.replace('{', '{ "__proto__": {}, '), /unknown key "__proto__"/],
  ];
  it.each(cases)('%s', async (_, text, message) => {
    for (const command of [
      ['check', 'q.json'],
      ['flow', 'q.json'],
      ['heat', 'q.json', ...AT],
    ]) {
      const { code, errors, text: out, files } = await run(command, { 'q.json': text });
      expect(code).toBe(2);
      expect(errors).toMatch(message);
      expect(out).toBe('');
      expect(files.get('q.json')).toBe(text);
    }
  });
  it('50 MB of garbage is refused unread', async () => {
    const io = world({ 'q.json': '' });
    io.size = async () => 50e6;
    io.read = async () => {
      throw new Error('must not be read');
    };
    expect(await main(['flow', 'q.json'], io)).toBe(2);
    expect(io.errors).toMatch(/50 MB/);
  });
  it('bytes that are no text', async () => {
    const { code, errors } = await run(['flow', 'q.json'], { 'q.json': new Uint8Array([0xff, 0xfe, 0xfd]) });
    expect(code).toBe(2);
    expect(errors).toMatch(/not text in UTF-8/);
  });
  const wrongArguments: [string[], RegExp][] = [
    [['flow'], /expected: sunlap flow FILE/],
    [['flow', 'nowhere.json'], /nowhere\.json: there is no such file/],
    [['flow', 'q.json', '--speed', '3'], /--speed/],
    [['flow', 'q.json', '--units', 'roman'], /expected us or metric/],
    [['heat', 'q.json'], /--at is missing/],
    [['heat', 'q.json', '--at', 'noon'], /expected a local time/],
    [['heat', 'q.json', ...AT, '--water', 'warmish'], /--water warmish/],
    [['heat', 'q.json', ...AT, '--water', '300F'], /--water 300F: expected from/],
    [
      ['heat', 'q.json', ...AT, '--sky', 'purple'],
      /expected clear, hazy, thin cloud, half cloud, overcast, or W\/m²/,
    ],
    [['init', 'x.json', '--tubes', '0'], /--tubes 0/],
    [['init', 'x.json', '--zone', 'Mars/Base'], /IANA time zone/],
    [['melt', 'q.json'], /there is no command melt/],
  ];
  it.each(wrongArguments)('%j', async (argv, message) => {
    const { code, errors } = await run(argv);
    expect(code).toBe(2);
    expect(errors).toMatch(message);
  });
});

import { describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { progressBar } from '../src/progress';
import { shrink, textPlot } from '../src/text-plot';
import { example, world } from './world';

const quince = example('quince-yard');

async function run(argv: string[], files: Record<string, string | Uint8Array> = { 'q.json': quince }) {
  const io = world(files);
  const code = await main(argv, io);
  return { code, text: io.text, errors: io.errors, files: io.files };
}

describe('season', () => {
  it('as JSON has twelve months, the year, bands and how it closes', async () => {
    const { code, text } = await run(['season', 'q.json', '--json', '--quick']);
    expect([0, 1]).toContain(code);
    const { result, solver, notices } = JSON.parse(text);
    expect(result.months).toHaveLength(12);
    for (const m of result.months)
      for (const key of ['pool_C', 'heat', 'runHours', 'heat_kWh', 'swimDays']) expect(m[key]).toBeDefined();
    expect(result.balance.residual).toBeLessThan(1e-6);
    expect(solver.converged).toBe(true);
    expect(notices).toBeInstanceOf(Array);
  });

  it('draws and lists the days asked for', async () => {
    const svg = await run([
      'season',
      'q.json',
      '--svg',
      '--out',
      'y.svg',
      '--from',
      '05-01',
      '--to',
      '05-31',
    ]);
    const drawn = String(svg.files.get('y.svg'));
    expect(drawn.startsWith('<svg')).toBe(true);
    expect(drawn).not.toContain('NaN');
    const csv = await run(['season', 'q.json', '--csv', '--from', '05-01', '--to', '05-31']);
    expect(csv.text.split('\n').filter((line) => /^\d{4}-05-\d\d,/.test(line))).toHaveLength(31);
    expect(csv.text.split('\n').filter((line) => /^\d+,/.test(line))).toEqual([
      expect.stringMatching(/^5,31,/),
    ]);
  });

  it('sums only the days asked for, in the order in which they come', async () => {
    const args = ['season', 'q.json', '--quick', '--from', '12-30', '--to', '01-02'];
    const { result } = JSON.parse((await run([...args, '--json'])).text);
    expect(result.span.daily.date.map((d: string) => d.slice(5))).toEqual([
      '12-30',
      '12-31',
      '01-01',
      '01-02',
    ]);
    expect(result.span.months.map((m: { month: number; days: number }) => [m.month, m.days])).toEqual([
      [12, 2],
      [1, 2],
    ]);
    expect(result.months).toHaveLength(12);
    const { text } = await run(args);
    expect(text).toMatch(/Dec 30 to Jan 2 +4 days/);
    expect(text).toMatch(/\nDec 30–31 .*\nJan 1–2 /);
    expect(text).not.toMatch(/\n(Dec|Jan) {2,}|in a year/);
    const csv = await run(['season', 'q.json', '--csv', '--from', '12-30', '--to', '01-02']);
    expect(csv.text.split('\n').map((line) => line.split(',').slice(0, 2).join())).toEqual(
      expect.arrayContaining(['12,2', '1,2']),
    );
  });

  it('draws a single day, and speaks of it', async () => {
    const { text } = await run(['season', 'q.json', '--svg', '--from', '07-04', '--to', '07-04']);
    expect(text).toMatch(/From Jul 4 to Jul 4 the afternoon/);
    expect(text).toMatch(/>Jul 4</);
    expect(text.match(/<(polyline|polygon|path)/g)?.length).toBeGreaterThan(2);
  });

  it('has no column of hours that nobody looked at, and whole tens beside the plot', async () => {
    const { text } = await run(['season', 'q.json', '--quick']);
    expect(text).not.toContain('worth opening');
    const labels = [...text.matchAll(/^ *([\d.]+) °F │/gm)].map((m) => Number(m[1]));
    expect(labels.length).toBeGreaterThan(2);
    for (const label of labels) expect(label % 10).toBe(0);
  });

  it.each([
    [['--from', 'May'], 'a day of the year'],
    [['--csv', '--svg'], 'expected one'],
    [['--weather', 'none.epw'], 'no such file'],
    [['--weather', 'q.json'], 'expected'],
  ])('%j is refused with what was expected', async (more, expected) => {
    const { code, errors } = await run(['season', 'q.json', ...more]);
    expect(code).toBe(2);
    expect(errors).toContain(expected);
  });
});

describe('ahead', () => {
  const DAYS = ['--days', '84/66 sunny calm; 80/64 cloudy breezy', '--at', '2026-05-02T08:00'];

  it('says today’s hours and whether the wish is reached', async () => {
    const { code, text } = await run(['ahead', 'q.json', '--water', '74F', ...DAYS]);
    expect(code).toBe(0);
    expect(text).toMatch(/Today: open the valve at \d{1,2}(:\d\d| am)/);
    expect(text).toMatch(/The wish is (not )?reached/);
    expect(text).toContain('gains most');
  });

  it.each([
    [['--water', '74F', '--days', '84/66 suny'], 'at character 7'],
    [['--water', '74F'], '--days is missing'],
    [['--days', '84/66 sunny'], '--water is missing'],
    [['--water', '174F', '--days', '84/66 sunny'], 'between 0 and 45'],
    [['--water', '74F', '--days', '84/66 sunny', '--cover', 'maybe'], 'yes or no'],
  ])('%j is refused with what was expected', async (more, expected) => {
    const { code, errors } = await run(['ahead', 'q.json', ...more]);
    expect(code).toBe(2);
    expect(errors).toContain(expected);
  });
});

describe('a forecast in the wrong unit', () => {
  it('is answered, and asked about', async () => {
    const { code, text } = await run([
      ...['ahead', 'q.json', '--water', '74F', '--days', '29/18', '--at', '2026-06-02T08:00', '--json'],
    ]);
    expect(code).toBe(0);
    const codes = JSON.parse(text).notices.map((n: { code: string }) => n.code);
    expect(codes).toContain('forecast-far-from-climate');
  });
});

describe('sun', () => {
  it('gives the sun and what it reaches', async () => {
    const { code, text } = await run(['sun', 'q.json', '--at', '2026-04-12T15:00', '--json']);
    expect(code).toBe(0);
    const { result } = JSON.parse(text);
    expect(result.elevation_deg).toBeGreaterThan(40);
    expect(result.pool.sunlit).toBe(1);
  });
  it('tells a tree’s height from its shadow, by its own crown', async () => {
    const at = ['sun', 'q.json', '--at', '2026-04-12T15:00', '--json', '--shadow', '20 ft'];
    const pole = JSON.parse((await run(at)).text).result;
    const RAD = Math.PI / 180;
    expect(pole.treeHeight.height_m).toBeCloseTo(6.096 * Math.tan(pole.elevation_deg * RAD), 9);
    const tree = JSON.parse((await run([...at, '--tree', 'mulberry'])).text).result.treeHeight;
    expect(tree.height_m).toBeLessThan(pole.treeHeight.height_m - 0.3);
    expect((await run(at.filter((w) => w !== '--json'))).text).toMatch(
      /A shadow of 20 ft is thrown by .* high/,
    );
    const unknown = await run([...at, '--tree', 'oak']);
    expect(unknown.code).toBe(2);
    expect(unknown.errors).toContain('Mulberry');
  });
  it('wants a time', async () => {
    const { code, errors } = await run(['sun', 'q.json']);
    expect(code).toBe(2);
    expect(errors).toContain('--at');
  });
});

describe('weather', () => {
  it('refuses what is no weather file, with the place', async () => {
    const { code, errors } = await run(['weather', 'x.csv'], { 'x.csv': 'a,b\n1,2\n' });
    expect(code).toBe(2);
    expect(errors).toContain('expected');
  });
});

/** A year of hours as a weather station's table has them, of an invented place. */
function stationTable(): string {
  const rows = Array.from({ length: 8760 }, (_, i) => {
    const at = new Date(Date.UTC(2023, 0, 1, i)).toISOString();
    const hour = i % 24;
    const season = -Math.cos((2 * Math.PI * i) / 8760);
    const sun = Math.max(0, (650 + 250 * season) * Math.sin((Math.PI * (hour - 6)) / 12));
    const air = 60 + 20 * season + 10 * Math.sin((Math.PI * (hour - 9)) / 12);
    return `${at.slice(0, 10)} ${at.slice(11, 16)},${air.toFixed(1)},40,5,${Math.round(sun)}`;
  });
  return ['Time,Outdoor,RH %,Wind mph,Solar W/m2', ...rows, ''].join('\n');
}

describe('a plain table of weather', () => {
  const files = { 'q.json': quince, 'station.csv': stationTable() };
  it('is refused with the line that would have it read', async () => {
    const { code, errors } = await run(['weather', 'station.csv'], files);
    expect(code).toBe(2);
    expect(errors).toContain('columns 1 Time, 2 Outdoor');
    expect(errors).toContain('--columns "time=1, temp=2:°C, humidity=3:%');
  });
  it('is read by its columns, at a place that is said', async () => {
    const columns = 'guess, temp=2:F, lat=35.1, lon=-106.6, zone=-7, elevation=1600';
    const { code, text, errors } = await run(
      ['weather', 'station.csv', '--columns', columns, '--json'],
      files,
    );
    expect([code, errors]).toEqual([0, '']);
    const { result } = JSON.parse(text);
    expect([result.format, result.rows, result.utcOffset_h]).toEqual(['csv', 8760, -7]);
    expect(result.months[6].air_C).toBeGreaterThan(24);
    const nowhere = await run(['weather', 'station.csv', '--columns', 'guess'], files);
    expect(nowhere.errors).toContain('lat is missing');
  });
  it('makes a year at the project’s own place', async () => {
    const args = ['season', 'q.json', '--quick', '--json', '--weather', 'station.csv', '--columns'];
    const { code, text } = await run([...args, 'guess, temp=2:F'], files);
    expect([0, 1]).toContain(code);
    const { result, notices } = JSON.parse(text);
    expect(result.place).toBe('station.csv');
    expect(result.year.heat_kWh).toBeGreaterThan(100);
    const of = notices.map((n: { code: string }) => n.code);
    expect(of).not.toContain('weather-far');
    const south = JSON.parse((await run([...args, 'guess, temp=2:F, lat=-35'], files)).text);
    expect(south.notices.map((n: { code: string }) => n.code)).toContain('weather-other-hemisphere');
  });
  it('wants a file for its columns', async () => {
    const { code, errors } = await run(['parts', 'q.json', '--columns', 'guess']);
    expect(code).toBe(2);
    expect(errors).toContain('--columns without --weather');
  });
});

describe('small plots and progress', () => {
  it('puts values where the scale has them', () => {
    const text = textPlot([{ values: [0, 5, 10], sign: 'x' }], 3, (v) => v.toFixed(0));
    expect(text.split('\n').slice(0, 3)).toEqual(['10 │  x', ' 5 │ x', ' 0 │x']);
    expect(shrink([1, 3, 5, 7], 2)).toEqual([2, 6]);
    expect(textPlot([], 3, String)).toBe('');
  });
  it('shows a bar on a terminal only, and takes it away', () => {
    const terminal = Object.assign(world(), { columns: 80 });
    const bar = progressBar(terminal);
    for (const share of [0, 0.5, 1]) bar.show(share, 'the year');
    expect(terminal.errors).toContain('████');
    expect(terminal.errors).toContain(' 50 %  the year');
    bar.clear();
    expect(terminal.errors.endsWith('\r')).toBe(true);
    const file = world();
    const silent = progressBar(file);
    silent.show(0.5, 'the year');
    silent.clear();
    expect(file.errors).toBe('');
  });
});

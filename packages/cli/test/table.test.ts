import { describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { table } from '../src/table';
import { example, world } from './world';

const columns = [{ title: 'n', right: true }, { title: 'what', wrap: true }, { title: 'note' }];
const rows = [
  ['1', 'a tee of three quarters of an inch, for one thing', 'demo'],
  ['12', 'pipe', ''],
];

describe('a table', () => {
  it('is as wide as its cells where there is room', () => {
    expect(table(columns, rows).split('\n')).toHaveLength(5);
    expect(table(columns, rows, 200)).toBe(table(columns, rows));
  });
  it('breaks what can be broken to fit', () => {
    expect(table(columns, rows, 34)).toBe(
      [
        ' n  what                      note',
        '──  ────────────────────────  ────',
        ' 1  a tee of three quarters   demo',
        '      of an inch, for one',
        '      thing',
        '12  pipe',
        '',
      ].join('\n'),
    );
  });
  it('is no narrower than its other columns', () => {
    expect(table(columns, rows, 1).split('\n')[1]).toBe('──  ────────────  ────');
  });
});

describe('on the terminal', () => {
  const run = async (argv: string[], width?: number) => {
    const io = Object.assign(world({ 'q.json': example('quince-yard') }), { columns: width });
    await main(argv, io);
    return io.text;
  };
  const widest = (text: string): number => Math.max(...text.split('\n').map((l) => Array.from(l).length));
  it('parts and cuts fit, and cans stand under packs', async () => {
    const parts = await run(['parts', 'q.json', '--quick']);
    expect(widest(parts)).toBeLessThanOrEqual(100);
    expect(parts).toMatch(/cement +Solvent cement {2,}.*\d × (gallon|quart|pint|half pint)/);
    expect(widest(await run(['cuts', 'q.json']))).toBeLessThanOrEqual(100);
    expect(widest(await run(['cuts', 'q.json'], 80))).toBeLessThanOrEqual(80);
  });
  it('flow folds tubes alike, and gives every one when asked', async () => {
    const [folded, every] = [await run(['flow', 'q.json']), await run(['flow', 'q.json', '--tubes'])];
    expect(folded).toContain('--tubes gives a row to each');
    const tubes = (text: string): number =>
      text.split('\n').filter((l) => /^[A-Z]\d+ +\d+(–\d+)? /.test(l)).length;
    expect(tubes(every)).toBe(84);
    expect(tubes(folded)).toBeLessThan(20);
    // every tube is in one of the rows
    const count = [...folded.matchAll(/^[A-Z]\d+ +(\d+)(?:–(\d+))? /gm)].reduce(
      (sum, m) => sum + Number(m[2] ?? m[1]) - Number(m[1]) + 1,
      0,
    );
    expect(count).toBe(84);
  });
});

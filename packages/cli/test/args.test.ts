import { describe, expect, it } from 'vitest';
import { readArguments } from '../src/args';
import { main } from '../src/main';
import { example, world } from './world';

const OPTIONS = {
  water: { value: '74F', about: '' },
  latitude: { value: 'DEGREES', about: '' },
  json: { about: '' },
};
const WORDS = { least: 1, most: 1, usage: 'sunlap ahead FILE --water 74F [--json]' };
const read = (...argv: string[]) => readArguments(argv, OPTIONS, WORDS);

describe('arguments', () => {
  it('come in any order, with = or a blank, and may begin with a minus', () => {
    const a = read('--json', '--latitude', '-33.9', 'q.json', '--water=-5 C');
    expect([a.words, a.on('json'), a.text('latitude'), a.text('water')]).toEqual([
      ['q.json'],
      true,
      '-33.9',
      '-5 C',
    ]);
    expect(read('-5 C').words).toEqual(['-5 C']);
    expect(read('--', '--json').words).toEqual(['--json']);
  });
  it.each([
    [['q.json', '--watr', '3'], 'there is no option --watr; did you mean --water?\nexpected: sunlap ahead'],
    [['q.json', '-j'], 'there is no option -j'],
    [['q.json', '--json=yes'], '--json takes no value'],
    [['q.json', '--water'], '--water is given without its value; expected --water 74F'],
    [['q.json', '--water', '--json'], '--water is given without its value'],
    [['--json'], 'FILE is missing'],
    [['q.json', 'r.json'], '“r.json” is too much'],
    [['q.json', '--constructor'], 'there is no option --constructor'],
  ])('%j is refused in whole sentences', (argv, message) => {
    expect(() => read(...argv)).toThrow(message);
  });
});

describe('on the command line', () => {
  const run = async (argv: string[], files: Record<string, string> = {}) => {
    const io = world(files);
    return { code: await main(argv, io), text: io.text, errors: io.errors };
  };
  it('a quantity may begin with a minus', async () => {
    const { code, text } = await run(['units', '-5 C', '--kind', 'temperature', '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(text).result[0].value).toBe(-5);
  });
  it('help fits the terminal', async () => {
    for (const argv of [['help'], ['season', '--help'], ['ahead', '--help'], ['init', '--help']])
      for (const line of (await run(argv)).text.split('\n'))
        expect(line.length, line).toBeLessThanOrEqual(100);
  });
  it('a mistyped command gets the near one', async () => {
    expect((await run(['seasn', 'q.json'])).errors).toContain('did you mean season?');
  });
  it('names the word of a command that is missing', async () => {
    expect((await run(['flow'])).errors).toContain('FILE is missing');
    expect((await run(['draw', 'q.json'], { 'q.json': example('quince-yard') })).errors).toMatch(
      /header\S* is missing/,
    );
  });
});

import { EventEmitter } from 'node:events';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { main } from '../src/main';
import { letReadersLeave, nodeIo } from '../src/node-io';
import { example, world } from './world';

const quince = example('quince-yard');
const run = async (argv: string[], io = world({ 'q.json': quince })) => ({
  code: await main(argv, io),
  errors: io.errors,
  text: io.text,
});

describe('days that there are not', () => {
  it.each([
    [['heat', 'q.json', '--at', '2026-02-30T11:00'], 'February 2026 has 28 days'],
    [['sun', 'q.json', '--at', '2026-04-31T11:00'], 'April 2026 has 30 days'],
    [['sun', 'q.json', '--at', '2026-04-30T24:00'], 'hours go from 00:00'],
    [['sun', 'q.json', '--at', '0026-04-30T12:00'], 'years go from 1900'],
    [['report', 'q.json', '--date', '2026-02-31'], 'February 2026 has 28 days'],
    [['report', 'q.json', '--date', '2026-31-02'], 'there is no month 31'],
    [['season', 'q.json', '--from', '02-30'], 'February has 29 days'],
    [['season', 'q.json', '--to', '2026-11-31'], 'November 2026 has 30 days'],
    [['ahead', 'q.json', '--at', '2026-02-29T08:00', '--days', '84/66', '--water', '74F'], 'has 28 days'],
    [['heat', 'q.json', '--at', '2026-02-30'], 'expected a local time as'],
  ])('%j', async (argv, message) => {
    const { code, errors, text } = await run(argv);
    expect([code, text]).toEqual([2, '']);
    expect(errors).toContain(message);
  });
  it('nor is an hour that summer time skips', async () => {
    const { site } = JSON.parse(quince);
    site.timeZone = 'America/New_York';
    const files = { 'q.json': JSON.stringify({ ...JSON.parse(quince), site }) };
    const at = (time: string) => run(['sun', 'q.json', '--at', time, '--json'], world(files));
    const skipped = await at('2026-03-08T02:30');
    expect(skipped.code).toBe(2);
    expect(skipped.errors).toMatch(/no such time in America\/New_York.*2026-03-08T0[13]:30/);
    expect((await at('2026-03-08T03:30')).code).toBe(0);
    expect((await at('2026-11-01T01:30')).code).toBe(0);
  });
});

describe('today', () => {
  afterEach(() => vi.useRealTimers());
  it('is the day where the pool is', () => {
    vi.useFakeTimers({ now: Date.UTC(2026, 5, 12, 2) });
    expect(nodeIo.today('America/Denver')).toBe('2026-06-11');
    expect(nodeIo.today('Australia/Sydney')).toBe('2026-06-12');
    expect(nodeIo.today('Nowhere/Known')).toBe('2026-06-12');
  });
  it('is asked for with the zone of the site', async () => {
    const io = world({ 'q.json': quince });
    const zones: string[] = [];
    io.today = (zone) => {
      zones.push(zone);
      return '2026-06-11';
    };
    const { text } = await run(['ahead', 'q.json', '--water', '74F', '--days', '84/66 sunny', '--json'], io);
    expect(zones).toEqual([JSON.parse(quince).site.timeZone]);
    expect(JSON.parse(text).result.from).toBe('2026-06-11T08:00');
  });
});

describe('a reader that leaves', () => {
  it('ends nothing, and other faults are not hidden', () => {
    const stream = new EventEmitter();
    letReadersLeave([stream as unknown as NodeJS.WriteStream]);
    const fault = (code: string) => stream.emit('error', Object.assign(new Error(code), { code }));
    expect(() => fault('EPIPE')).not.toThrow();
    expect(() => fault('ENOSPC')).toThrow('ENOSPC');
  });
});

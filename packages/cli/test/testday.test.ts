import { describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { example, world } from './world';

const quince = example('quince-yard');

async function run(...argv: string[]) {
  const io = world({
    'q.json': quince,
    'none.json': JSON.stringify({ ...JSON.parse(quince), testDays: [] }),
  });
  const code = await main(['testday', ...argv], io);
  return { code, text: io.text, errors: io.errors };
}

describe('testday', () => {
  it('as JSON holds what a test day proves', async () => {
    const { code, text } = await run('q.json', '--day', '2026-05-23', '--json');
    expect(code).toBe(0);
    const { result, band, solver, notices } = JSON.parse(text);
    for (const key of [
      'flow_m3s',
      'rise_K',
      'heat_W',
      'expandedUncertainty_W',
      'coverageFactor',
      'expected_W',
      'normalisedError',
    ])
      expect(Number.isFinite(result[key]), key).toBe(true);
    expect(result.verdict).toBe('agrees');
    expect(result.contributions[0]).toMatchObject({ label: expect.any(String), share: expect.any(Number) });
    expect(result.advice.length).toBeGreaterThan(0);
    expect(result.tubes).toHaveLength(28);
    expect(band.expected_W.low).toBeLessThan(result.expected_W);
    expect(band.expected_W.high).toBeGreaterThan(result.expected_W);
    expect(solver.converged).toBe(true);
    expect(notices[0]).toHaveProperty('code');
  });

  it('as a table says verdict, doubts and what to do, in either system', async () => {
    const us = await run('q.json', '--day', '2025-05-17');
    expect(us.text).toContain('cannot tell');
    expect(us.text).toContain('class of the inlet thermometer');
    expect(us.text).toContain('less doubt in minutes: Hold both thermometers in one pail');
    expect(us.text).toContain('Btu/h');
    const metric = await run('q.json', '--day', '2025-05-17', '--units', 'metric');
    expect(metric.text).toMatch(/heat measured +[\d.]+ kW/);
  });

  it('refuses a day that is not there, naming those that are', async () => {
    const wrong = await run('q.json', '--day', 'never');
    expect(wrong.code).toBe(2);
    expect(wrong.errors).toContain('2025-05-17, 2026-04-25');
    const none = await run('none.json');
    expect(none.code).toBe(2);
    expect(none.errors).toContain('/testDays');
  });
});

import type { TestDay } from '@sunlap/project/schema/life';
import { describe, expect, it } from 'vitest';
import { judgeDay } from '../../src/testday/test-day';
import { project } from '../fixtures';

/** A day in order, from which each nonsense departs in one thing. */
const thermometer = { resolution_K: 0.05, limit_K: 0.3 };
const side = (values: number[]) => ({ thermometer, readings: values.map((value_C) => ({ value_C })) });
const good: TestDay = {
  id: 'd',
  at: '2026-05-10T12:30',
  meter: { first_m3: 10, last_m3: 10.6, between_s: 300, limit_m3: 0.0005 },
  inlet: { where: 'collectorInlet', ...side([26, 26.05, 26]) },
  outlet: { where: 'collectorOutlet', ...side([26.5, 26.55, 26.5]) },
  weather: { sky: 'clear', air_C: 24, humidity: 0.3, beaufort: 2 },
};
const p = project();
const judged = (change: Partial<TestDay>) => judgeDay(p, { ...good, ...change }, '/testDays/3');
const pail = (times_s: number[]) => ({
  meter: undefined,
  pail: { volume_m3: 0.02, volumeLimit_m3: 0.0004, reaction_s: 0.3, times_s },
});

interface Case {
  what: string;
  change: Partial<TestDay>;
  code: string;
  path: string;
  /** Is there a heat all the same? */
  heat: boolean;
}

const CASES: Case[] = [
  {
    what: 'a negative rise',
    change: { outlet: { where: 'collectorOutlet', ...side([24.5, 24.5, 24.55]) } },
    code: 'rise-negative',
    path: '/testDays/3/outlet/readings',
    heat: true,
  },
  {
    what: 'a return colder than the pool',
    change: { pool_C: 27.5 },
    code: 'return-colder-than-pool',
    path: '/testDays/3/outlet/readings',
    heat: true,
  },
  {
    what: 'one repeat',
    change: pail([12]),
    code: 'time-single',
    path: '/testDays/3/pail/times_s',
    heat: true,
  },
  {
    what: 'no time at all',
    change: pail([0]),
    code: 'time-impossible',
    path: '/testDays/3/pail/times_s/0',
    heat: false,
  },
  { what: 'no runs', change: pail([]), code: 'time-none', path: '/testDays/3/pail/times_s', heat: false },
  {
    what: 'thermometers a room apart',
    change: { inlet: { where: 'elsewhere', ...side([21, 21, 21]) } },
    code: 'place-elsewhere',
    path: '/testDays/3/inlet/where',
    heat: true,
  },
  {
    what: 'a day at night',
    change: { at: '2026-05-10T23:30' },
    code: 'day-night',
    path: '/testDays/3/at',
    heat: true,
  },
  {
    what: 'a meter that runs backwards',
    change: { meter: { first_m3: 11, last_m3: 10, between_s: 300, limit_m3: 0.001 } },
    code: 'meter-backwards',
    path: '/testDays/3/meter/last_m3',
    heat: false,
  },
  {
    what: '°F typed as °C',
    change: { outlet: { where: 'collectorOutlet', ...side([26.5, 131, 26.55]) } },
    code: 'temperature-impossible',
    path: '/testDays/3/outlet/readings/1',
    heat: true,
  },
  {
    what: 'air as hot as an oven',
    change: { weather: { sky: 'clear', air_C: 75 } },
    code: 'weather-impossible',
    path: '/testDays/3/weather/air_C',
    heat: true,
  },
  {
    what: 'gauges that show more than the pump can',
    change: { gauges: { pressureIn_Pa: 4e5, pressureOut_Pa: 3e5, vacuumIn_Pa: 2e4, limit_Pa: 3000 } },
    code: 'gauges-above-curve',
    path: '/testDays/3/gauges/pressureIn_Pa',
    heat: true,
  },
  {
    what: 'an outlet that is not there',
    change: { pail: { ...pail([7, 7.1, 6.9]).pail, outlet: 'nowhere' } },
    code: 'pail-outlet-unknown',
    path: '/testDays/3/pail/outlet',
    heat: true,
  },
  {
    what: 'nothing at all',
    change: { meter: undefined, inlet: undefined, outlet: undefined, weather: undefined },
    code: 'rise-missing',
    path: '/testDays/3',
    heat: false,
  },
  {
    what: 'only flow',
    change: { inlet: undefined, outlet: undefined },
    code: 'rise-missing',
    path: '/testDays/3',
    heat: false,
  },
  {
    what: 'only temperatures',
    change: { meter: undefined },
    code: 'flow-missing',
    path: '/testDays/3',
    heat: false,
  },
  {
    what: 'no waiting',
    change: { steadyFor_s: 30 },
    code: 'not-steady',
    path: '/testDays/3/steadyFor_s',
    heat: true,
  },
  {
    what: 'no word of the sky',
    change: { weather: { air_C: 24 } },
    code: 'sky-missing',
    path: '/testDays/3/weather/sky',
    heat: true,
  },
];

describe('nonsense readings', () => {
  it('are nothing that the good day has', () => {
    const { result, notices } = judged({});
    expect(result.verdict).not.toBeNull();
    const codes = new Set(CASES.map((c) => c.code));
    expect(notices.filter((n) => codes.has(n.code))).toEqual([]);
  });

  it.each(CASES)('$what is answered with sense', ({ change, code, path, heat }) => {
    const { result, notices, solver } = judged(change);
    expect(notices.map((n) => `${n.code} ${n.path}`)).toContain(`${code} ${path}`);
    expect(solver.converged).toBe(true);
    expect(result.heat_W !== null).toBe(heat);
    expect(result.verdict !== null).toBe(heat);
    for (const n of notices) expect(n.message.length).toBeGreaterThan(10);
    // nothing that a file or a face would choke on
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  it('a stopped pump expects nothing and breaks nothing', () => {
    const { result } = judged({ pumpSpeed: 0 });
    expect(Math.abs(result.expectedFlow_m3s!)).toBeLessThan(1e-6);
    expect(result.heat_W).not.toBeNull();
  });

  it('a survey of tubes that the panel does not have is no survey', () => {
    const { result } = judged({ touch: [{ section: 'a', bank: 'x', tube: 1, feel: 'hot' }] });
    expect(result.tubes).toEqual([]);
  });

  it('an honest “don’t know” widens what is expected, and answering it is advised', () => {
    // thermometers compared, so that they do not hide everything else
    const compared: TestDay = {
      ...good,
      samePail: [
        [26, 26],
        [26, 26.05],
        [26.05, 26],
      ],
    };
    const known = judgeDay(p, compared, '/testDays/0').result;
    const guess = judgeDay({ ...p, unsure: ['wind'] }, compared, '/testDays/0').result;
    expect(guess.expected_W).toBeCloseTo(known.expected_W!, 6);
    expect(guess.expectedExpanded_W!).toBeGreaterThan(1.1 * known.expectedExpanded_W!);
    expect(guess.expectedContributions.map((c) => c.source)).toContain('expected.unsure.wind');
    expect(guess.advice.map((a) => a.step)).toContain('settle-wind');
  });
});

import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { readForecast } from '../../src/ahead/forecast';
import { oddForecast } from '../../src/ahead/odd-forecast';
import { SKY_WORDS, skyRow } from '../../src/heat/sky-words';

function one(text: string, system: 'us' | 'metric' = 'us') {
  const read = readForecast(text, system);
  if (!read.ok) throw new Error(read.problems[0].message);
  expect(read.days).toHaveLength(1);
  return read.days[0];
}

describe('temperatures as people write them', () => {
  it.each([
    '84 / 66',
    '84-66',
    '84–66',
    '84 to 66',
    '84°/66°',
    '84F / 66F',
    '84/66F',
    'high 84 low 66',
    'High of 84, low of 66',
    'highs 84 and lows 66',
    'hi 84 lo 66',
    'low 66 high 84',
    'low: 66, high: 84',
    '29C/19C'.replace('29', '28.889').replace('19', '18.889'),
  ])('%s', (text) => {
    const day = one(`${text} sunny`);
    expect(day.high_C).toBeCloseTo(28.889, 2);
    expect(day.low_C).toBeCloseTo(18.889, 2);
    expect(day.sky.words).toBe('sunny');
  });
  it('are read as a program writes them', () => {
    expect(one('3.5e-15C/-1.2e1C sunny').low_C).toBe(-12);
  });
  it('keep their minus', () => {
    expect([one('-3/-12', 'metric').high_C, one('-3/-12', 'metric').low_C]).toEqual([-3, -12]);
    expect(one('-3 - -12', 'metric').low_C).toBe(-12);
    expect(one('5/-2 C', 'us').low_C).toBe(-2);
  });
});

describe('wind as people write it', () => {
  it.each([
    ['light wind', 2],
    ['light winds', 2],
    ['10-15 mph', 5.588],
    ['winds 10 to 15 mph', 5.588],
    ['12mph', 5.364],
    ['12', 5.364],
    ['3 m/s', 3],
    ['15 km/h', 4.167],
    ['light breeze', 2.5],
  ])('%s', (text, expected) => {
    expect(one(`84/66 ${text}`).wind_ms).toBeCloseTo(expected, 2);
    expect(one(`${text}, 84-66`).wind_ms).toBeCloseTo(expected, 2);
  });
  it('in figures goes before a word, but neither comes twice', () => {
    expect(one('84/66 light winds 10-15 mph').wind_ms).toBeCloseTo(5.588, 3);
    expect(one('84/66 12 mph breezy').wind_ms).toBeCloseTo(5.364, 3);
    for (const twice of ['84/66 calm windy', '84/66 3 mph 5 mph'])
      expect(readForecast(twice, 'us').ok).toBe(false);
  });
  it('of a range keeps both ends', () => {
    const { windLow_ms, windHigh_ms } = one('84/66 10-15 mph');
    expect([windLow_ms, windHigh_ms]).toEqual([10 * 0.44704, 15 * 0.44704]);
  });
  it('of a storm that there is not is refused as too fast, not as no speed', () => {
    const read = readForecast('84/66 200mph', 'us');
    expect(!read.ok && read.problems[0]).toMatchObject({
      column: 7,
      found: '200mph',
      expected: 'a wind speed of at most 40 m/s (90 mph)',
    });
  });
});

describe('sky as people write it', () => {
  it.each([
    'thunderstorms',
    'thunderstorm',
    'fog',
    'scattered clouds',
    'scattered thunderstorms',
    'showers',
    'light rain',
    'mostly clear',
    'thin cloud',
    'half cloud',
    'Mostly  Cloudy',
    ...SKY_WORDS,
  ])('%s', (text) => {
    const { sky, wind_ms } = one(`84/66 ${text} and calm`);
    expect(sky.words).not.toBe('not said');
    expect([sky.low <= sky.share, sky.share <= sky.high, wind_ms]).toEqual([true, true, 1]);
  });
  it('names every row of the sky table by one list', () => {
    expect(SKY_WORDS.map((word) => skyRow(word)?.id)).toEqual([
      'clear',
      'hazy',
      'thinCloud',
      'halfCloud',
      'overcast',
    ]);
    expect(skyRow('constructor')).toBeUndefined();
  });
  it('that is none is pointed at', () => {
    const read = readForecast('84 / 66 suny', 'us');
    expect(!read.ok && read.problems[0].column).toBe(9);
  });
});

describe('a forecast far from the climate', () => {
  const project = startProject({ ...usualAnswers('us', 36) });
  it('is asked about: degrees of the other unit are believed otherwise', () => {
    const [notice, ...more] = oddForecast(project, [one('88/66'), one('29/18')], '2026-06-12T08:00');
    expect(more).toEqual([]);
    expect(notice).toMatchObject({ code: 'forecast-far-from-climate', severity: 'unsure' });
    expect(notice.message).toMatch(/^Day 2 .*29.* °F; a day of June/);
    expect(notice.remedy).toContain('29C/18C');
  });
  it('is not where it is weather', () => {
    expect(oddForecast(project, [one('88/66'), one('75/60')], '2026-06-12T08:00')).toEqual([]);
    expect(oddForecast(project, [one('29/18')], '2026-01-12T08:00')).toEqual([]);
  });
});

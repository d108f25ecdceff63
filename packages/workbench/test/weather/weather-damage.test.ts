import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOfBytes } from '../../src/weather/bytes';
import { type ReadWeatherOptions, readWeather } from '../../src/weather/read-weather';
import { EPW_HEAD, epw, epwRow, hours, nsrdb, pvgisCsv, pvgisJson, tmy2, tmy3 } from './files';
import { bad, csv, expectSameYear, good, mapping, rows, typical } from './reading';

describe('bad files are refused with line, column and what was expected', () => {
  it('truncated in a line, and half a year', () => {
    const text = epw(rows);
    const cut = bad(text.slice(0, text.length / 2));
    expect(cut.line).toBeGreaterThan(4000);
    expect(bad(epw(rows.slice(0, 4344)))).toMatchObject({ line: 8 + 4344, expected: 'a whole year' });
    expect(bad(epw(rows.slice(0, 4344))).message).toContain('181 days');
    expect(bad(pvgisJson(hours(4.5)).slice(0, 100_000)).line).toBe(1);
    expect(bad(epw([])).message).toContain('at least a day');
    expect(bad(EPW_HEAD.slice(0, 3).join('\n')).line).toBe(3);
  });

  it('wrong columns', () => {
    const short = [...rows];
    short[99] = short[99].split(',').slice(0, 10).join(',');
    expect(bad(epw(short))).toMatchObject({ line: 108, expected: 'at least 22 fields' });
    expect(bad(tmy3(typical).replace('Dry-bulb (C)', 'Other'))).toMatchObject({
      line: 2,
      expected: 'a column Dry-bulb (C)',
    });
    expect(bad(nsrdb(hours()).replace('GHI', 'Other')).expected).toBe('a column GHI');
    expect(bad(csv(), { mapping: { ...mapping, time: { stamp: 'time' } } }).expected).toBe('a column “time”');
  });

  it('non-numeric fields, each with its line and column', () => {
    const junk = ['abc', '12,5', '0x10', '1e', 'Infinity', '12 3'];
    const file = typical.map((h, i) => epwRow(h, 0, i >= 700 && i < 706 ? { 6: `"${junk[i - 700]}"` } : {}));
    const read = readWeather(epw(file));
    expect(read.ok ? [] : read.problems.map((p) => [p.line, p.column, p.found, p.expected])).toEqual(
      junk.map((text, k) => [709 + k, 7, text, 'a number for dry bulb [°C]']),
    );
  });

  it('values that cannot be', () => {
    const file = (index: number, text: string) =>
      epw(typical.map((h, i) => epwRow(h, 0, i === 5 ? { [index]: text } : {})));
    expect(bad(file(6, '88'))).toMatchObject({ line: 14, column: 7 });
    expect(bad(file(1, '13')).column).toBe(2);
    expect(bad(file(3, '25')).expected).toBe('an hour from 1 to 24');
    expect(bad(file(13, '2000')).column).toBe(14);
    expect(bad(epw(rows, [EPW_HEAD[0].replace('40.0', '95'), ...EPW_HEAD.slice(1)]))).toMatchObject({
      line: 1,
      column: 7,
    });
  });

  it('duplicated hours, and hours out of step', () => {
    const twice = [...rows.slice(0, 200), rows[199], ...rows.slice(200)];
    expect(bad(epw(twice))).toMatchObject({
      line: 209,
      expected: 'an hour that line 208 does not have already',
    });
    const odd = csv().replace('2001-01-02 05:00', '2001-01-02 05:17');
    expect(bad(odd, { mapping }).line).toBe(31);
  });

  it('missing hours are filled when few, refused when many', () => {
    expect(good(epw(rows.filter((_, i) => i < 300 || i >= 305))).series.gaps.longest).toBe(5);
    expect(bad(epw(rows.filter((_, i) => i < 300 || i >= 400))).message).toContain(
      'missing for over three days',
    );
  });

  it('an open quote, no text, nothing, gigabytes', () => {
    expect(bad(epw([...rows.slice(0, 50), `"${rows[50]}`, ...rows.slice(51)])).expected).toBe(
      'a closing quote',
    );
    expect(bad(new Uint8Array([1, 0, 0, 7, 0, 9, 0, 0, 0, 0, 5, 3])).message).toContain('text file');
    expect(bad('').message).toContain('a weather file');
    expect(bad('hello\nworld').message).toContain('EPW');
    expect(bad(new Uint8Array(65 * 1024 * 1024)).message).toContain('64 MB');
    expect(bad('{"inputs": 3}').message).toContain('inputs.location');
  });

  it('never more than twenty problems', () => {
    const read = readWeather(epw(typical.map((h) => epwRow(h, 0, { 6: 'x' }))));
    expect(read.ok ? 0 : read.problems.length).toBe(20);
  });
});

describe('encodings', () => {
  const text = 'Zürich é 日本 😀\r\nline';
  const utf16 = (little: boolean, mark: boolean) => {
    const units = [
      ...(mark ? [0xfeff] : []),
      ...Array.from({ length: text.length }, (_, i) => text.charCodeAt(i)),
    ];
    return Uint8Array.from(units.flatMap((u) => (little ? [u & 255, u >> 8] : [u >> 8, u & 255])));
  };
  it('UTF-8 with and without mark, UTF-16 either way, Latin-1', () => {
    expect(textOfBytes(new TextEncoder().encode(text))).toBe(text);
    expect(textOfBytes(new TextEncoder().encode(`\uFEFF${text}`))).toBe(text);
    for (const little of [true, false]) expect(textOfBytes(utf16(little, true))).toBe(text);
    expect(textOfBytes(Uint8Array.from([0x5a, 0xfc, 0x72, 0x69, 0x63, 0x68]))).toBe('Zürich');
  });

  it('a whole EPW in UTF-16 is read like any other', () => {
    const file = epw(rows);
    const bytes = new Uint8Array(2 * file.length);
    for (let i = 0; i < file.length; i++) bytes[2 * i] = file.charCodeAt(i);
    expectSameYear(good(bytes).series);
  });

  it('agrees with the platform’s strict decoder on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 60 }), (bytes) => {
        fc.pre(!bytes.includes(0) && !(bytes[0] >= 0xfe));
        let expected: string | null = null;
        try {
          expected = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
        } catch {}
        const got = textOfBytes(bytes);
        if (expected !== null) expect(got).toBe(expected);
        else expect(got.length).toBeGreaterThanOrEqual(bytes.length - 3);
      }),
      { seed: 5, numRuns: 400 },
    );
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (s) => {
        fc.pre(!s.includes('\0') && !s.startsWith('\uFEFF'));
        expect(textOfBytes(new TextEncoder().encode(s))).toBe(s);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
});

describe('fuzz: any damage is read or refused, never thrown, never endless', () => {
  const first = (text: string) => text.split('\n').slice(0, 60).join('\n');
  const seeds: [string, string, ReadWeatherOptions | undefined][] = [
    ['epw', first(epw(rows.slice(0, 60), EPW_HEAD, '\n')), undefined],
    ['tmy3', first(tmy3(typical.slice(0, 60))), undefined],
    ['tmy2', first(tmy2(typical.slice(0, 60))), undefined],
    ['pvgis-csv', first(pvgisCsv(hours().slice(0, 60))), undefined],
    ['pvgis-json', pvgisJson(hours().slice(0, 40)), undefined],
    ['nsrdb', first(nsrdb(hours().slice(0, 60))), undefined],
    ['csv', csv(hours().slice(0, 60)), { mapping }],
  ];
  it.each(seeds)('%s', (_, text, options) => {
    const junk = fc.constantFrom(
      '',
      ',',
      '"',
      '\n',
      '-',
      '9',
      '99999999999',
      'NaN',
      ';',
      '\t',
      '\u0000',
      'é',
      '{',
      '1e999',
      '2000',
      '/',
    );
    const damage = fc.array(fc.tuple(fc.nat(text.length), fc.nat(30), junk), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(damage, (edits) => {
        let damaged = text;
        for (const [at, length, put] of edits)
          damaged = damaged.slice(0, at) + put + damaged.slice(at + length);
        const read = readWeather(damaged, options);
        if (read.ok) {
          expect(read.series.air_C.every(Number.isFinite)).toBe(true);
          expect(read.series.global_Wm2.every(Number.isFinite)).toBe(true);
        } else {
          expect(read.problems.length).toBeGreaterThan(0);
          for (const p of read.problems) expect(p.message.length).toBeGreaterThan(10);
        }
      }),
      { seed: 8, numRuns: 250, endOnFailure: true },
    );
  });
});

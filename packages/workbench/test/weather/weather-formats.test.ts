import { describe, expect, it } from 'vitest';
import { type CsvMapping, guessDelimiter } from '../../src/weather/plain-csv';
import { detectFormat, type ReadWeatherOptions } from '../../src/weather/read-weather';
import { EPW_HEAD, epw, epwRow, hours, nsrdb, pvgisCsv, pvgisJson, tmy2, tmy3, YEAR } from './files';
import { bad, codes, csv, expectSameYear, good, mapping, rows, typical } from './reading';

describe('every format gives the same year', () => {
  const files: [string, string, ReadWeatherOptions | undefined][] = [
    ['epw', epw(rows), undefined],
    ['tmy3', tmy3(typical), undefined],
    ['tmy2', tmy2(typical), undefined],
    ['nsrdb', nsrdb(hours(0, () => 2019)), undefined],
    ['csv', csv(), { mapping }],
  ];
  it.each(files)('%s', (format, text, options) => {
    const read = good(text, options);
    expect(read.found.format).toBe(format);
    if (!options) expect(detectFormat(text)).toBe(format);
    expectSameYear(read.series);
    expect(read.series.utcOffset_h).toBe(-5);
    expect(read.series.place).toMatchObject({ latitude_deg: 40, longitude_deg: -75 });
    expect(Math.abs(read.found.alignment.shift_min ?? 99)).toBeLessThan(5);
    expect(codes(read).filter((c) => c !== 'weather-gaps-filled')).toEqual([]);
    expect(read.series.start_ms % 86_400_000).toBe(5 * 3_600_000);
  });

  it('pvgis, CSV and JSON, in universal time', () => {
    // The test's hours are local means; written as instants of universal time they are five hours off, less half.
    const list = hours(4.5, (month) => 2005 + month).map((h) => ({ ...h, month: h.month }));
    for (const text of [pvgisCsv(list), pvgisJson(list)]) {
      const read = good(text);
      expect(read.series.start_ms % 86_400_000).toBe(30 * 60_000);
      expect(read.series.utcOffset_h).toBe(-5);
      expect(read.series.longWave_Wm2?.[5]).toBe(300);
    }
    expect(good(pvgisCsv(list), { utcOffset_h: -6 }).series.utcOffset_h).toBe(-6);
  });
});

describe('traps seen in real files', () => {
  it('EPW minute field 0 or 60 means the same', () => {
    const sixty = good(epw(typical.map((h) => epwRow(h, 60))));
    expect(sixty.series.global_Wm2).toEqual(good(epw(rows)).series.global_Wm2);
    expect(sixty.series.start_ms).toBe(good(epw(rows)).series.start_ms);
  });

  it('an EPW whose offset header contradicts its time zone: the light decides', () => {
    // Instants at the stamp (the hour's end), light 30 min later than the interval the format promises.
    const head = EPW_HEAD.map((line) =>
      line.startsWith('COMMENTS 2') ? 'COMMENTS 2,Irradiance Time Offset (h):4.8239' : line,
    );
    const read = good(
      epw(
        hours(0.5).map((h) => epwRow(h)),
        head,
      ),
    );
    expect(codes(read)).toContain('epw-offset-header');
    expect(Math.abs(read.found.alignment.shift_min ?? 99)).toBeLessThan(5); // as instants the file is right
    expect(read.series.start_ms % 3_600_000).toBe(1_800_000);
  });

  it('"minute 30" data centred on the hour', () => {
    const read = good(nsrdb(hours(-0.5)));
    expect(codes(read)).toContain('weather-alignment');
    expect(Math.abs((read.found.alignment.shift_min ?? 99) + 30)).toBeLessThan(5);
    expect(Math.abs(read.series.sunShift_s + 1800)).toBeLessThan(300);
  });

  it('a file in solar time', () => {
    // 8 degrees west of its meridian and by the sundial: hours shifted by the equation of time and half an hour.
    const list = hours().map((h, i) => {
      const day = i / 24;
      const b = ((day - 81) / 364) * 2 * Math.PI;
      const equation_h = (9.87 * Math.sin(2 * b) - 7.53 * Math.cos(b) - 1.5 * Math.sin(b)) / 60;
      const at = i - equation_h;
      const k = Math.floor(at);
      const light = (column: Float64Array) =>
        (column[(k + 8760) % 8760] ?? 0) * (1 - at + k) + (column[(k + 1) % 8760] ?? 0) * (at - k);
      return {
        ...h,
        global: light(YEAR.global_Wm2),
        direct: light(YEAR.directNormal_Wm2),
        diffuse: light(YEAR.diffuse_Wm2),
      };
    });
    const read = good(epw(list.map((h) => epwRow(h))));
    expect(codes(read)).toContain('weather-solar-time');
    expect(read.series.solarTime).toBe(true);
  });

  it('constant wind is named', () => {
    expect(codes(good(epw(typical.map((h) => epwRow(h, 0, { 21: '3.0' })))))).toContain(
      'weather-constant-wind',
    );
  });

  it('missing codes are missing, not data: 9999, 999900, 999, 99.9, −9', () => {
    const file = typical.map((h, i) =>
      epwRow(
        h,
        0,
        i >= 4000 && i < 4003
          ? { 6: '99.9', 8: '999', 9: '999900', 13: '9999', 14: '-9', 15: '9999', 21: '999' }
          : {},
      ),
    );
    const read = good(epw(file));
    expect(read.series.gaps.longest).toBe(3);
    expect(codes(read)).toContain('weather-gaps-filled');
    expectSameYear(read.series);
    expect(Math.max(...read.series.global_Wm2)).toBeLessThan(1200);
    expect(Math.max(...read.series.pressure_Pa)).toBeLessThan(101_000);
    // −9 °C is weather, not a code.
    const cold = good(epw(typical.map((h, i) => epwRow(h, 0, i === 10 ? { 6: '-9', 7: '-12' } : {}))));
    expect(cold.series.air_C[10]).toBe(-9);
  });

  it('pressure in mbar becomes pascal', () => {
    expect(good(tmy3(typical)).series.pressure_Pa[100]).toBe(100_700);
    expect(good(nsrdb(hours())).series.pressure_Pa[100]).toBe(100_700);
  });

  it('dew point but no humidity', () => {
    const text = tmy3(typical).replaceAll('RHum (%)', 'Something else');
    expectSameYear(good(text).series);
    // And humidity but no dew point.
    expectSameYear(good(csv(), { mapping }).series);
  });

  it.each(['\n', '\r\n', '\r'])('line ends %j', (end) => {
    expectSameYear(good(epw(rows, EPW_HEAD, end)).series);
  });

  it('29 February of a typical year is left out, of a dated year kept', () => {
    const leap = { ...typical[58 * 24], month: 2, day: 29 };
    const extra = Array.from({ length: 24 }, (_, hour) => epwRow({ ...leap, hour }));
    const at = 59 * 24;
    const read = good(epw([...rows.slice(0, at), ...extra, ...rows.slice(at)]));
    expect(read.found.leftOut).toBe(24);
    expectSameYear(read.series);
    const dated = hours(0, () => 2020);
    const withLeap = [
      ...dated.slice(0, at),
      ...Array.from({ length: 24 }, (_, hour) => ({ ...dated[at - 24 + hour], day: 29 })),
      ...dated.slice(at),
    ];
    const whole = good(nsrdb(withLeap));
    expect(whole.series.length).toBe(8784);
    expect(whole.series.typical).toBe(false);
    // A leap year without its 29 February is a typical year in disguise.
    expect(good(nsrdb(dated)).series.typical).toBe(true);
  });

  it('months of different years are one typical year', () => {
    const read = good(tmy3(typical));
    expect(read.series.typical).toBe(true);
    expect(new Date(read.series.start_ms).getUTCFullYear()).toBe(2001);
    expect(good(nsrdb(hours(0, () => 2019))).series.typical).toBe(false);
  });

  it('half-hour rows', () => {
    const read = good(
      nsrdb(
        hours(0, () => 2019),
        [0, 30],
      ),
    );
    expect(read.series.step_s).toBe(1800);
    expect(read.series.length).toBe(17_520);
  });

  it('a text footer is no data; footers in the middle are', () => {
    expect(good(pvgisCsv(hours(4.5))).series.length).toBe(8760);
    const text = pvgisCsv(hours(4.5)).split('\n');
    text.splice(3000, 0, 'PVGIS note');
    expect(bad(text.join('\n'))).toMatchObject({ line: 3001 });
  });

  it('two column layouts under one format name', () => {
    expectSameYear(good(tmy3(typical, true)).series);
    expectSameYear(
      good(
        nsrdb(hours(), [30], 'GHI,Air Temperature,Wind Speed,Relative Humidity,Dew Point,DNI,DHI,Pressure'),
      ).series,
    );
    const hourly = pvgisCsv(hours(4.5)).replace('T2m,RH,G(h),Gb(n),Gd(h)', 'T2m,RH,G(i),Gb(i),Gd(i)');
    expect(bad(hourly).message).toContain('slope 0');
    expect(good(hourly.replace('month,year', 'Slope: 0 deg.\nmonth,year')).series.length).toBe(8760);
  });

  it('a zone that cannot be the place’s', () => {
    const head = [EPW_HEAD[0].replace('-5.0', '8.0'), ...EPW_HEAD.slice(1)];
    expect(codes(good(epw(rows, head)))).toContain('weather-zone-odd');
  });
});

describe('plain tables', () => {
  it('semicolons and decimal commas, day first, AM and PM, own zone', () => {
    expectSameYear(good(csv(hours(), ';', true), { mapping: { ...mapping, decimalComma: true } }).series);
    expect(guessDelimiter('a;b;c\n1,5;2;3')).toBe(';');
    const german = csv().replace(/^(\d{4})-(\d\d)-(\d\d)/gm, '$3.$2.$1');
    expectSameYear(good(german, { mapping: { ...mapping, dateOrder: 'dmy' } }).series);
    const american = csv().replace(
      /^(\d{4})-(\d\d)-(\d\d) (\d\d):00/gm,
      (_, y, m, d, h) => `${m}/${d}/${y} ${Number(h) % 12 || 12}:00 ${Number(h) < 12 ? 'AM' : 'PM'}`,
    );
    expectSameYear(good(american, { mapping: { ...mapping, dateOrder: 'mdy' } }).series);
    const zoned = csv().replace(/^(\d{4}-\d\d-\d\d) (\d\d:00)/gm, '$1T$2:00-05:00');
    expect(good(zoned, { mapping: { ...mapping, utcOffset_h: -6 } }).series.start_ms).toBe(
      good(csv(), { mapping }).series.start_ms,
    );
  });

  it('columns by number, stamps at the end, words for missing, part of a year', () => {
    const numbered: CsvMapping = {
      ...mapping,
      time: { stamp: 1 },
      columns: { air_C: { column: 2, unit: '°F' }, global_Wm2: { column: 5, unit: 'W/m²' } },
    };
    const week = csv(hours().slice(4000, 4168)).replace(
      /,[\d.]+,([\d.]+),([\d.]+),([\d.]+)$/m,
      ',n/k,$1,$2,$3',
    );
    const read = good(week, { mapping: { ...numbered, marks: 'end', missing: ['n/k'] } });
    expect(codes(read)).toEqual(
      expect.arrayContaining([
        'weather-part-of-year',
        'weather-gaps-filled',
        'weather-no-wind',
        'weather-no-humidity',
      ]),
    );
    expect(read.series.start_ms).toBe(
      good(week, { mapping: { ...numbered, missing: ['n/k'] } }).series.start_ms - 3_600_000,
    );
    expect(bad(week, { mapping: numbered })).toMatchObject({ line: 2, column: 2, found: 'n/k' });
  });

  it('says what a stamp should look like', () => {
    expect(bad(csv().replace('2001-01-01 03:00', '2001-13-01 03:00'), { mapping })).toMatchObject({
      line: 5,
      column: 1,
      expected: 'date and time in the order year, month, day',
    });
  });
});

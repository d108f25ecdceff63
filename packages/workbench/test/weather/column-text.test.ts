import { describe, expect, it } from 'vitest';
import { columnsAsText, mappingFromText } from '../../src/weather/column-text';
import { previewTable } from '../../src/weather/guess-mapping';

const preview = previewTable(
  [
    'Day,Clock,Outdoor (F),RH %,Solar W/m2,Pond:west',
    '6/13/2024,00:00,70,40,0,20',
    '6/14/2024,00:00,71,41,0,20',
  ].join('\n'),
)!;
const AT = { place: { latitude_deg: 35, longitude_deg: -106, elevation_m: 1600 }, utcOffset_h: -7 };
const read = (text: string, known: Parameters<typeof mappingFromText>[3] = AT) =>
  mappingFromText(text, preview, 'Logger', known);

describe('columns as they are typed', () => {
  it('go by number or name, with a unit said by the head or behind a colon', () => {
    const made = read('date=Day, clock=2, temp=Outdoor (F), humidity=4:share, dew=Pond:west:°F, marks=end');
    if (!made.ok) throw new Error(made.message);
    expect(made.mapping).toMatchObject({
      time: { date: 1, clock: 2 },
      dateOrder: 'mdy',
      marks: 'end',
      headerLines: 1,
      place: AT.place,
      utcOffset_h: -7,
      columns: {
        air_C: { column: 3, unit: '°F' },
        humidity: { column: 4, unit: 'share' },
        dewPoint_C: { column: 6, unit: '°F' },
      },
    });
    expect(made.mapping.columns.global_Wm2).toBeUndefined();
  });
  it('can be guessed, and said back so that they read the same', () => {
    const [guess, said] = [read('guess'), read(columnsAsText(preview))];
    expect(guess).toEqual(said);
    expect(guess.ok && guess.mapping.columns.global_Wm2).toEqual({ column: 5, unit: 'W/m²' });
    const other = read('guess, temp=3:C');
    expect(other.ok && other.mapping.columns.air_C).toEqual({ column: 3, unit: '°C' });
  });
  it('bring their own place and clock', () => {
    const made = read('guess, lat=-34, lon=151, zone=10, elevation=20', {});
    expect(made.ok && [made.mapping.place, made.mapping.utcOffset_h]).toEqual([
      { latitude_deg: -34, longitude_deg: 151, elevation_m: 20 },
      10,
    ]);
  });
  it.each([
    ['tempp=3', AT, 'did you mean temp?'],
    ['temp=9', AT, '“9” is no column; the table has 1 Day, 2 Clock'],
    ['temp=3:mph', AT, 'expected a unit of °C, °F, K'],
    ['humidity=4', AT, 'no column of the air’s temperature'],
    ['temp=3, order=myd', AT, 'ymd, mdy or dmy'],
    ['temp=3, marks=late', AT, 'start, middle or end'],
    ['temp=3, date=1', AT, 'both date=… and clock=…'],
    ['temp=3, time=1, clock=2', AT, 'one column of both'],
    ['temp=', AT, 'as temp=2'],
    ['guess', {}, 'lat is missing'],
    ['guess, lat=95', AT, 'lat=95: expected degrees north'],
    ['guess', { place: AT.place }, 'zone is missing'],
  ])('%s is refused with what was expected', (text, known, message) => {
    const made = read(text, known);
    expect(made.ok ? '' : made.message).toContain(message);
  });
});

import { describe, expect, it } from 'vitest';
import { previewTable } from '../../src/weather/guess-mapping';
import { type CsvMapping, readPlainCsv } from '../../src/weather/plain-csv';

/** Two days of hours. */
function table(header: string, row: (day: string, hour: number, sun: number) => string): string {
  const rows: string[] = [];
  for (let i = 0; i < 48; i++) {
    const hour = i % 24;
    const sun = Math.round(Math.max(0, 800 * Math.sin((Math.PI * (hour - 6)) / 12)));
    rows.push(row(i < 24 ? '13' : '14', hour, sun));
  }
  return [header, ...rows, ''].join('\n');
}

const two = (n: number): string => String(n).padStart(2, '0');

describe('the columns of a table', () => {
  it('are known by their names and units', () => {
    const text = table(
      'Date/Time,Temp (F),RH %,Wind speed mph,GHI W/m2,DNI,Diffuse,Barometer inHg',
      (d, h, sun) => `2024-06-${d} ${two(h)}:00,81.5,40,5,${sun},${sun},${Math.round(sun / 5)},29.9`,
    );
    const found = previewTable(text)!;
    expect(found.time).toEqual({ stamp: 1 });
    expect(found.dateOrder).toBe('ymd');
    expect(found.headerLines).toBe(1);
    expect(found.columns).toEqual({
      air_C: { column: 2, unit: '°F' },
      humidity: { column: 3, unit: '%' },
      wind_ms: { column: 4, unit: 'mph' },
      global_Wm2: { column: 5, unit: 'W/m²' },
      directNormal_Wm2: { column: 6, unit: 'W/m²' },
      diffuse_Wm2: { column: 7, unit: 'W/m²' },
      pressure_Pa: { column: 8, unit: 'inHg' },
    });
    const mapping: CsvMapping = {
      name: 'Logger',
      place: { latitude_deg: 35, longitude_deg: -106, elevation_m: 1600 },
      utcOffset_h: -7,
      marks: 'start',
      ...found,
    };
    const reading = readPlainCsv(text, mapping);
    expect(reading.ok).toBe(true);
    if (reading.ok) expect(reading.series.air_C[5]).toBeCloseTo(27.5, 9);
  });

  it('are not those of the house, of the vane or of how it feels', () => {
    const text = table(
      'Date/Time,Indoor Temp (°F),Indoor Humidity (%),Feels Like (°F),Wind Chill (°F),Wind Direction (°),Wind Gust (mph),Outdoor Temp (°F),Outdoor Humidity (%),Wind Speed (mph),UV Index,Solar Radiation (W/m²),Rain (in)',
      (d, h, sun) => `2024-06-${d} ${two(h)}:00,72,45,82,80,190,12,81.5,40,5,3,${sun},0`,
    );
    expect(previewTable(text)!.columns).toEqual({
      air_C: { column: 8, unit: '°F' },
      humidity: { column: 9, unit: '%' },
      wind_ms: { column: 10, unit: 'mph' },
      global_Wm2: { column: 12, unit: 'W/m²' },
      rain_kgm2: { column: 13, unit: 'in' },
    });
  });

  it('tell day from month by what changes, where neither goes over twelve', () => {
    const order = (date: (day: string) => string) =>
      previewTable(
        [
          'Date,Temp C',
          ...['02', '03', '04'].flatMap((d) => [`${date(d)} 06:00,9`, `${date(d)} 18:00,12`]),
        ].join('\n'),
      )!.dateOrder;
    expect(order((d) => `${d}/01/2024`)).toBe('dmy');
    expect(order((d) => `01/${d}/2024`)).toBe('mdy');
  });

  it('are found with semicolons, decimal commas, two columns of time and days in front', () => {
    const text = table(
      'Messreihe Garten;;;;\nDatum;Uhrzeit;Temperatur °C;Taupunkt °C;Global',
      (d, h, sun) => `${d}.06.2024;${two(h)}:00;21,5;11,2;${sun}`,
    );
    const found = previewTable(text)!;
    expect(found.delimiter).toBe(';');
    expect(found.decimalComma).toBe(true);
    expect(found.headerLines).toBe(2);
    expect(found.dateOrder).toBe('dmy');
    expect(found.time).toEqual({ date: 1, clock: 2 });
    expect(found.columns.dewPoint_C).toEqual({ column: 4, unit: '°C' });
    expect(found.rows[0]).toEqual(['13.06.2024', '00:00', '21,5', '11,2', '0']);
  });

  it('are none in a letter', () => {
    expect(previewTable('Dear pool,\nhow warm you are.')).toBeNull();
    expect(previewTable('')).toBeNull();
    expect(previewTable('"never closed, 2024-01-01')).toBeNull();
  });
});

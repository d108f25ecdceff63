import { humidityFromDewPoint } from '@sunlap/engine/fluids/moist-air';
import { MONTH_DAYS } from '@sunlap/engine/weather/normals';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';

/** An invented year at 40° N 75° W, zone UTC−5, from which the tests write files in every format. */
export const YEAR: WeatherSeries = synthesiseYear({
  name: 'Invented Town',
  place: { latitude_deg: 40, longitude_deg: -75, elevation_m: 50 },
  utcOffset_h: -5,
  months: [4, 6, 11, 17, 22, 27, 30, 29, 25, 19, 12, 6].map((high_C, m) => ({
    high_C,
    low_C: high_C - 10,
    irradiation_kWhm2: [1.8, 2.6, 3.7, 4.8, 5.6, 6.2, 6.1, 5.4, 4.4, 3.2, 2, 1.6][m],
    humidity: 0.6,
    wind_ms: 3,
  })),
}).series;

export interface Hour {
  year: number;
  month: number;
  day: number;
  hour: number;
  air: number;
  dew: number;
  humidity: number;
  wind: number;
  global: number;
  direct: number;
  diffuse: number;
}

/** The year's hours in order; the light may be taken from another hour to make a file that is stamped wrongly. */
export function hours(lightFrom = 0, year = (_month: number) => 2001): Hour[] {
  const list: Hour[] = [];
  let i = 0;
  MONTH_DAYS.forEach((days, month) => {
    for (let day = 1; day <= days; day++)
      for (let hour = 0; hour < 24; hour++) {
        const k = (i + lightFrom + 8760) % 8760;
        const at = (column: Float64Array) =>
          Number.isInteger(k) ? column[k] : (column[Math.floor(k)] + column[(Math.floor(k) + 1) % 8760]) / 2;
        list.push({
          year: year(month + 1),
          month: month + 1,
          day,
          hour,
          air: YEAR.air_C[i],
          dew: YEAR.dewPoint_C[i],
          humidity: 100 * humidityFromDewPoint(YEAR.air_C[i], YEAR.dewPoint_C[i]),
          wind: YEAR.wind_ms[i],
          global: at(YEAR.global_Wm2),
          direct: at(YEAR.directNormal_Wm2),
          diffuse: at(YEAR.diffuse_Wm2),
        });
        i++;
      }
  });
  return list;
}

const two = (n: number): string => String(n).padStart(2, '0');

export const EPW_HEAD = [
  'LOCATION,Invented Town,-,Nowhere,TMYx,000000,40.0,-75.0,-5.0,50.0',
  'DESIGN CONDITIONS,0',
  'TYPICAL/EXTREME PERIODS,0',
  'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0',
  'COMMENTS 1,made for a test',
  'COMMENTS 2,',
  'DATA PERIODS,1,1,Data,Sunday,1/1,12/31',
];

export function epwRow(h: Hour, minute = 0, over: Record<number, string> = {}): string {
  const fields = [
    h.year,
    h.month,
    h.day,
    h.hour + 1,
    minute,
    '?9?9',
    h.air.toFixed(1),
    h.dew.toFixed(1),
    h.humidity.toFixed(0),
    100_700,
    9999,
    9999,
    9999,
    h.global.toFixed(0),
    h.direct.toFixed(0),
    h.diffuse.toFixed(0),
    999999,
    999999,
    999999,
    9999,
    180,
    h.wind.toFixed(1),
    99,
    99,
    9999,
    99999,
    9,
    999999999,
    999,
    0.999,
    999,
    99,
    999,
    999,
    99,
  ].map(String);
  for (const [index, text] of Object.entries(over)) fields[Number(index)] = text;
  return fields.join(',');
}

export function epw(rows: string[], head = EPW_HEAD, end = '\r\n'): string {
  return [...head, ...rows, ''].join(end);
}

export const TMY3_NAMES =
  'Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),GHI source,DNI (W/m^2),DHI (W/m^2),TotCld (tenths),Dry-bulb (C),Dew-point (C),RHum (%),Pressure (mbar),Wspd (m/s)';

export function tmy3(list: Hour[], swapped = false): string {
  const names = TMY3_NAMES.split(',');
  const rows = list.map((h) => [
    `${two(h.month)}/${two(h.day)}/${h.year}`,
    `${two(h.hour + 1)}:00`,
    h.global.toFixed(0),
    '1',
    h.direct.toFixed(0),
    h.diffuse.toFixed(0),
    '5',
    h.air.toFixed(1),
    h.dew.toFixed(1),
    h.humidity.toFixed(0),
    '1007',
    h.wind.toFixed(1),
  ]);
  const order = swapped ? [0, 1, 7, 8, 9, 10, 11, 2, 3, 4, 5, 6] : names.map((_, i) => i);
  return [
    '000000,"INVENTED TOWN, NORTH",XX,-5.0,40.000,-75.000,50',
    ...[names, ...rows].map((row) => order.map((i) => row[i]).join(',')),
    '',
  ].join('\n');
}

export function tmy2(list: Hour[]): string {
  const head = ` 00000 ${'INVENTED_TOWN'.padEnd(22)} XX ${String(-5).padStart(3)} N 40  0 W  75  0 ${String(50).padStart(4)}`;
  const pad = (n: number, width: number): string =>
    String(Math.round(n)).padStart(width, '0').padStart(width);
  const signed = (n: number, width: number): string => String(Math.round(n)).padStart(width);
  const rows = list.map((h) => {
    let line = ` ${two(h.year % 100)}${two(h.month)}${two(h.day)}${two(h.hour + 1)}00000000`;
    for (const light of [h.global, h.direct, h.diffuse]) line += `${pad(light, 4)}A7`;
    line += '0000?00000?00000?00000?0'; // three illuminances and the zenith's luminance
    line += '05A705A7'; // sky cover
    line += `${signed(h.air * 10, 4)}A7${signed(h.dew * 10, 4)}A7${pad(h.humidity, 3)}A71007A7180A7${pad(h.wind * 10, 3)}A7`;
    return line;
  });
  return [head, ...rows, ''].join('\n');
}

export function pvgisCsv(list: Hour[], lightOffset_h = 0): string {
  const rows = list.map(
    (h) =>
      `${h.year}${two(h.month)}${two(h.day)}:${two(h.hour)}00,${h.air.toFixed(2)},${h.humidity.toFixed(2)},${h.global.toFixed(1)},${h.direct.toFixed(2)},${h.diffuse.toFixed(1)},300.0,${h.wind.toFixed(2)},180.0,100700.0`,
  );
  return [
    'Latitude (decimal degrees): 40.000',
    'Longitude (decimal degrees): -75.000',
    'Elevation (m): 50.0',
    `Irradiance Time Offset (h): ${lightOffset_h}`,
    'month,year',
    ...Array.from({ length: 12 }, (_, m) => `${m + 1},${2005 + m}`),
    'time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP',
    ...rows,
    '',
    'T2m: 2-m air temperature (degree Celsius)',
    'Data made for a test, "quoted, footer"',
    '',
  ].join('\n');
}

export function pvgisJson(list: Hour[]): string {
  return JSON.stringify({
    inputs: { location: { latitude: 40, longitude: -75, elevation: 50, irradiance_time_offset: 0 } },
    outputs: {
      tmy_hourly: list.map((h) => ({
        'time(UTC)': `${h.year}${two(h.month)}${two(h.day)}:${two(h.hour)}00`,
        T2m: h.air,
        RH: h.humidity,
        'G(h)': h.global,
        'Gb(n)': h.direct,
        'Gd(h)': h.diffuse,
        'IR(h)': 300,
        WS10m: h.wind,
        WD10m: 180,
        SP: 100_700,
      })),
    },
  });
}

export function nsrdb(
  list: Hour[],
  minutes: readonly number[] = [30],
  names = 'DHI,DNI,GHI,Dew Point,Temperature,Pressure,Relative Humidity,Wind Speed',
): string {
  const order = names.split(',');
  const rows = list.flatMap((h) =>
    minutes.map((minute) => {
      const values: Record<string, string> = {
        DHI: h.diffuse.toFixed(0),
        DNI: h.direct.toFixed(0),
        GHI: h.global.toFixed(0),
        'Dew Point': h.dew.toFixed(1),
        Temperature: h.air.toFixed(1),
        'Air Temperature': h.air.toFixed(1),
        Pressure: '1007',
        'Relative Humidity': h.humidity.toFixed(2),
        'Wind Speed': h.wind.toFixed(1),
      };
      return [h.year, h.month, h.day, h.hour, minute, ...order.map((name) => values[name])].join(',');
    }),
  );
  return [
    'Source,Location ID,City,State,Country,Latitude,Longitude,Time Zone,Elevation,Local Time Zone',
    'TEST,0,-,-,-,40,-75,-5,50,-5',
    `Year,Month,Day,Hour,Minute,${names}`,
    ...rows,
    '',
  ].join('\n');
}

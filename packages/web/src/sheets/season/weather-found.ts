import { monthlySummary } from '@sunlap/engine/weather/monthly';
import type { WeatherFormat, WeatherReading } from '@sunlap/workbench/weather/reading';

/** What was found in a weather file, for the face. */
export type WeatherNotice =
  | {
      ok: true;
      name: string;
      place: string;
      latitude_deg: number;
      longitude_deg: number;
      utcOffset_h: number;
      format: WeatherFormat;
      convention: string;
      shift_min: number | null;
      rows: number;
      filled: number;
      months: { high_C: number; low_C: number; irradiation_kWhm2: number; wind_ms: number }[];
      notices: string[];
    }
  | {
      ok: false;
      name: string;
      problems: string[];
      /** None of the known formats: its columns can be named by hand. */
      mayBeTable: boolean;
    };

export function weatherNotice(name: string, reading: WeatherReading, mayBeTable: boolean): WeatherNotice {
  if (!reading.ok) return { ok: false, name, problems: reading.problems.map((p) => p.message), mayBeTable };
  const { series, found, notices } = reading;
  return {
    ok: true,
    name,
    place: series.name,
    latitude_deg: series.place.latitude_deg,
    longitude_deg: series.place.longitude_deg,
    utcOffset_h: series.utcOffset_h,
    format: found.format,
    convention: found.convention,
    shift_min: found.alignment.shift_min,
    rows: found.rows,
    filled: series.gaps.filled,
    months: monthlySummary(series).map((m) => ({
      high_C: m.high_C,
      low_C: m.low_C,
      irradiation_kWhm2: m.irradiation_kWhm2day,
      wind_ms: m.wind_ms,
    })),
    notices: notices.map((n) => n.message),
  };
}

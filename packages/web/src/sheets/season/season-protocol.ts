import type { Project } from '@sunlap/project/schema/project';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import type { CsvMapping } from '@sunlap/workbench/weather/plain-csv';
import type { WeatherNotice } from './weather-found';

export type SeasonAsk =
  /** A year at once; `full` goes on with changes, band and money. */
  | { kind: 'year'; id: number; project: Project; full: boolean }
  | { kind: 'stop' }
  /** A file of a known format, or a plain table read by the mapping. */
  | { kind: 'weather'; id: number; name: string; bytes: Uint8Array; mapping: CsvMapping | null };

export type SeasonReply =
  | {
      kind: 'year';
      id: number;
      answer: SeasonAnswer;
      took_ms: number;
      share: number;
      doing: string;
      ended: boolean;
    }
  | { kind: 'weather'; id: number; found: WeatherNotice }
  | { kind: 'failed'; id: number; message: string };

import type { Project } from '@sunlap/project/schema/project';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import type { WeatherNotice } from './weather-found';

export type SeasonAsk =
  /** A year at once; `full` goes on with changes, band and money. */
  | { kind: 'year'; id: number; project: Project; full: boolean }
  | { kind: 'stop' }
  | { kind: 'weather'; id: number; name: string; bytes: Uint8Array };

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

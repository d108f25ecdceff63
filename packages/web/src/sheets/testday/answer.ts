import type { Span } from '@sunlap/drawing/testDayPlots';
import type { Notice } from '@sunlap/engine/numeric/notice';

/** A test day beside what was to be expected of it. */
export interface Judged {
  day: string;
  at: string;
  measured_W: Span | null;
  expected_W: Span | null;
  verdict: 'agrees' | 'cannotTell' | 'low' | 'high' | null;
  /** The verdict as one says it: `low by a quarter`. */
  words: string;
}

/** All that the sheet shows of the day that is looked at. */
export interface DayAnswer extends Judged {
  flow_m3s: number | null;
  flowExpanded_m3s: number | null;
  rise_K: number | null;
  riseExpanded_K: number | null;
  contributions: readonly { label: string; share: number }[];
  advice: readonly {
    step: string;
    message: string;
    effort: 'minutes' | 'hour' | 'purchase';
    shrink: number;
  }[];
  tubes: readonly TubeAnswer[];
  state: string | null;
  notices: readonly Notice[];
}

export interface TubeAnswer {
  section: string;
  bank: string;
  tube: number;
  /** Over what the network gives it. */
  share: number;
  low: number;
  high: number;
  finding: 'runs' | 'choked' | 'blocked' | 'airBound';
  /** What mending it alone brings. */
  gain_W: number | null;
}

import type { Verdict } from '@sunlap/engine/measurement/agreement';
import type { Project } from '@sunlap/project/schema/project';
import type { Interval } from '../results';
import { judgeDay } from './test-day';
import { verdictWords } from './verdict-words';

/** One day of the log, as the chart of measured against expected draws it. */
export interface LoggedDay {
  id: string;
  name: string | null;
  at: string;
  state: string | null;
  flow_m3s: number | null;
  rise_K: number | null;
  heat_W: number | null;
  heatBand_W: Interval | null;
  expected_W: number | null;
  expectedBand_W: Interval | null;
  normalisedError: number | null;
  verdict: Verdict | null;
  words: string;
  /** Step that would buy most, in words. */
  next: string | null;
  tubesFound: number;
}

/**
 * All test days, oldest first, each judged against the state of its date.
 *
 * @example testDayLog(project).map((d) => `${d.at} ${d.words}`)
 */
export function testDayLog(project: Project): LoggedDay[] {
  return project.testDays
    .map((day, i) => {
      const { result } = judgeDay(project, day, `/testDays/${i}`);
      return {
        id: day.id,
        name: day.name ?? null,
        at: day.at,
        state: result.state.name,
        flow_m3s: result.flow_m3s,
        rise_K: result.rise_K,
        heat_W: result.heat_W,
        heatBand_W: result.heatBand_W,
        expected_W: result.expected_W,
        expectedBand_W: result.expectedBand_W,
        normalisedError: result.normalisedError,
        verdict: result.verdict,
        words: verdictWords(result),
        next: result.advice[0]?.message ?? null,
        tubesFound: result.mending.reduce((sum, m) => sum + m.suspects.length, 0),
      };
    })
    .sort((a, b) => a.at.localeCompare(b.at));
}

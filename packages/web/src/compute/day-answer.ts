import type { LoggedDay } from '@sunlap/workbench/testday/test-day-log';
import type { TestDayAnswer } from '@sunlap/workbench/testday/values';
import { verdictWords } from '@sunlap/workbench/testday/verdict-words';
import type { DayAnswer, Judged } from '../sheets/testday/answer';

const spanOf = (value: number | null, band: { low: number; high: number } | null) =>
  value === null || band === null ? null : { low: band.low, value, high: band.high };

/** What the sheet shows of a use-case's answer: both sides' doubts together, largest first. */
export function dayAnswer({ result: r, notices }: TestDayAnswer): DayAnswer {
  const all = [...r.contributions, ...r.expectedContributions];
  const total = all.reduce((sum, c) => sum + c.standardUncertainty_W ** 2, 0);
  return {
    day: r.day.id,
    at: r.day.at,
    flow_m3s: r.flow_m3s,
    flowExpanded_m3s: r.flowExpanded_m3s,
    rise_K: r.rise_K,
    riseExpanded_K: r.riseExpanded_K,
    measured_W: spanOf(r.heat_W, r.heatBand_W),
    expected_W: spanOf(r.expected_W, r.expectedBand_W),
    verdict: r.verdict,
    words: verdictWords(r),
    contributions: all
      .map((c) => ({ label: c.label, share: total > 0 ? c.standardUncertainty_W ** 2 / total : 0 }))
      .sort((a, b) => b.share - a.share),
    advice: r.advice,
    tubes: r.tubes.map(({ section, bank, tube, share, lower, upper, networkShare, finding, gain_W }) => {
      // of an even tube's flow, as on the drawing: the network's share is of the bank's
      const even = networkShare > 0 ? networkShare : 1;
      return {
        section,
        bank,
        tube,
        share: share / even,
        low: lower / even,
        high: upper / even,
        finding,
        gain_W,
      };
    }),
    state: r.state.name,
    notices,
  };
}

/** A day of the log as the chart and the list show it. */
export const loggedAnswer = (l: LoggedDay): Judged => ({
  day: l.id,
  at: l.at,
  measured_W: spanOf(l.heat_W, l.heatBand_W),
  expected_W: spanOf(l.expected_W, l.expectedBand_W),
  verdict: l.verdict,
  words: l.words,
});

import type { UnitSystem } from '@sunlap/project/units/kinds';
import { say } from '../../shape/quantity';
import { d } from '../../text/testday';
import type { DayAnswer } from './answer';

/** A share of the expected heat in words, as people say it. */
export function shareWords(share: number): string {
  if (share < 0.07) return d.shares.little;
  if (share < 0.15) return d.shares.tenth;
  if (share < 0.225) return d.shares.fifth;
  if (share < 0.29) return d.shares.quarter;
  if (share < 0.42) return d.shares.third;
  return share < 0.58 ? d.shares.half : d.shares.more;
}

export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** `agrees`, `cannot tell`, `low by a quarter` */
export function verdictWords(answer: DayAnswer): string | null {
  const { verdict, measured_W: measured, expected_W: expected } = answer;
  if (verdict === null || measured === null || expected === null) return null;
  if (verdict === 'agrees' || verdict === 'cannotTell') return d.answer[verdict];
  const share = Math.abs(measured.value - expected.value) / Math.max(1, Math.abs(expected.value));
  return d.answer[verdict](shareWords(share));
}

/** `Yours 40, expected 38 to 52: agrees.` */
export function answerSays(answer: DayAnswer, units: UnitSystem): string {
  const { measured_W: m, expected_W: e } = answer;
  const verdict = verdictWords(answer);
  if (m === null || e === null || verdict === null) return d.answer.none;
  const text = (w: number) => say(w, 'heatRate', units);
  return d.answer.says(text(m.value), text(e.low), text(e.high), verdict);
}

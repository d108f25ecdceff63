import type { UnitSystem } from '@sunlap/project/units/kinds';
import { say } from '../../shape/quantity';
import { d } from '../../text/testday';
import type { Judged } from './answer';

export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** `Yours 40, expected 38 to 52: agrees.` */
export function answerSays(judged: Judged, units: UnitSystem): string {
  const { measured_W: m, expected_W: e } = judged;
  const text = (w: number) => say(w, 'heatRate', units);
  if (e === null) return d.answer.none;
  if (m === null) return d.answer.only(text(e.low), text(e.high));
  return d.answer.says(text(m.value), text(e.low), text(e.high), judged.words);
}

import { exact } from '@sunlap/engine/numeric/exact';
import { describe, expect, it } from 'vitest';
import { sayBeside } from '../../src/flow/say';
import { inTheirUnits } from '../../src/testday/day-notices';
import { testDay } from '../../src/testday/test-day';
import { exampleProject } from '../season/examples';

describe('words of a test day', () => {
  it('round once, in the person’s degrees', () => {
    // 0.6667 K is 1.2 °F; by way of 0.7 K it was 1.3
    expect(inTheirUnits(`A rise of ${exact(2 / 3)} K here`, 'us')).toBe('A rise of 1.2 °F here');
    expect(inTheirUnits('The inlet is at -3.2 °C.', 'us')).toBe('The inlet is at 26.2 °F.');
    expect(inTheirUnits('The inlet is at -3.2 °C.', 'metric')).toBe('The inlet is at −3.2 °C.');
    expect(inTheirUnits('good to ±0.1 K.', 'us')).toBe('good to ±0.2 °F.');
    expect(exact(1e-7)).toBe('0');
    expect(exact(-1234.5)).toBe('-1234.5');
  });

  it('show a digit more where a value and its limit would read alike', () => {
    expect(inTheirUnits('A rise of 0.11 K is none (±0.13 K).', 'us')).toBe(
      'A rise of 0.20 °F is none (±0.23 °F).',
    );
    expect(inTheirUnits('A rise of 0.66 K is none (±1.1 K).', 'us')).toBe(
      'A rise of 1.2 °F is none (±2.0 °F).',
    );
    expect(sayBeside(-0.11, 0.13, 'temperatureDifference', 'us')).toBe('−0.20 °F');
    expect(sayBeside(0.1, 0.1, 'temperatureDifference', 'us')).toBe('0.2 °F');
  });

  it('say of the example’s first day what its table says', () => {
    const quince = exampleProject('quince-yard');
    const answer = testDay(quince, '2025-05-17')!;
    const { rise_K, riseExpanded_K } = answer.result;
    const notice = answer.notices.find((n) => /^A rise of/.test(n.message))!;
    const [rise, within] = [
      sayBeside(rise_K!, riseExpanded_K!, 'temperatureDifference', 'us'),
      sayBeside(riseExpanded_K!, rise_K!, 'temperatureDifference', 'us'),
    ];
    expect(notice.message).toContain(`A rise of ${rise} `);
    expect(notice.message).toContain(`(±${within})`);
  });
});

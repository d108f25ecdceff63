import type { Notice, Severity } from '@sunlap/engine/numeric/notice';
import { describe, expect, it } from 'vitest';
import { mendFor } from '../src/shape/mend';
import { rank } from '../src/shape/rank';
import { quinceDoc } from './examples';

const notice = (code: string, severity: Severity, cost?: [number, number]): Notice => ({
  code,
  severity,
  path: '/collector',
  message: code,
  ...(cost === undefined ? {} : { cost_W: cost[0], costShare: cost[1] }),
});
const codes = (list: readonly Notice[]) => rank(list).map((n) => n.code);

describe('rank', () => {
  it('puts a loss of next to nothing below air and draining, above what is only good to know', () => {
    expect(
      codes([
        notice('trifle', 'heat', [4, 0.0006]),
        notice('known', 'info'),
        notice('drain', 'unsure'),
        notice('loss', 'heat', [900, 0.1]),
        notice('air', 'unsure', [1297, 0.22]),
        notice('hot', 'damage'),
        notice('scald', 'safety'),
      ]),
    ).toEqual(['scald', 'hot', 'loss', 'air', 'drain', 'trifle', 'known']);
  });

  it('orders trifles by their size', () => {
    expect(codes([notice('less', 'heat', [1, 0.0001]), notice('more', 'heat', [5, 0.004])])).toEqual([
      'more',
      'less',
    ]);
  });

  it('leaves a loss of unknown size, or one of flow alone, where lost heat stands', () => {
    const flowOnly: Notice = { ...notice('flow', 'heat'), costShare: 0.0002 };
    expect(codes([notice('doubt', 'unsure'), flowOnly, notice('unsized', 'heat')])).toEqual([
      'flow',
      'unsized',
      'doubt',
    ]);
  });

  it('says each once', () => {
    expect(rank([notice('twice', 'heat'), notice('twice', 'heat')])).toHaveLength(1);
  });

  it('keeps the step that mends a trifle', () => {
    const small: Notice = {
      ...notice('header-too-small', 'heat', [4, 0.0006]),
      path: '/collector/sections/0/banks/1/supply',
    };
    const [ranked] = rank([small]);
    expect(ranked.severity).toBe('heat');
    expect(mendFor(ranked, quinceDoc())).not.toBeNull();
  });
});

import type { Repair } from '@sunlap/project/schema/life';
import { describe, expect, it } from 'vitest';
import { history } from '../../src/state/history';
import { recordRepair, recordState } from '../../src/state/record';
import { repaired } from '../../src/state/repairs';
import { stateAt } from '../../src/state/state-at';
import { collector, loop, project, section, tubes } from '../fixtures';

const one = collector([section('a')]);
const two = collector([section('a'), section('b')]);
const states = [
  { id: 'second', from: '2025-06-01', name: 'Two', collector: two, loop: loop() },
  { id: 'first', from: '2024-05-01', name: 'One', collector: one, loop: loop() },
];
const lived = project({ collector: two, asBuilt: states });
const repair = (over: Partial<Repair>): Repair => ({
  id: 'r',
  date: '2025-07-01',
  section: 'a',
  bank: 'a1',
  tube: 3,
  what: 'plugged',
  ...over,
});
const blockedOn = (repairs: Repair[], date: string) =>
  stateAt({ ...lived, repairs }, date).project.collector.sections[0].banks[0].blocked ?? [];

describe('the heater as it stood on a day', () => {
  it('is the latest state from that day or before, in whatever order they are written', () => {
    const on = (date: string) => stateAt(lived, date).state?.id;
    expect(on('2024-05-01')).toBe('first');
    expect(on('2025-05-31T23:59')).toBe('first');
    expect(on('2025-06-01T00:00')).toBe('second');
    expect(on('2031-01-01')).toBe('second');
  });

  it('is the project itself where no states are kept', () => {
    const plain = project();
    const found = stateAt(plain, '2026-01-01');
    expect(found.project).toBe(plain);
    expect([found.state, found.notices]).toEqual([null, []]);
  });

  it('says when a day lies before the first state, or names one that is not there', () => {
    const early = stateAt(lived, '2020-01-01');
    expect(early.state?.id).toBe('first');
    expect(early.notices[0].code).toBe('state-before-first');
    expect(stateAt(lived, '2026-01-01', 'first').state?.id).toBe('first');
    const wrong = stateAt(lived, '2026-01-01', 'third');
    expect([wrong.state?.id, wrong.notices[0].code]).toEqual(['second', 'state-unknown']);
  });

  it('has its repairs from their day on, and only those since it was built', () => {
    const plugged = repair({});
    expect(blockedOn([plugged], '2025-06-30')).toEqual([]);
    expect(blockedOn([plugged], '2025-07-01')).toEqual([3]);
    // a rebuild describes itself: what was plugged before it no longer counts
    expect(blockedOn([repair({ date: '2024-08-01' })], '2025-07-01')).toEqual([]);
    expect(blockedOn([repair({ date: '2024-08-01' })], '2024-09-01')).toEqual([3]);
    const mended = repair({ id: 'm', date: '2025-08-01', what: 'coupled' });
    expect(blockedOn([mended, plugged], '2025-07-15')).toEqual([3]);
    expect(blockedOn([mended, plugged], '2025-08-01')).toEqual([]);
  });
});

describe('repairs', () => {
  const marked = collector([section('a', { banks: [tubes('a1', { blocked: [2, 5], airBound: [7] })] })]);
  const bankAfter = (over: Partial<Repair>) => repaired(marked, [repair(over)]).sections[0].banks[0];

  it('plug, free one, or free all of a bank', () => {
    expect(bankAfter({ tube: 7 })).toMatchObject({ blocked: [2, 5, 7], airBound: [] });
    expect(bankAfter({ tube: 5, what: 'replaced' })).toMatchObject({ blocked: [2], airBound: [7] });
    expect(bankAfter({ tube: undefined, what: 'cleaned' })).toMatchObject({ blocked: [], airBound: [] });
  });

  it('leave alone what they do not name', () => {
    for (const over of [
      { section: 'x' },
      { bank: 'x' },
      { section: undefined },
      { what: 'other' as const },
      { tube: 99 },
      { tube: 4, what: 'coupled' as const },
      { tube: undefined, what: 'plugged' as const },
    ])
      expect(repaired(marked, [repair(over)]), JSON.stringify(over)).toBe(marked);
  });
});

describe('records', () => {
  it('keep one state a day and give each a name of its own', () => {
    const first = recordState(project(), { from: '2026-04-01', name: 'As built' });
    const again = recordState({ ...first, collector: two }, { from: '2026-04-01', name: 'As built, mended' });
    expect(again.asBuilt).toHaveLength(1);
    expect(again.asBuilt[0]).toMatchObject({ name: 'As built, mended', collector: two });
    const twice = recordRepair(recordRepair(first, repair({})), repair({}));
    expect(new Set(twice.repairs.map((r) => r.id)).size).toBe(2);
    expect(stateAt(twice, '2026-05-01').repairs).toEqual([]);
  });

  it('read as a history: on one day the change, then repairs, then what was measured', () => {
    const p = {
      ...recordRepair(
        recordState(project(), { from: '2026-04-01', name: 'Built' }),
        repair({ date: '2026-04-01' }),
      ),
      testDays: [{ id: 'd', at: '2026-04-01T11:00' }],
    };
    expect(history(p).map((e) => e.kind)).toEqual(['state', 'repair', 'testDay']);
    expect(history(p)[1].title).toBe('Plugged: a1 tube 3');
  });
});

import { describe, expect, it } from 'vitest';
import { editRepair, editState, removeRepair, removeState } from '../../src/sheets/testday/history-edits';
import { isLegal, quinceDoc } from '../examples';

const doc = quinceDoc();
const base = doc.project;
const { collector, loop } = base;
const project = {
  ...base,
  asBuilt: [
    { id: 's1', from: '2024-05-01', name: 'First', collector, loop },
    { id: 's2', from: '2025-05-01', name: 'Second', change: 'A third section', collector, loop },
  ],
  repairs: [
    { id: 'r1', date: '2025-06-01', what: 'coupled' as const, notes: 'split' },
    { id: 'r2', date: '2025-07-01', what: 'plugged' as const, section: 'A', bank: 'A1', tube: 3 },
  ],
  testDays: [{ id: 'd1', at: '2025-06-20T11:00', state: 's2' }],
};
const legal = (p: typeof project): boolean => isLegal({ ...doc, project: p });

describe('edits of the history', () => {
  it('give a state another day and name, in the order of days', () => {
    const after = editState(project, 's2', { from: '2023-04-01', name: 'Before', change: '' });
    expect(after.asBuilt.map((s) => s.id)).toEqual(['s2', 's1']);
    expect(after.asBuilt[0]).toMatchObject({ name: 'Before', from: '2023-04-01' });
    expect('change' in after.asBuilt[0]).toBe(false);
    expect(legal(after as typeof project)).toBe(true);
  });

  it('refuse a day that is taken and an empty name', () => {
    expect(editState(project, 's2', { from: '2024-05-01' })).toBe(project);
    expect(editState(project, 's2', { name: '  ' })).toBe(project);
  });

  it('take a state out, and leave no test day that names it', () => {
    const after = removeState(project, 's2');
    expect(after.asBuilt.map((s) => s.id)).toEqual(['s1']);
    expect(after.testDays[0].state).toBeUndefined();
    expect(legal(after as typeof project)).toBe(true);
  });

  it('change and remove a repair, its place kept', () => {
    const after = editRepair(project, 'r2', { date: '2025-05-15', what: 'replaced', notes: 'new tube' });
    expect(after.repairs[0]).toMatchObject({ id: 'r2', what: 'replaced', tube: 3, notes: 'new tube' });
    expect(legal(after as typeof project)).toBe(true);
    expect('notes' in editRepair(project, 'r1', { notes: '' }).repairs[0]).toBe(false);
    expect(removeRepair(project, 'r1').repairs.map((r) => r.id)).toEqual(['r2']);
  });
});

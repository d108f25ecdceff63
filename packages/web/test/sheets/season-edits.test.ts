import { previewTable } from '@sunlap/workbench/weather/guess-mapping';
import { describe, expect, it } from 'vitest';
import { clockText, readClock } from '../../src/shape/clock';
import { cellText, readCell } from '../../src/sheets/season/climate-cells';
import { lacking, mappingFor, roleOf, withRole, withUnit } from '../../src/sheets/season/csv-map';
import { pulled, sameEverywhere } from '../../src/sheets/season/run-plan';
import { quinceDoc } from '../examples';

const { project } = quinceDoc();
const hours = {
  ...project,
  season: {
    ...project.season,
    run: {
      kind: 'hours' as const,
      months: Array.from({ length: 12 }, (_, m) => ({ from_h: 9, to_h: 17, on: m > 2 })),
    },
  },
};

describe('hours of the clock', () => {
  it('are read as people write them', () => {
    const rows: [string, number | null][] = [
      ['9', 9],
      ['9:30', 9.5],
      ['5 pm', 17],
      ['12am', 0],
      ['12 pm', 12],
      ['17:45', 17.75],
      ['noon', 12],
      ['midnight', 24],
      ['25', null],
      ['9:75', null],
      ['13 pm', null],
      ['soon', null],
    ];
    for (const [text, hour] of rows) expect(readClock(text)).toBe(hour);
  });
  it('are read again as they are written', () => {
    for (let h = 0; h < 24; h += 0.25)
      for (const u of ['us', 'metric'] as const) expect(readClock(clockText(h, u))).toBeCloseTo(h, 9);
  });
});

describe('figures of the climate', () => {
  it('are taken in the person’s units and in any other', () => {
    expect(readCell('high_C', '104', 'us')).toEqual({ ok: true, column: 'high_C', value: 40 });
    expect(readCell('sunshine_h', '5.6 kWh/m²', 'us')).toMatchObject({ column: 'irradiation_kWhm2' });
    expect(readCell('humidity', '42', 'us')).toEqual({ ok: true, column: 'humidity', value: 0.42 });
    expect(readCell('humidity', '55 F', 'us')).toMatchObject({ column: 'dewPoint_C' });
    expect(readCell('rain_mm', '2', 'us')).toMatchObject({ value: 50.8 });
    expect(readCell('high_C', 'warm', 'us').ok).toBe(false);
    expect(readCell('sunshine_h', '30', 'metric').ok).toBe(false);
    expect(cellText('high_C', 40, 'us')).toBe('104');
  });
});

describe('the run plan by hand', () => {
  it('is pulled by half hours and never turned inside out', () => {
    const of = (p: typeof project, m: number) =>
      p.season?.run?.kind === 'hours' ? p.season.run.months[m] : null;
    expect(of(pulled(hours, 5, 'from_h', 7.3), 5)).toMatchObject({ from_h: 7.5, to_h: 17 });
    expect(of(pulled(hours, 5, 'from_h', 23), 5)).toMatchObject({ from_h: 16.5, to_h: 17 });
    expect(of(pulled(hours, 5, 'to_h', 99), 5)).toMatchObject({ to_h: 24 });
    const same = sameEverywhere(pulled(hours, 5, 'to_h', 19), 5);
    expect(of(same, 8)).toMatchObject({ to_h: 19 });
    expect(of(same, 0)).toMatchObject({ to_h: 17, on: false });
  });
});

describe('columns of a table', () => {
  const text = 'When,T out (F),Sun\n2024-05-01 00:00,60,0\n2024-05-01 01:00,59,0\n';
  const mapping = mappingFor('t.csv', previewTable(text)!, project);
  it('are what the person says, one column for one thing', () => {
    expect(roleOf(mapping, 1)).toBe('stamp');
    expect(roleOf(mapping, 3)).toBe('global_Wm2');
    const moved = withRole(mapping, 2, 'global_Wm2');
    expect(roleOf(moved, 3)).toBe('none');
    expect(lacking(moved)).toEqual(['air']);
    const split = withRole(mapping, 1, 'date');
    expect(lacking(split)).toContain('time');
    expect(lacking(withRole(split, 3, 'clock'))).toEqual(
      lacking(withRole(split, 3, 'clock')).filter((l) => l !== 'time'),
    );
    expect(withUnit(mapping, 'global_Wm2', 'kJ/m²').columns.global_Wm2?.unit).toBe('kJ/m²');
  });
});

import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { build } from '../../src/build/build';
import { check } from '../../src/check/check';
import { fileFaults } from '../../src/check/file-faults';
import { structureNotices } from '../../src/check/structure';
import { zoneNotices } from '../../src/check/zone-notices';
import { sayIn } from '../../src/flow/say';
import { heat } from '../../src/heat/heat';
import { seasonBasic } from '../../src/season/season';
import { sun } from '../../src/sun/sun';

const start = startProject(usualAnswers('us'));
const quick = { startUp: false, breaker: false };
const inZone = (timeZone: string, longitude_deg: number): Project => ({
  ...start,
  site: { ...start.site, timeZone, longitude_deg },
});
const zone = (p: Project) => zoneNotices(p).map((n) => n.code);
const withBank = (over: object): Project => ({
  ...start,
  collector: {
    ...start.collector,
    sections: start.collector.sections.map((s) => ({ ...s, banks: s.banks.map((b) => ({ ...b, ...over })) })),
  },
});

describe('the clock of the place', () => {
  it('belongs to its longitude', () => {
    expect(zone(inZone('America/Denver', -106.6))).toEqual([]);
    expect(zone(inZone('America/Denver', 106.6))).toEqual(['time-zone-odd']);
    expect(zone(inZone('Europe/Paris', -106.6))).toEqual(['time-zone-odd']);
    expect(zone(inZone('Mars/Base', -106.6))).toEqual(['unknown-time-zone']);
  });

  it('may be as odd as the oddest on earth', () => {
    // Kashgar by Peking's clock; Madrid and Vigo by Berlin's; Kiritimati across the date line
    for (const [name, longitude] of [
      ['Asia/Shanghai', 76],
      ['Europe/Madrid', -8.7],
      ['Pacific/Kiritimati', -157.4],
    ] as const)
      expect(zone(inZone(name, longitude)), name).toEqual([]);
  });

  it('is spoken of by whatever takes the sun from it', () => {
    const odd = inZone('Europe/Paris', -106.6);
    const moment = { at: '2026-06-01T12:00' };
    for (const { notices } of [
      check(odd, quick),
      heat(odd, moment, quick),
      seasonBasic(odd),
      sun(odd, moment.at),
    ])
      expect(notices.filter((n) => n.code === 'time-zone-odd')).toHaveLength(1);
    expect(check(inZone('Mars/Base', 0), quick).notices.map((n) => n.code)).toContain('unknown-time-zone');
    const known = heat(inZone('Mars/Base', 0), moment, quick).notices;
    expect(known.filter((n) => n.code === 'unknown-time-zone')).toHaveLength(1);
  });
});

describe('a name that leads nowhere', () => {
  const wrong = withBank({ pipe: 'no-such' });

  it('is one fault, with all its places, and nothing stands in where the file is refused', () => {
    const banks = wrong.collector.sections.flatMap((s) => s.banks).length;
    const found = fileFaults(wrong).filter((n) => n.code === 'unknown-pipe');
    expect(found).toHaveLength(1);
    expect(found[0].path).toBe('/collector/sections/0/banks/0/pipe');
    expect(banks).toBe(2);
    expect(found[0].message).toContain('2 places, also at /collector/sections/0/banks/1/pipe');
    expect(found[0].message).not.toContain('stands in');
  });

  it('is stood in for where the person still works on it, and that is said', () => {
    const found = structureNotices(wrong, STANDARD_TABLES, sayIn('us'));
    expect(found.filter((n) => n.code === 'unknown-pipe')[0].message).toContain('stands in for it');
  });
});

describe('tees', () => {
  const header = { pipe: 'pvc-sch40-1/2' };
  const wide = withBank({ pipe: 'pvc-sch40-2', pitch_m: 0.2, supply: header, gather: header });

  it('that nobody makes are told by the check as by the parts', () => {
    const parts = build(wide).notices.map((n) => n.code);
    expect(parts).toContain('build-no-such-tee');
    const found = structureNotices(wide, STANDARD_TABLES, sayIn('us'));
    expect(found.find((n) => n.code === 'tee-not-made')).toMatchObject({
      severity: 'damage',
      path: '/collector/sections/0/banks/0/supply/pipe',
    });
    expect(found.find((n) => n.code === 'tee-beyond-models')?.message).toContain('3.3 times');
  });

  it('of ordinary sizes, and of equal ones, pass', () => {
    for (const p of [
      start,
      withBank({
        pipe: 'pvc-sch40-1',
        pitch_m: 0.2,
        supply: { pipe: 'pvc-sch40-1' },
        gather: { pipe: 'pvc-sch40-1' },
      }),
    ])
      expect(
        structureNotices(p, STANDARD_TABLES, sayIn('us'))
          .map((n) => n.code)
          .filter((c) => c.startsWith('tee-')),
      ).toEqual([]);
  });
});

import { tubeCapacity_JmK } from '@sunlap/engine/collector/standing';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { expect, it } from 'vitest';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { heat } from '../../src/heat/heat';
import { wallCapacity_Jm3K } from '../../src/heat/wall-heat';

const project = startProject({ ...usualAnswers('metric', 40), tubes: 12, passes: 2 });

// Arithmetic on the table of materials: polyethylenes hold a half more to the volume than PVC.
it('takes a wall’s heat from its material', () => {
  expect(wallCapacity_Jm3K('PVC')).toBe(1400 * 1000);
  expect(wallCapacity_Jm3K('LDPE') / wallCapacity_Jm3K('PVC')).toBeGreaterThan(1.3);
  expect(wallCapacity_Jm3K('no such')).toBe(1.45e6);
});

// Invariant: time constant of the first slug in proportion to what water and wall of the tube hold.
it('lets the first slug follow the wall of its own tube', () => {
  const tables = (material: string) => ({
    ...STANDARD_TABLES,
    sizes: (id: string) => ({ ...STANDARD_TABLES.sizes(id), material }),
  });
  const slug = (material: string) =>
    heat(
      project,
      { at: '2026-06-12T12:00', water_C: 26, air_C: 25, wind_ms: 2, sky: 'clear' },
      { tables: tables(material), breaker: false },
    ).result.firstSlug.timeConstant_s;
  const bank = project.collector.sections[0].banks[0];
  if (bank.kind !== 'tubes') throw new Error('no tubes');
  const { bore_m, outer_m } = STANDARD_TABLES.sizes(bank.pipe);
  const holds = (material: string) =>
    tubeCapacity_JmK(bore_m, outer_m, undefined, wallCapacity_Jm3K(material));
  expect(slug('LDPE') / slug('PVC')).toBeCloseTo(holds('LDPE') / holds('PVC'), 3);
});

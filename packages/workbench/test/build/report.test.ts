import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import { report } from '../../src/build/report';
import { CAUTIONS } from '../../src/cautions/catalogue';

function quinceProject(): Project {
  const read = readProject(JSON.stringify(quince));
  if (!read.ok) throw new Error('the example does not read');
  return read.project;
}

describe('the report', () => {
  const plain = quinceProject();
  const html = report(
    { ...plain, build: { done: ['cut'] } },
    { date: '2026-06-12', version: '1.2.3', hours: [13] },
  );
  const text = html.replaceAll(/<style>[\s\S]*<\/style>|<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ');

  it('prints with each notice what it costs', () => {
    expect(text).toMatch(/Costs? (about|under) [\d.]+ % of the heat/);
    expect(text).toMatch(/Damage\. Dry in the sun/);
  });

  it('shows how much a dry tube outgrows a wet one beside it', () => {
    expect(text).toMatch(/stands dry in the sun beside a wet one grows [\d.]+ in more/);
  });

  it('compares flat and slanted by drains, litres, air, heat and pressure', () => {
    for (const head of ['drains', 'stays', 'tubes that may hold air', 'heat', 'lowest pressure'])
      expect(html).toContain(`>${head}</th>`);
    expect(text).toMatch(/slanted [\d.]+ in 1000/);
  });

  it('carries inputs, bands, date and version, and every caution', () => {
    expect(text).toContain('2026-06-12, Sunlap 1.2.3');
    expect(text).toMatch(/flow through the collector [\d.]+ gpm/);
    expect(text).toMatch(/heat into the pool, by doubt about/);
    for (const { title } of CAUTIONS.values()) expect(text).toContain(title);
  });

  it('ticks the steps that are done, and no others', () => {
    expect(text).toMatch(/☑ 2\. Cut: \d+ cuts/);
    expect(text.match(/☑/g)).toHaveLength(1);
  });

  it('says that its money is of the moment where no year was given', () => {
    expect(text).toMatch(/Of this moment only/);
    expect(text).toMatch(/electricity 0\.150 USD\/kWh/);
  });

  it('cuts members from the boards on hand', () => {
    const boards = [
      { id: 'deck', name: 'Deck board', length_m: 3, width_m: 0.14, thickness_m: 0.02, count: 4 },
    ];
    const own = report(
      { ...plain, stock: { pipes: [], parts: [], boards } },
      { date: '2026-06-12', version: '1.2.3', hours: [13] },
    );
    expect(own).toMatch(/Members from boards on hand.*Deck board, 9 ft 10-1\/8 in.*2 × 4 ft 1-5\/8 in/s);
    expect(html).not.toContain('Members from boards on hand');
  });

  it('names no bank, band or doubt by its name in the file', () => {
    expect(text).not.toMatch(/heat_W|_m3s|undefined|NaN|\[object/);
  });
});

import { readFileSync } from 'node:fs';
import DxfParser from 'dxf-parser';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { EXIT, type Io } from '../src/io';
import { main } from '../src/main';

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/${name}.json`, import.meta.url), 'utf8');

/** A world in memory. */
function world(files: Record<string, string> = { 'q.json': example('quince-yard') }) {
  const written: Record<string, string> = {};
  let out = '';
  let err = '';
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    size: async (path) => files[path]?.length ?? { reason: 'there is no such file or folder' },
    read: async (path) => new TextEncoder().encode(files[path]),
    realPath: async (path) => path,
    writeNew: async () => ({ reason: 'not in this test' }),
    write: async (path, text) => {
      if (path.startsWith('no/')) return { reason: 'there is no such folder' };
      written[path] = text;
      return undefined;
    },
    columns: undefined,
    today: () => '2026-06-12',
  };
  return { io, written, out: () => out, err: () => err };
}

describe('parts', () => {
  it('lists the same as text, CSV and JSON', async () => {
    const [text, csv, json] = [world(), world(), world()];
    expect(await main(['parts', 'q.json', '--quick'], text.io)).toBe(EXIT.danger);
    await main(['parts', 'q.json', '--csv'], csv.io);
    await main(['parts', 'q.json', '--json', '--quick'], json.io);
    const rows = Papa.parse<Record<string, string>>(csv.out().trim(), { header: true });
    expect(rows.errors).toEqual([]);
    const { result } = JSON.parse(json.out());
    expect(rows.data.map((r) => [r.part, Number(r.toBuy)])).toEqual(
      result.shop.map((l: { part: string; toBuy: number }) => [l.part, l.toBuy]),
    );
    // cells that are broken go on in the next line, so by the first words
    for (const line of result.shop)
      expect(text.out()).toContain(line.label.split(',')[0].split(' ').slice(0, 2).join(' '));
    expect(result.counts.gluedJoints).toBeGreaterThan(0);
    expect(text.out()).toContain('only over a year');
  });

  it('rests its money on a year, with a cover beside it, and names every input', async () => {
    const w = world();
    expect(await main(['parts', 'q.json'], w.io)).toBe(EXIT.danger);
    const out = w.out().replaceAll(/\s+/g, ' ');
    expect(out).toMatch(/A year brings [\d,]+ kWh into the pool/);
    expect(out).toMatch(/better buy|Neither panel nor cover/);
    expect(out).toMatch(
      /With parts [\d.]+ USD.*efficiency 0.78 to 0.84; heat of a year \d+ kWh.*no interest\./,
    );
  });

  it('goes by the command line before the file, and by the file before what is usual', async () => {
    const file = {
      ...JSON.parse(example('quince-yard')),
      build: { primer: false, tool: 'chopSaw', spares: 0 },
    };
    const run = async (...flags: string[]) => {
      const w = world({ 'q.json': JSON.stringify(file) });
      expect(await main(['parts', 'q.json', '--json', '--quick', ...flags], w.io)).toBe(EXIT.danger);
      return JSON.parse(w.out()).result;
    };
    const own = await run();
    expect(own.gluing.primer_qt).toBe(0);
    expect(own.cutting[0].kerf_m).toBe(0.003);
    expect(own.shop.every((l: { spares: number }) => l.spares === 0)).toBe(true);
    const over = await run('--primer', 'yes', '--kerf', '2 mm', '--spares', '10%', '--water', '50C');
    expect(over.gluing.primer_qt).toBeGreaterThan(0);
    expect(over.cutting[0].kerf_m).toBeCloseTo(0.002, 12);
    expect(over.shop.some((l: { spares: number }) => l.spares > 5)).toBe(true);
    expect(over.pressure.rows[0].running_C).toBeCloseTo(50, 9);
  });

  it('refuses what it does not know, and says what it expected', async () => {
    const w = world();
    expect(await main(['parts', 'q.json', '--tool', 'axe'], w.io)).toBe(EXIT.wrong);
    expect(w.err()).toContain('ratchet, handSaw, chopSaw');
    for (const [flag, value, word] of [
      ['--primer', 'perhaps', 'yes, no'],
      ['--spares', '5', '0% to 100%'],
      ['--kerf', '40 mm', '0 to 20 mm'],
      ['--air', 'warm', '--air warm'],
    ]) {
      const wrong = world();
      expect(await main(['parts', 'q.json', flag, value], wrong.io)).toBe(EXIT.wrong);
      expect(wrong.err()).toContain(word);
    }
    expect(await main(['parts', 'none.json'], world().io)).toBe(EXIT.wrong);
    const full = world();
    expect(await main(['parts', 'q.json', '--csv', '--out', 'no/parts.csv'], full.io)).toBe(EXIT.wrong);
    expect(full.err()).toContain('nothing was written');
  });
});

describe('cuts', () => {
  it('cuts every piece, with its proof, and the kerf of the tool', async () => {
    const [text, csv, ratchet] = [world(), world(), world()];
    await main(['cuts', 'q.json'], text.io);
    expect(text.out()).toMatch(/proven: no plan is cheaper|over the least/);
    expect(await main(['cuts', 'q.json', '--csv', '--out', 'cuts.csv'], csv.io)).toBe(EXIT.danger);
    // what makes it end so is said beside the file
    expect(csv.err()).toMatch(/^cuts\.csv\n[\s\S]*(DAMAGE|SAFETY)/);
    const rows = Papa.parse<Record<string, string>>(csv.written['cuts.csv'].trim(), { header: true }).data;
    await main(['cuts', 'q.json', '--json', '--tool', 'ratchet'], ratchet.io);
    const { result } = JSON.parse(ratchet.out());
    expect(result.cutting[0].kerf_m).toBe(0);
    const pieces = rows.reduce((sum, r) => sum + Number(r.bars) * Number(r.perBar), 0);
    const needed = result.cutting.reduce(
      (sum: number, s: { pieces: { count: number }[] }) => sum + s.pieces.reduce((n, p) => n + p.count, 0),
      0,
    );
    expect(pieces).toBe(needed);
  });
});

describe('draw', () => {
  it('writes one file for each drawing, SVG or DXF', async () => {
    const w = world();
    expect(await main(['draw', 'q.json', 'header', '--dxf', '--out', 'q'], w.io)).toBe(EXIT.danger);
    expect(w.err()).toMatch(/DAMAGE|SAFETY/);
    const names = Object.keys(w.written);
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) {
      expect(name).toMatch(/^q-header-\d+\.dxf$/);
      expect(new DxfParser().parseSync(w.written[name])?.entities.length).toBeGreaterThan(20);
    }
    const svg = world();
    expect(await main(['draw', 'q.json', 'loop', '--svg'], svg.io)).toBe(EXIT.danger);
    expect(svg.out()).toMatch(/^<svg /);
  });

  it('asks for a name when there are several, and for one of the two forms', async () => {
    const several = world();
    expect(await main(['draw', 'q.json', 'panel', '--svg'], several.io)).toBe(EXIT.wrong);
    expect(several.err()).toContain('--out PREFIX');
    expect(await main(['draw', 'q.json', 'panel'], world().io)).toBe(EXIT.wrong);
    expect(await main(['draw', 'q.json', 'moon', '--svg'], world().io)).toBe(EXIT.wrong);
  });
});

describe('report', () => {
  it('is one whole HTML file of the day asked for, and keeps words of the file from becoming markup', async () => {
    const project = { ...JSON.parse(example('quince-yard')), name: '<b onclick="x()">&' };
    const w = world({ 'q.json': JSON.stringify(project) });
    expect(await main(['report', 'q.json', '--out', 'r.html', '--units', 'metric', '--quick'], w.io)).toBe(
      EXIT.danger,
    );
    expect(w.err()).toMatch(/DAMAGE|SAFETY/);
    const html = w.written['r.html'];
    expect(html).toMatch(/^<!doctype html>/);
    expect(html).toContain('2026-06-12');
    expect(html).toContain('Invented demonstration data');
    const titles = ['Shop list', 'Cutting plan', 'Order of work', 'Expected on a test day', 'All cautions'];
    for (const title of [...titles, 'Inputs and bands']) expect(html).toContain(`<h2>${title}</h2>`);
    expect(html).not.toMatch(/NaN|undefined|\[object/);
    expect(html).toMatch(/\d+ mm/);
    expect(html).not.toContain('<b onclick');
    expect(html).toContain('&lt;b onclick=&quot;x()&quot;&gt;&amp;');
  });

  it('wants a day', async () => {
    expect(await main(['report', 'q.json', '--date', 'June'], world().io)).toBe(EXIT.wrong);
  });
});

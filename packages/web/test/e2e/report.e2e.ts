import { readFileSync } from 'node:fs';
import { readProject } from '@sunlap/project/file/read';
import { report } from '@sunlap/workbench/build/report';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch } from './browser';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});

function reportOf(name: string): string {
  const text = readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8');
  const read = readProject(text);
  if (!read.ok) throw new Error(`${name} does not read`);
  return report(read.project, { date: '2026-06-12', version: 'test' });
}

interface Place {
  page: number;
  /** From the page's lower edge, points. */
  y: number;
}

/** Named places of a PDF: page numbers from 1 and heights. The writer leaves its dictionaries in plain text. */
function placesIn(pdf: Buffer): { places: Map<string, Place>; pages: number } {
  const text = pdf.toString('latin1');
  const kids = /\/Type \/Pages[\s\S]*?\/Kids \[([^\]]*)\]/g;
  const order: string[] = [];
  const leaves = new Set([...text.matchAll(/(\d+) 0 obj\s*<<\/Type \/Page\s/g)].map((m) => m[1]));
  for (const m of text.matchAll(kids))
    for (const ref of m[1].matchAll(/(\d+) 0 R/g)) if (leaves.has(ref[1])) order.push(ref[1]);
  const places = new Map<string, Place>();
  for (const m of text.matchAll(/\/?\(?(mark-[\w-]+)\)? \[(\d+) 0 R \/XYZ [\d.-]+ ([\d.-]+)/g))
    places.set(m[1], { page: order.indexOf(m[2]) + 1, y: Number(m[3]) });
  return { places, pages: order.length };
}

/** Whatever must not be cut, and headings with the first thing under them, as pairs of places. */
async function marked(html: string, format: 'A4' | 'Letter') {
  const page = await browser.newPage();
  await page.setContent(html);
  const pairs = await page.evaluate(() => {
    const out: { what: string; a: string; b: string }[] = [];
    const links: string[] = [];
    let n = 0;
    const mark = (at: Element, where: InsertPosition): string => {
      const id = `mark-${n++}`;
      const span = document.createElement('span');
      span.id = id;
      at.insertAdjacentElement(where, span);
      links.push(id);
      return id;
    };
    for (const table of document.querySelectorAll('table')) {
      const cells = table.querySelectorAll('td');
      out.push({
        what: `table ${table.querySelector('caption')?.textContent}`,
        a: mark(table.querySelector('caption')!, 'afterbegin'),
        b: mark(cells[cells.length - 1], 'beforeend'),
      });
    }
    for (const box of document.querySelectorAll('.card, .step')) {
      const texts = box.querySelectorAll('li, aside p');
      out.push({
        what: `box ${box.querySelector('h3')?.textContent}`,
        a: mark(box.querySelector('h3')!, 'afterbegin'),
        b: mark(texts[texts.length - 1], 'beforeend'),
      });
    }
    for (const heading of document.querySelectorAll('h2, h3, figcaption')) {
      let next = heading.nextElementSibling;
      if (next?.tagName === 'P' && next.nextElementSibling) next = next.nextElementSibling;
      const inner = next?.querySelector('caption, figcaption, li, h3, dt') ?? next;
      if (!inner || inner.tagName === 'svg') continue;
      out.push({
        what: `heading ${heading.textContent}`,
        a: mark(heading, 'afterbegin'),
        b: mark(inner, 'afterbegin'),
      });
    }
    // a PDF names only places that something links to
    const foot = document.createElement('div');
    foot.style.fontSize = '1px';
    foot.innerHTML = links.map((id) => `<a href="#${id}">.</a>`).join(' ');
    document.body.append(foot);
    return out;
  });
  const pdf = await page.pdf({ format, printBackground: true });
  await page.close();
  return { pairs, ...placesIn(pdf) };
}

describe.each(['quince-yard', 'tern-roof'])('the report of %s', (name) => {
  const html = reportOf(name);

  it.each(['A4', 'Letter'] as const)(
    'prints on %s without a cut table, a cut card or an orphaned heading',
    async (format) => {
      const { pairs, places, pages } = await marked(html, format);
      expect(pages).toBeGreaterThan(5);
      expect(pairs.filter((p) => p.what.startsWith('table')).length).toBeGreaterThan(8);
      expect(pairs.filter((p) => p.what.startsWith('heading')).length).toBeGreaterThan(15);
      for (const { what, a, b } of pairs) {
        const [from, to] = [places.get(a), places.get(b)];
        expect(from?.page, `${what}: its beginning is in the PDF`).toBeGreaterThan(0);
        expect(to?.page, `${what}: its end is on the same page`).toBe(from?.page);
      }
    },
  );

  it('asks nothing of the network and runs nothing', async () => {
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (r) => asked.push(r.url()));
    await page.setContent(html);
    expect(asked).toEqual([]);
    expect(html).not.toMatch(/<script|<link|<img|url\(/);
    expect(html).toContain('2026-06-12');
    await page.close();
  });

  it('fits its paper: nothing is wider than the page', async () => {
    const page = await browser.newPage({ viewport: { width: 690, height: 1000 } });
    await page.setContent(html);
    await page.emulateMedia({ media: 'print' });
    const wide = await page.evaluate(() =>
      [...document.querySelectorAll('table, figure, .card, pre, p')]
        .filter((e) => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline')
        .map((e) => e.textContent?.slice(0, 60)),
    );
    expect(wide).toEqual([]);
    await page.close();
  });
});

describe('what the test sees', () => {
  it('notices a table that is cut', async () => {
    const rows = Array.from({ length: 90 }, (_, i) => `<tr><td>row ${i}</td></tr>`).join('');
    const { pairs, places } = await marked(
      `<table><caption>long</caption><tbody>${rows}</tbody></table>`,
      'A4',
    );
    expect(places.get(pairs[0].b)!.page).toBeGreaterThan(places.get(pairs[0].a)!.page);
  });
});

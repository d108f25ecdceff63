import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DESK, ownBrowser, PHONE, settled } from './browser';

/**
 * What may be fetched before the first answer, script as a server packs it [bytes]. 130 kB are aimed at; the parts list,
 * from which the flow takes the joints in the water's way, is the 18 that go over it, and there is a little room.
 */
const MOST_BYTES = 156_000;

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

const built = (path: string) => fileURLToPath(new URL(`../../dist${path}`, import.meta.url));

const browser = ownBrowser();
let server: Server;
let address = '';
/** Every file that page and workers asked for, with when. */
const asked: { path: string; at: number }[] = [];

beforeAll(async () => {
  server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://here');
    const path = pathname === '/' ? '/index.html' : pathname;
    asked.push({ path, at: Date.now() });
    try {
      const body = readFileSync(built(path));
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' });
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const at = server.address();
  address = typeof at === 'object' && at !== null ? `http://127.0.0.1:${at.port}/` : '';
});
afterAll(() => {
  server?.close();
});

/** Opens the app as a first visitor does. */
async function firstVisit(options: typeof DESK) {
  asked.length = 0;
  const context = await browser().newContext({ ...options, serviceWorkers: 'block' });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.addInitScript(() => {
    const seen = window as unknown as { answeredAt?: number };
    new MutationObserver(() => {
      const cells = [...document.querySelectorAll('.title-block .cell-value')];
      if (cells.some((cell) => /\d/.test(cell.textContent ?? ''))) seen.answeredAt ??= Date.now();
    }).observe(document, { subtree: true, childList: true, characterData: true });
  });
  await page.goto(address);
  await settled(page);
  const answeredAt = await page.evaluate(() => (window as unknown as { answeredAt: number }).answeredAt);
  await context.close();
  const scripts = asked.filter(({ path }) => path.endsWith('.js'));
  const before = new Set(scripts.filter(({ at }) => at < answeredAt).map(({ path }) => path));
  return { complaints, before, all: new Set(scripts.map(({ path }) => path)) };
}

const packed = (paths: ReadonlySet<string>) =>
  [...paths].reduce((sum, path) => sum + gzipSync(readFileSync(built(path)), { level: 9 }).length, 0);

describe('the first load', () => {
  for (const [name, options] of [
    ['desk', DESK],
    ['phone', PHONE],
  ] as const)
    it(`takes less than ${MOST_BYTES / 1000} kB of script up to the first answer: ${name}`, async () => {
      const { complaints, before, all } = await firstVisit(options);
      expect(complaints).toEqual([]);
      // the worker that answers, and what it computes with, are among them; the longer studies are not
      expect([...before].some((path) => /\/worker-/.test(path))).toBe(true);
      expect(all.size).toBeGreaterThan(before.size);
      expect(packed(before)).toBeGreaterThan(MOST_BYTES / 2);
      expect(packed(before)).toBeLessThan(MOST_BYTES);
    });
});

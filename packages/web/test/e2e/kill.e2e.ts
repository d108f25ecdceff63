import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { chromiumPath } from './browser';

const profile = mkdtempSync(join(tmpdir(), 'sunlap-kill-'));
let child: ChildProcess | null = null;
let browser: Browser | null = null;

/** A browser of our own on one profile, so that it can be killed and started again. */
async function start(): Promise<Page> {
  const portFile = join(profile, 'DevToolsActivePort');
  rmSync(portFile, { force: true });
  child = spawn(
    chromiumPath(),
    [
      '--headless=new',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      '--no-first-run',
      '--disable-gpu',
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      'about:blank',
    ],
    { stdio: 'ignore', detached: true },
  );
  let port = '';
  for (let i = 0; i < 400 && port === ''; i++) {
    await wait(50);
    if (existsSync(portFile)) port = readFileSync(portFile, 'utf8').split('\n')[0];
  }
  browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const context = browser.contexts()[0];
  const page = context.pages()[0] ?? (await context.newPage());
  return page;
}

function kill() {
  if (child?.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  child = null;
}

const wait = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

/** Opens the home screen; asks once more where a browser that was just killed does not come to itself. */
async function open(page: Page) {
  const asked = async (timeout: number) => {
    await page.goto(`${inject('address')}#home`, { waitUntil: 'commit', timeout });
    await page.waitForSelector('.own-panel .pull', { timeout });
  };
  await asked(20_000).catch(() => asked(60_000));
}

/** What the home screen says of the panel. */
const panel = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('.own-number, .counter output')].map((e) => e.textContent).join(' '),
  );

/** One random edit; the panel it makes and whether it was said to be kept. */
const edit = (page: Page, seed: number) =>
  page.evaluate(async (n) => {
    const handles = [...document.querySelectorAll<HTMLElement>('.own-panel .pull')];
    const steppers = [...document.querySelectorAll<HTMLButtonElement>('.counter .stepper')];
    const choice = n % 6;
    if (choice < 4)
      handles[choice % 2].dispatchEvent(
        new KeyboardEvent('keydown', { key: choice < 2 ? 'ArrowUp' : 'ArrowDown', bubbles: true }),
      );
    else steppers[choice - 4].click();
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    return [...document.querySelectorAll('.own-number, .counter output')].map((e) => e.textContent).join(' ');
  }, seed);

const isSaved = (page: Page) =>
  page.evaluate(() => document.querySelector('.job span')?.textContent === 'saved');

/** A plain random sequence, the same each time. */
function randoms(seed: number): () => number {
  let x = seed;
  return () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return x / 2 ** 32;
  };
}

beforeAll(async () => {
  await start();
});
afterAll(() => {
  kill();
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
});

describe('killed at random moments', () => {
  it('during 100 random edits, the last finished step is there', async () => {
    const random = randoms(20260412);
    let page = browser!.contexts()[0].pages()[0];
    await page.goto(inject('address'));
    await page.getByRole('button', { name: /planning/ }).click();
    await page.getByRole('button', { name: /Leave/ }).click();
    await expect.poll(() => isSaved(page)).toBe(true);
    let done = 0;
    let kills = 0;
    await open(page);
    while (done < 100) {
      /** Panels in the order in which they were made in this life, and the last that was said to be kept. */
      const made = [await panel(page)];
      let finished = 0;
      const edits = Math.min(100 - done, 4 + Math.floor(random() * 16));
      for (let i = 0; i < edits; i++) {
        made.push(await edit(page, Math.floor(random() * 1e6)));
        done++;
        if (random() < 0.6) await wait(random() * 40);
        if (await isSaved(page)) finished = made.length - 1;
      }
      await wait(random() * 15);
      kills++;
      if (kills % 2 === 0) {
        // the tab alone: what was made must be there to the last step
        const cdp = await page.context().newCDPSession(page);
        void cdp.send('Page.crash').catch(() => {});
        await wait(150);
        const next = await page.context().newPage();
        await page.close().catch(() => {});
        page = next;
        finished = made.length - 1;
      } else {
        kill();
        page = await start();
      }
      await open(page);
      const found = await panel(page);
      const story = `life ${kills}, kept up to ${finished} of ${made.length}: ${made.join(' | ')}`;
      expect(made.slice(finished), story).toContain(found);
    }
    expect(kills).toBeGreaterThan(5);
    expect(await page.locator('.job strong').innerText()).toBe('My planned heater');
  }, 300_000);
});

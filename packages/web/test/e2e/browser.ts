import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import {
  type Browser,
  type BrowserContextOptions,
  chromium,
  type FileChooser,
  type Locator,
  type Page,
} from 'playwright-core';
import { afterAll, beforeAll, expect, inject } from 'vitest';

const PLACES = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

export function chromiumPath(): string {
  const found = PLACES.find((p) => p !== undefined && p !== '' && existsSync(p));
  if (found === undefined) throw new Error('no Chromium found: set CHROMIUM to its path');
  return found;
}

export async function launch(): Promise<Browser> {
  const executablePath = chromiumPath();
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({ executablePath, args });
}

/** A browser for all tests of a file: begun before the first of them, closed after the last. */
export function ownBrowser(): () => Browser {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser.close());
  return () => browser;
}

export const DESK = { viewport: { width: 1280, height: 860 } };
export const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };

export interface Opened {
  page: Page;
  /** Whatever the page complained of. */
  complaints: string[];
}

/** A person with an empty browser. Motion is reduced, so that what is seen is final. */
export async function visit(
  browser: Browser,
  options: BrowserContextOptions = DESK,
  hash = '',
): Promise<Opened> {
  const context = await browser.newContext({
    reducedMotion: 'reduce',
    // what is tested is what was built, not what an older run left in a cache
    serviceWorkers: 'block',
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(`${inject('address')}${hash}`);
  return { page, complaints };
}

/** Until every answer on the sheet, bands and notes included, belongs to what is shown. */
export async function settled(page: Page): Promise<void> {
  await page.waitForSelector('.title-block[aria-busy="false"]', { timeout: 60_000 });
}

/** Text as it is seen. */
export const textOf = async (locator: Locator): Promise<string> => {
  await locator.waitFor();
  return (await locator.allInnerTexts())[0];
};

/** Opens a margin note by its words, the lesser ones too. */
export async function openNote(page: Page, words: RegExp): Promise<void> {
  const more = page.locator('.notes-more[aria-expanded="false"]');
  if ((await more.count()) > 0) await more.click();
  await page.locator('.note-main', { hasText: words }).first().click();
}

/** Value of a cell of the title block by its label. */
export async function answer(page: Page, label: string): Promise<string> {
  const cell = page.locator('.cell', {
    has: page.locator('.cell-label', { hasText: new RegExp(`^${label}$`) }),
  });
  return (await textOf(cell.locator('.cell-value'))).trim();
}

export const numberIn = (text: string): number => Number(text.replaceAll(/[^\d.−-]/g, '').replace('−', '-'));

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  id: string;
  nodes: { target: unknown; failureSummary?: string }[];
}

/** No finding of axe-core, WCAG 2.2 AA and best practice. */
export async function expectAccessible(page: Page): Promise<void> {
  await page.evaluate(axeSource);
  const violations = await page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } };
    return (await axe.run()).violations;
  });
  const found = violations.map(
    (v) =>
      `${v.id}: ${v.nodes
        .slice(0, 3)
        .map((n) => `${JSON.stringify(n.target)} ${n.failureSummary ?? ''}`)
        .join(' | ')}`,
  );
  expect(found).toEqual([]);
}

/** Nothing to be pushed sideways. */
export async function expectNoSideways(page: Page): Promise<void> {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(over).toBeLessThanOrEqual(0);
}

/**
 * Asks for a file with the key of the command, as a person would, and again when nothing came of it: a busy
 * browser may drop a chooser that is asked for before the page counts as touched.
 */
export async function chooser(page: Page): Promise<FileChooser> {
  for (let attempt = 1; ; attempt++) {
    const choosing = page.waitForEvent('filechooser', { timeout: 8_000 });
    await page.keyboard.press('o');
    try {
      return await choosing;
    } catch (error) {
      if (attempt === 3) throw error;
    }
  }
}

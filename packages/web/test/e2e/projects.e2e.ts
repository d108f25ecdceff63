import type { Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { DESK, expectAccessible, ownBrowser, PHONE, settled, visit } from './browser';

const browser = ownBrowser();

const SHEET = '#collector';
const saved = (page: Page) =>
  expect.poll(() => page.locator('.job').innerText(), { timeout: 20_000 }).toMatch(/saved$/);
const count = (page: Page) => page.locator('[data-field="count"]').innerText();
/** One tube more in every pass, by keyboard. */
async function more(page: Page): Promise<string> {
  const handle = page.getByRole('slider', { name: /Tubes in a pass/ });
  await handle.focus();
  await handle.press('ArrowUp');
  return count(page);
}
const openProjects = async (page: Page) => {
  await page.locator('body').press('Control+k');
  await page.keyboard.type('Projects and history');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.projects');
};

describe('projects in the browser', () => {
  it('keep their named steps, and go back to any', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const was = await count(page);
    await more(page);
    await saved(page);
    await more(page);
    await saved(page);
    await openProjects(page);
    const steps = page.locator('.projects ol.kept li');
    expect(await steps.first().innerText()).toContain('16 tubes');
    await expectAccessible(page);
    await steps.last().getByRole('button').click();
    await page.keyboard.press('Escape');
    expect(await count(page)).toBe(was);
    expect(await page.locator('.tools .tool').first().getAttribute('aria-label')).toMatch(/^Undo: Back to/);
    await page.context().close();
  });

  it('stand beside each other; one is deleted only when asked twice', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const changed = await more(page);
    await saved(page);
    await page.locator('body').press('Control+k');
    await page.keyboard.type('Plan a new one');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Leave the questions' }).click();
    await saved(page);
    await openProjects(page);
    const list = page.locator('.projects ul.kept li');
    await expect.poll(() => list.count()).toBe(2);
    await page.getByRole('button', { name: 'Open Quince yard' }).click();
    await page.goto(`${inject('address')}${SHEET}`);
    await settled(page);
    expect(await count(page)).toBe(changed);
    await openProjects(page);
    await page.getByRole('button', { name: 'Delete My planned heater …' }).click();
    expect(await list.count()).toBe(2);
    await page.getByRole('button', { name: 'Delete it' }).click();
    await expect.poll(() => list.count()).toBe(1);
    await page.context().close();
  });

  it('tell a second tab, which cannot overwrite silently; it takes over or goes on with a copy', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const first = await more(page);
    await saved(page);
    const second = await page.context().newPage();
    await second.goto(`${inject('address')}${SHEET}`);
    await settled(second);
    expect(await second.locator('.keep-bar').innerText()).toContain('open in another tab');
    await expectAccessible(second);
    const elsewhere = await more(second);
    expect(elsewhere).not.toBe(first);
    expect(await second.locator('.job').innerText()).toContain('not saved: open in another tab');
    await page.reload();
    await settled(page);
    expect(await count(page)).toBe(first);
    // the reload let go for a moment; whoever holds it now, the other is told
    await second.reload();
    await settled(second);
    await second.getByRole('button', { name: 'Work here instead' }).click();
    expect(await count(second)).toBe(first);
    await expect.poll(() => page.locator('.keep-bar').count()).toBe(1);
    const taken = await more(second);
    await saved(second);
    await more(page);
    await second.reload();
    await settled(second);
    expect(await count(second)).toBe(taken);
    await page.getByRole('button', { name: 'Go on with a copy' }).click();
    await expect.poll(() => page.locator('.job').innerText()).toMatch(/Quince yard \(copy\)\s*saved/);
    await page.context().close();
  });

  it('stay in memory when the store is full, say so, and offer the file', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    const now = await more(page);
    await page.waitForSelector('.keep-bar');
    expect(await page.locator('.keep-bar').innerText()).toContain('store is full');
    expect(await count(page)).toBe(now);
    const coming = page.waitForEvent('download');
    await page.locator('.keep-bar .act').first().click();
    expect((await coming).suggestedFilename()).toBe('quince-yard.sunlap.json');
    await page.context().close();
  });

  it('work without a network once they were loaded', async () => {
    const { page, complaints } = await visit(browser(), { ...PHONE, serviceWorkers: 'allow' });
    await page.evaluate(async () => {
      const ready = await navigator.serviceWorker.ready;
      while (ready.active?.state !== 'activated') await new Promise((go) => setTimeout(go, 50));
    });
    await page.context().setOffline(true);
    await page.reload();
    await page.getByRole('button', { name: /I have one/ }).click();
    for (let i = 0; i < 6; i++) await page.locator('.first-next').click();
    await page.waitForSelector('.three[aria-busy="false"]', { timeout: 60_000 });
    await page.goto(`${inject('address')}#testday`);
    await page.getByRole('button', { name: 'Begin a test day' }).click();
    await page.locator('.watch-key').first().click();
    await page.reload();
    expect(await page.locator('.watch-key').first().innerText()).toBe('Stop');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

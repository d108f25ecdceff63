import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { DESK, expectAccessible, expectNoSideways, ownBrowser, PHONE, textOf, visit } from './browser';

const browser = ownBrowser();

const shaded = (page: Page) =>
  page.waitForSelector('.yard-side[aria-busy="false"] .yard-carpets svg', { timeout: 60_000 });

describe('ways and views of the yard', () => {
  it('draws the feed, bends it, and hands its length to the loop', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    await page.getByRole('button', { name: 'Draw the feed’s way' }).click();
    const label = page.locator('.yard-route-feed text');
    const first = await label.textContent();
    await page.locator('[data-grip="route-0"]').focus();
    for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowDown');
    await expect.poll(() => label.textContent()).not.toBe(first);
    await page.getByRole('button', { name: /^Loop has / }).click();
    await expect.poll(() => page.getByRole('button', { name: /^Loop has / }).count()).toBe(0);
    await page.getByRole('button', { name: /^Undo: Length of the feed/ }).waitFor();
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('comes nearer by wheel and button, and shows everything again', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    const length = async () => (await page.locator('[data-grip="length"]').boundingBox())!.x;
    const before = await length();
    await page.getByRole('button', { name: 'Nearer' }).click();
    await expect.poll(length).not.toBe(before);
    const canvas = (await page.locator('.yard-canvas').boundingBox())!;
    await page.mouse.move(canvas.x + 40, canvas.y + 40);
    await page.mouse.wheel(0, -300);
    await page.getByRole('button', { name: 'fit: show everything' }).click();
    await expect.poll(length).toBe(before);
    await page.context().close();
  });

  it('calls a thing by the name it is given', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    await page.getByRole('button', { name: 'Add: tree' }).click();
    await page.locator('.yard-name input').fill('Old pear');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(page.locator('.yard-bar > strong').first())).toBe('Old pear');
    await page.context().close();
  });

  it('works on a phone', async () => {
    const { page } = await visit(browser(), PHONE, '#yard');
    await shaded(page);
    await page.getByRole('button', { name: 'Draw the return’s way' }).tap();
    await page.getByRole('button', { name: 'Farther' }).tap();
    await expectNoSideways(page);
    await expectAccessible(page);
    await page.context().close();
  });
});

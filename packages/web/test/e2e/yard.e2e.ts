import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  answer,
  DESK,
  expectAccessible,
  expectNoSideways,
  numberIn,
  ownBrowser,
  PHONE,
  textOf,
  visit,
} from './browser';

const browser = ownBrowser();

const shaded = (page: Page) =>
  page.waitForSelector('.yard-side[aria-busy="false"] .yard-carpets svg', { timeout: 60_000 });
const says = async (page: Page) => (await page.locator('#yard-desc').textContent()) ?? '';
const chip = (page: Page, id: string) => page.locator(`.yard-bar [data-field="${id}"] .chip-value`);

async function press(page: Page, grip: string, key: string, times: number) {
  await page.locator(`[data-grip="${grip}"]`).focus();
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
}

describe('Yard sheet', () => {
  it('draws pool and panel to scale and says where the sun stands', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    expect(await says(page)).toMatch(/The sun stands at .* high\. .*The pool is 100 % sunlit/);
    expect(numberIn(await answer(page, 'pool in sun now'))).toBe(100);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('lets a tree stand in the light and gives it back when the tree is gone', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    await page.getByRole('button', { name: 'Add: tree' }).click();
    // to the pool's southern edge, by the keyboard
    await press(page, 'move', 'ArrowUp', 18);
    await expect
      .poll(async () => numberIn(await answer(page, 'pool in sun now')), { timeout: 60_000 })
      .toBeLessThan(95);
    expect(await says(page)).toContain('Tree');
    await page.getByRole('button', { name: 'Take away Tree' }).click();
    await expect
      .poll(async () => numberIn(await answer(page, 'pool in sun now')), { timeout: 60_000 })
      .toBe(100);
    await page.context().close();
  });

  it('moves the sun with the hour', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    const before = numberIn(await answer(page, 'sun stands at'));
    await page.locator('#yard-hour').focus();
    for (let i = 0; i < 24; i++) await page.keyboard.press('ArrowRight');
    await expect.poll(async () => numberIn(await answer(page, 'sun stands at'))).toBeLessThan(before - 15);
    await page.locator('#yard-hour').focus();
    await page.keyboard.press('Home');
    await expect.poll(async () => answer(page, 'pool in sun now')).toBe('the sun is down');
    await page.context().close();
  });

  it('drags a thing with the mouse as one step that can be undone', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    const east = await textOf(chip(page, 'yard-x'));
    const box = (await page.locator('[data-grip="move"]').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 40, y, { steps: 6 });
    await page.mouse.up();
    await expect.poll(async () => textOf(chip(page, 'yard-x'))).not.toBe(east);
    await page.getByRole('button', { name: 'Undo: Move Pool' }).click();
    await expect.poll(async () => textOf(chip(page, 'yard-x'))).toBe(east);
    await page.context().close();
  });

  it('takes every outline, and numbers typed as people write them', async () => {
    const { page } = await visit(browser(), DESK, '#yard');
    await shaded(page);
    await page.locator('.yard-bar [data-field="yard-length_m"]').click();
    await page.locator('.editor input').first().fill('36 ft');
    await page.keyboard.press('Enter');
    await expect.poll(async () => textOf(chip(page, 'yard-length_m'))).toMatch(/^36 ft/);
    for (const shape of ['round', 'oval', 'L', 'free outline']) {
      await page.locator('.yard-bar [data-field="pool-shape"]').click();
      await page.locator('.editor').getByText(shape, { exact: true }).click();
      await page.keyboard.press('Escape');
      await expect.poll(async () => textOf(chip(page, 'pool-shape'))).toBe(shape);
      if (shape !== 'L') continue;
      await page.locator('.yard-bar [data-field="pool-hand"]').click();
      await page.locator('.editor').getByText('left', { exact: true }).click();
      await page.keyboard.press('Escape');
      await expect.poll(async () => textOf(chip(page, 'pool-hand'))).toBe('left');
    }
    const corners = await page.locator('[data-grip^="corner-"]').count();
    await page.getByRole('button', { name: 'One corner more' }).click();
    await expect.poll(() => page.locator('[data-grip^="corner-"]').count()).toBe(corners + 1);
    await page.context().close();
  });

  it('works on a phone', async () => {
    const { page, complaints } = await visit(browser(), PHONE, '#yard');
    await shaded(page);
    await page.getByRole('button', { name: 'Add: fence' }).tap();
    await shaded(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

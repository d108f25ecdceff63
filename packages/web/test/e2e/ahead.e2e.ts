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

const ran = (page: Page) =>
  page.waitForSelector('.ahead-drawing[data-fresh="true"] svg', { timeout: 80_000 });

async function take(page: Page, forecast: string) {
  const line = page.locator('#ahead-typed');
  if (!(await line.isVisible())) await page.getByText('Type it in one line').click();
  await line.fill(forecast);
  await page.getByRole('button', { name: 'Take this forecast' }).click();
}

describe('Ahead sheet', () => {
  it('gives the hours of the valve and what helps most', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#ahead');
    await ran(page);
    expect(await answer(page, 'valve today')).toMatch(/^\d{1,2}(:\d\d)? [ap]m – \d{1,2}(:\d\d)? [ap]m$/);
    expect(await page.locator('#ahead-desc').textContent()).toMatch(/^Today: open the valve at /);
    expect(await textOf(page.locator('.season-findings section').first())).toMatch(
      /by the last afternoon|Nothing/,
    );
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('takes a forecast typed in plain terms, and says what it cannot read', async () => {
    const { page } = await visit(browser(), DESK, '#ahead');
    await ran(page);
    const before = numberIn(await answer(page, 'warmest'));
    await page.getByText('Type it in one line').click();
    await page.locator('#ahead-typed').fill('84/66 sunny calm; 80/64 purple');
    expect(await textOf(page.locator('#ahead-typed-hint'))).toContain('purple');
    expect(await page.getByRole('button', { name: 'Take this forecast' }).isDisabled()).toBe(true);
    await take(page, '58/44 rain windy; 55/42 rain windy');
    await expect.poll(() => page.locator('.ahead-day').count()).toBe(2);
    await expect
      .poll(async () => numberIn(await answer(page, 'warmest')), { timeout: 60_000 })
      .toBeLessThan(before - 2);
    expect(await answer(page, 'wish reached')).toBe('not in these days');
    await page.reload();
    await ran(page);
    expect(await page.locator('.ahead-day').count()).toBe(2);
    await page.context().close();
  });

  it('begins at the water that is typed', async () => {
    const { page } = await visit(browser(), DESK, '#ahead');
    await ran(page);
    await page.locator('.ahead-top input').first().fill('92F');
    await page.keyboard.press('Enter');
    await expect.poll(async () => answer(page, 'wish reached'), { timeout: 60_000 }).toBe('it is there');
    await page.context().close();
  });

  it('works on a phone', async () => {
    const { page, complaints } = await visit(browser(), PHONE, '#ahead');
    await ran(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

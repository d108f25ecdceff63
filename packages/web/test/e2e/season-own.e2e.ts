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
  visit,
} from './browser';

const browser = ownBrowser();

const ran = (page: Page) =>
  page.waitForSelector('.season-drawing[data-fresh="true"] .season-canvas svg', { timeout: 80_000 });
const heat = async (page: Page) => numberIn(await answer(page, 'collector gives'));

/** A year of a logger's hours; `wrong` stands in place of one humidity. */
function logger(wrong = '50'): Buffer {
  const rows = ['Station log;;;;', 'Date;Time;Temp C;RH %;GHI W/m2'];
  const two = (n: number) => String(n).padStart(2, '0');
  for (let i = 0; i < 8760; i++) {
    const t = new Date(Date.UTC(2023, 0, 1) + i * 3_600_000);
    const hour = t.getUTCHours();
    const sun = Math.round(850 * Math.max(0, Math.sin((Math.PI * (hour - 5.5)) / 12)));
    const air = (18 + 8 * Math.sin((Math.PI * (hour - 9)) / 12)).toFixed(1);
    const day = `${two(t.getUTCDate())}.${two(t.getUTCMonth() + 1)}.2023`;
    rows.push(`${day};${two(hour)}:00;${air};${i === 98 ? wrong : '50'};${sun}`);
  }
  return Buffer.from(`${rows.join('\n')}\n`);
}

describe('a climate and habits of one’s own', () => {
  it('takes any figure of the climate, marks it, and gives the row back', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#season');
    await ran(page);
    await page.locator('.season-fold > summary').first().click();
    await page.locator('#season-town').fill('phoenix');
    await page.locator('.season-town').first().click();
    await ran(page);
    await page.locator('[data-fold="months"] > summary').click();
    const cell = page.getByLabel('Jul: high', { exact: true });
    const shelf = await cell.inputValue();
    await cell.fill('45 C');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell.inputValue()).toBe('113');
    expect(await cell.getAttribute('class')).toContain('cell-own');
    await cell.fill('very hot');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell.getAttribute('aria-invalid')).toBe('true');
    expect(await cell.inputValue()).toBe('very hot');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /^Jul back to Phoenix/ }).click();
    await expect.poll(() => cell.inputValue()).toBe(shelf);
    await page.getByRole('button', { name: 'Undo: Jul as on the shelf' }).click();
    await expect.poll(() => cell.inputValue()).toBe('113');
    await ran(page);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('pulls the hours of one month, by keyboard and typed', async () => {
    const { page } = await visit(browser(), DESK, '#season');
    await ran(page);
    await page.locator('[data-field="season-run"]').click();
    await page.locator('.editor').getByText('by hand', { exact: true }).click();
    await page.keyboard.press('Escape');
    await ran(page);
    const before = await heat(page);
    await page.locator('.hours-months').getByLabel('Jul').click();
    await page.locator('[data-grip="from_h"]').focus();
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowUp');
    const typed = page.locator('.hours-row').getByLabel('opens', { exact: true });
    await expect.poll(() => typed.inputValue()).toBe('1 pm');
    await expect.poll(() => heat(page), { timeout: 60_000 }).toBeLessThan(before - 20);
    await typed.fill('8');
    await page.keyboard.press('Enter');
    await expect.poll(() => heat(page), { timeout: 60_000 }).toBeGreaterThan(before - 10);
    await page.context().close();
  });

  it('keeps swimmers, and a cover in its own months', async () => {
    const { page } = await visit(browser(), DESK, '#season');
    await ran(page);
    const swim = async () => numberIn(await answer(page, 'days to swim'));
    const before = await swim();
    await page.locator('[data-fold="habits"] > summary').click();
    await page.locator('.habit > summary').nth(0).click();
    await page.getByLabel('What lies on the pool').selectOption('foam');
    await expect.poll(swim, { timeout: 60_000 }).toBeGreaterThan(before);
    const covered = await swim();
    const months = page.getByRole('group', { name: 'Cover is on: months' });
    for (const m of ['May', 'Jun', 'Jul', 'Aug', 'Sep'])
      await months.getByRole('button', { name: m, exact: true }).click();
    await expect.poll(swim, { timeout: 60_000 }).toBeLessThan(covered);
    await page.context().close();
  });

  it('reads a table by its columns, and says what is wrong in it with line and column', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#season');
    await ran(page);
    await page.locator('.season-fold > summary').first().click();
    const file = page.locator('[data-weather]');
    await file.setInputFiles({ name: 'log.csv', mimeType: 'text/csv', buffer: logger('wet') });
    await page.locator('.csv').waitFor({ timeout: 30_000 });
    expect(await page.locator('[data-column="5"]').inputValue()).toBe('global_Wm2');
    await page.getByRole('button', { name: 'Read the table' }).click();
    await page.getByText(/Line 101, column 4: .*“wet”/).waitFor({ timeout: 30_000 });
    // the faulty column is let go, and the rest is taken
    await page.locator('[data-column="4"]').selectOption('none');
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Read the table' }).click();
    await page.getByText('Found in log.csv').waitFor({ timeout: 30_000 });
    expect(await page.locator('.season-found').innerText()).toContain('8760');
    await ran(page);
    await expect.poll(() => page.locator('.title-scale').innerText()).toContain('log.csv');
    await page.reload();
    await ran(page);
    await expect.poll(() => page.locator('.title-scale').innerText()).toContain('log.csv');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('fits a phone with everything open', async () => {
    const { page } = await visit(browser(), PHONE, '#season');
    await ran(page);
    for (const fold of ['months', 'habits']) await page.locator(`[data-fold="${fold}"] > summary`).tap();
    for (const part of await page.locator('.habit > summary').all()) await part.tap();
    await expectNoSideways(page);
    await expectAccessible(page);
    await page.context().close();
  });
});

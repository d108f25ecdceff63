import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  answer,
  DESK,
  expectNoSideways,
  numberIn,
  ownBrowser,
  PHONE,
  settled,
  textOf,
  visit,
} from './browser';

const browser = ownBrowser();

const SHEET = '#build';

async function worked(page: Page): Promise<void> {
  await settled(page);
  await page.waitForSelector('.build[aria-busy="false"]', { timeout: 60_000 });
}
const show = async (page: Page, view: string): Promise<void> => {
  await page.locator('.build-views button', { hasText: view }).click();
  await worked(page);
};
const undoLabel = (page: Page) => page.locator('.tools .tool').first().getAttribute('aria-label');
/** Types into a figure and leaves it. */
async function write(page: Page, label: string | RegExp, text: string): Promise<void> {
  const field = page.getByLabel(label).first();
  await field.fill(text);
  await field.press('Enter');
  await worked(page);
}

describe('Build, what the person has, assumes and has done', () => {
  it('keeps the way of building in the project, and undo takes it back', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'parts');
    const primer = page.getByLabel('Primer', { exact: true });
    await primer.uncheck();
    await worked(page);
    expect(await undoLabel(page)).toMatch(/^Undo: Primer/);
    await expect.poll(() => page.locator('.shop-line', { hasText: 'Primer' }).count()).toBe(0);
    await write(page, 'Spare small parts', '20 %');
    await expect
      .poll(() => textOf(page.locator('.shop-line', { hasText: 'Reducing tee' }).locator('.shop-small')))
      .toMatch(/, 3\d spare/);
    await expect.poll(() => textOf(page.locator('.job')), { timeout: 20_000 }).toContain('saved');
    await page.reload();
    await worked(page);
    await show(page, 'parts');
    expect(await primer.isChecked()).toBe(false);
    await primer.check();
    expect(await undoLabel(page)).toMatch(/^Undo: Primer/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => primer.isChecked()).toBe(false);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('takes over what an earlier version kept in the browser(), as a step', async () => {
    const { page } = await visit(browser(), DESK, '#collector');
    await page.evaluate(() => localStorage.setItem('sunlap-build', '{"scope":"all","tool":"chopSaw"}'));
    await page.goto(`${page.url().split('#')[0]}${SHEET}`);
    await page.reload();
    await worked(page);
    expect(await undoLabel(page)).toMatch(/as this browser had it/);
    await show(page, 'cuts');
    expect(
      await page.locator('.cuts-head button', { hasText: 'chop saw' }).getAttribute('aria-pressed'),
    ).toBe('true');
    expect(await page.evaluate(() => localStorage.getItem('sunlap-build'))).toBeNull();
    await page.context().close();
  });

  it('uses fittings on hand first', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'parts');
    const line = page.locator('.shop-line', { hasText: 'Elbow 90°' }).first();
    const before = numberIn(await textOf(line.locator('.shop-amount')));
    await line.locator('.shop-edit').click();
    await line.getByLabel('On hand').fill('4');
    await line.getByLabel('On hand').press('Enter');
    await expect
      .poll(async () => numberIn(await textOf(line.locator('.shop-amount'))), { timeout: 20_000 })
      .toBe(before - 4);
    expect(await textOf(line.locator('.shop-small'))).toContain('4 on hand');
    await page.context().close();
  });

  it('takes a length of the person’s own, and leaves out what is not sold', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'cuts');
    const sheet = page.locator('.cut-sheet', { hasText: '1/2 in' }).last();
    await sheet.locator('.lengths summary').click();
    await sheet.getByLabel('20 ft is sold here').uncheck();
    await expect.poll(() => sheet.locator('.bar-count', { hasText: '20 ft' }).count()).toBe(0);
    await sheet.getByLabel('Length sold').fill('15 ft');
    await sheet.getByLabel(/^Its price/).fill('1');
    await sheet.getByRole('button', { name: 'Add a length' }).click();
    await worked(page);
    await expect.poll(() => sheet.locator('.bar-count', { hasText: '15 ft' }).count()).toBeGreaterThan(0);
    await sheet.getByLabel('20 ft is sold here').check();
    expect(await undoLabel(page)).toBe('Undo: Sold here: 20 ft');
    await page.context().close();
  });

  it('cuts the members from boards on hand, and follows what is assumed of air and water', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'supports');
    const boards = page.locator('.boards');
    await boards.getByLabel('How many').fill('40');
    await boards.getByLabel('Length').fill('8 ft');
    await boards.getByRole('button', { name: 'Add' }).click();
    await expect.poll(() => boards.locator('h4').count(), { timeout: 20_000 }).toBe(1);
    expect(await textOf(boards)).toContain('40 × 8 ft');
    await boards.getByRole('button', { name: /^Take away/ }).click();
    await expect.poll(() => boards.locator('h4').count(), { timeout: 20_000 }).toBe(0);
    const slopes = page.locator('.build-table', { hasText: 'as drawn' });
    expect(await textOf(slopes)).toContain('air in tubes');
    await expect.poll(() => textOf(slopes), { timeout: 30_000 }).toContain('Btu/h');
    const growth = page.locator('h3', { hasText: /^Growth from/ });
    await write(page, 'Coldest day', '-20 F');
    await expect.poll(() => textOf(growth), { timeout: 20_000 }).toMatch(/from [−-]20/);
    await page.context().close();
  });

  it('ticks the steps of the work, which stay', async () => {
    const { page } = await visit(browser(), PHONE, SHEET);
    await worked(page);
    await show(page, 'work');
    await page.locator('.work-tick').first().tap();
    await expect.poll(() => textOf(page.locator('.shop-progress'))).toMatch(/^1 of \d+ steps done/);
    expect(await textOf(page.locator('.work-step').nth(1))).toContain('next');
    await expectNoSideways(page);
    await expect.poll(() => textOf(page.locator('.job')), { timeout: 20_000 }).toContain('saved');
    await page.reload();
    await worked(page);
    await show(page, 'work');
    expect(await page.locator('.work-tick input').first().isChecked()).toBe(true);
    await page.context().close();
  });

  it('says what heat is worth with the figures that it stands on', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'money');
    const body = page.locator('.build-body');
    await page.getByLabel('Heat that it replaces').selectOption('gas');
    await write(page, /^Gas, a therm/, '2.00');
    await expect.poll(() => textOf(body), { timeout: 20_000 }).toContain('replaces gas at 0.068');
    await page.getByRole('button', { name: 'Run the year' }).click();
    await expect.poll(() => textOf(body), { timeout: 60_000 }).toContain('Heat of a year');
    expect(await textOf(body)).toContain('Has paid its parts after');
    await page.getByLabel('Heat that it replaces').selectOption('none');
    await expect.poll(() => textOf(body), { timeout: 20_000 }).toContain('no bought heat is replaced');
    await expect.poll(() => answer(page, 'parts per kW now'), { timeout: 30_000 }).toMatch(/^\d/);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('shows the same cards as Test day, with what was done to the heater', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'cards');
    const titles = await page.locator('.life-card h3').allInnerTexts();
    expect(titles).toContain('What was done to it');
    expect(await page.locator('.life-history li').count()).toBeGreaterThan(0);
    await page.goto(`${page.url().split('#')[0]}#testday`);
    await page.locator('.testday-views button', { hasText: 'cards' }).click();
    await expect
      .poll(() => page.locator('.life-card h3').allInnerTexts(), { timeout: 30_000 })
      .toEqual(titles);
    await page.context().close();
  });
});

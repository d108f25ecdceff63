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
  settled,
  textOf,
  visit,
} from './browser';

const browser = ownBrowser();

const SHEET = '#loop';
const slide = async (page: Page, id: string, key: string) => {
  await page.locator(`[id="${id}"]`).focus();
  await page.keyboard.press(key);
};

describe('Loop sheet', () => {
  it('draws the way from pool to pool with its head', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const says = (await page.locator('#loop-desc').textContent()) ?? '';
    expect(says).toMatch(/^A .*: height .* head /);
    expect(says).toContain('Collector');
    expect(numberIn(await answer(page, 'pump moves'))).toBeGreaterThan(1);
    expect(await page.locator('.plot svg').count()).toBe(1);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('sends less through the collector as the valve turns past', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const before = numberIn(await answer(page, 'to the collector'));
    await slide(page, '/loop/bypass/toCollector', 'Home');
    await settled(page);
    await expect
      .poll(async () => numberIn(await answer(page, 'to the collector')), { timeout: 20_000 })
      .toBeLessThan(before / 10);
    expect(await textOf(page.locator('.cautions'))).toContain('Open one way before you shut the other');
    await page.context().close();
  });

  it('moves less and uses less power at a lower speed', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const [flow, power] = [
      numberIn(await answer(page, 'pump moves')),
      numberIn(await answer(page, 'pump power')),
    ];
    for (let i = 0; i < 3; i++) await slide(page, '/loop/pump/speed', 'PageDown');
    await settled(page);
    await expect
      .poll(async () => numberIn(await answer(page, 'pump moves')), { timeout: 20_000 })
      .toBeLessThan(flow);
    expect(numberIn(await answer(page, 'pump power'))).toBeLessThan(power);
    await page.context().close();
  });

  it('chokes with a dirty filter', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const flow = numberIn(await answer(page, 'pump moves'));
    await slide(page, '/loop/filter/dirt', 'End');
    await settled(page);
    await expect
      .poll(async () => numberIn(await answer(page, 'pump moves')), { timeout: 20_000 })
      .toBeLessThan(flow);
    await page.context().close();
  });

  it('changes a pipe on the drawing', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const chip = page.locator('.strip [data-field="/loop/feed/0/pipe"]');
    await chip.click();
    await page.locator('.editor .entry input').fill('2 in');
    await page.keyboard.press('Enter');
    expect(await textOf(chip)).toBe('2 in');
    await page.context().close();
  });

  for (const colorScheme of ['light', 'dark'] as const)
    it(`is clean to axe-core, ${colorScheme}`, async () => {
      const { page } = await visit(browser(), { ...DESK, colorScheme }, SHEET);
      await settled(page);
      await expectAccessible(page);
      await page.locator('.schedule summary').click();
      await expectAccessible(page);
      await page.context().close();
    });

  it('fits a phone of 360 px', async () => {
    const { page, complaints } = await visit(browser(), PHONE, SHEET);
    await settled(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    await page.locator('.schedule summary').tap();
    await expectNoSideways(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('puts a flow meter into the way on the drawing, moves it, and takes it out', async () => {
    const { page, complaints } = await visit(browser(), { viewport: { width: 1440, height: 900 } }, SHEET);
    await settled(page);
    const names = page.locator('.strip-name');
    const before = await names.allInnerTexts();
    await page.locator('.strip [data-field="/loop/feed/0#move"]').click();
    await page.getByRole('button', { name: 'a flow meter' }).click();
    await expect.poll(() => names.allInnerTexts(), { timeout: 20_000 }).toContain('Flow meter');
    await settled(page);
    const at = (await names.allInnerTexts()).indexOf('Flow meter');
    await page.locator('.strip [data-field="/loop/feed/0#move"]').click();
    await page.getByRole('button', { name: 'later in the way' }).click();
    await expect
      .poll(async () => (await names.allInnerTexts()).indexOf('Flow meter'), { timeout: 20_000 })
      .toBe(at + 1);
    await page.locator('.strip [data-field="/loop/feed/1#move"]').click();
    await page.getByRole('button', { name: 'remove it' }).click();
    await expect.poll(() => names.allInnerTexts(), { timeout: 20_000 }).toEqual(before);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('changes suctions, outlets, filter and bypass, and puts a valve before a section', async () => {
    const { page, complaints } = await visit(browser(), { viewport: { width: 1440, height: 900 } }, SHEET);
    await settled(page);
    await page.locator('.schedule summary').click();
    const chip = (id: string) => page.locator(`.schedule [data-field="${id}"]`).first();
    await chip('/loop/bypass/kind').click();
    await page.getByLabel('two valves').check();
    await page.keyboard.press('Escape');
    await settled(page);
    await expect
      .poll(() => page.locator('.controls .slider, .controls [role=slider]').count())
      .toBeGreaterThan(2);
    await chip('/collector/plumbing/parallel/0/before#add').click();
    await page.locator('.editor .act', { hasText: 'a balancing valve' }).click();
    await settled(page);
    await expect
      .poll(() => page.locator('.schedule [data-field^="/collector/plumbing/parallel/0/before/"]').count())
      .toBeGreaterThan(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

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
  page.waitForSelector('.season-drawing[data-fresh="true"] .season-canvas svg', { timeout: 80_000 });

async function town(page: Page, typed: string) {
  const fold = page.locator('.season-fold > summary').first();
  if ((await page.locator('#season-town').isVisible()) === false) await fold.click();
  await page.locator('#season-town').fill(typed);
  await page.locator('.season-town').first().click();
  await expect
    .poll(async () => (await textOf(page.locator('.title-scale'))).toLowerCase(), { timeout: 60_000 })
    .toContain(typed);
}

/** A year in the columns of EPW, the same day every day. */
function epw(): string {
  const head = [
    'LOCATION,Test Flat,XX,XXX,made for a test,000000,33.0,-112.0,-7.0,300.0',
    'DESIGN CONDITIONS,0',
    'TYPICAL/EXTREME PERIODS,0',
    'GROUND TEMPERATURES,0',
    'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0',
    'COMMENTS 1,made',
    'COMMENTS 2,made',
    'DATA PERIODS,1,1,Data,Sunday,1/1,12/31',
  ];
  const rows: string[] = [];
  for (let d = 0; d < 365; d++) {
    const date = new Date(Date.UTC(2001, 0, 1 + d));
    for (let h = 1; h <= 24; h++) {
      const up = Math.max(0, Math.sin((Math.PI * (h - 6.5)) / 12.5));
      const [global, direct, diffuse] = [900 * up, up > 0.05 ? 750 : 0, 120 * up].map(Math.round);
      const air = (24 + 8 * Math.sin((Math.PI * (h - 9)) / 12)).toFixed(1);
      rows.push(
        `2001,${date.getUTCMonth() + 1},${date.getUTCDate()},${h},60,A,${air},10.0,45,97700,0,0,340,${global},${direct},${diffuse},0,0,0,0,180,2.0,1,1,20,77777,9,999999999,100,0.1,0,88,0.2,0.0,0.0`,
      );
    }
  }
  return [...head, ...rows, ''].join('\r\n');
}

describe('Season sheet', () => {
  it('shows the year with and without the collector, and says it', async () => {
    const { page, complaints } = await visit(browser(), DESK, '#season');
    await ran(page);
    expect(await page.locator('#season-desc').textContent()).toMatch(
      /days reach the wish with the collector, \d+ without/,
    );
    expect(numberIn(await answer(page, 'collector gives'))).toBeGreaterThan(100);
    expect(numberIn(await answer(page, 'warmer, year’s mean'))).toBeGreaterThan(0);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('runs another year for another town, and another wish', async () => {
    const { page } = await visit(browser(), DESK, '#season');
    await ran(page);
    await town(page, 'phoenix');
    await ran(page);
    const days = numberIn(await answer(page, 'days to swim'));
    expect(days).toBeGreaterThan(20);
    await page.locator('[data-field="season-wish"]').click();
    await page.locator('.editor input').first().fill('76F');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => numberIn(await answer(page, 'days to swim')), { timeout: 60_000 })
      .toBeGreaterThan(days);
    await page.context().close();
  });

  it('can be stopped in its longer study and keeps what it has', async () => {
    const { page } = await visit(browser(), DESK, '#season');
    await ran(page);
    await page.getByRole('button', { name: 'Stop and keep what is found' }).click({ timeout: 60_000 });
    await page.getByText('Stopped.').waitFor();
    expect(numberIn(await answer(page, 'collector gives'))).toBeGreaterThan(100);
    await page.getByRole('button', { name: /Study further/ }).click();
    await page.waitForSelector('.season-progress progress', { timeout: 60_000 });
    await page.context().close();
  });

  it('reads a weather file, shows what it found, and refuses a broken one with its line', async () => {
    const { page } = await visit(browser(), DESK, '#season');
    await ran(page);
    await page.locator('.season-fold > summary').first().click();
    await page
      .locator('[data-weather]')
      .setInputFiles({ name: 'flat.epw', mimeType: 'text/plain', buffer: Buffer.from(epw()) });
    await page.getByText('Found in flat.epw').waitFor({ timeout: 60_000 });
    expect(await textOf(page.locator('.season-found'))).toContain('UTC −7 h');
    await expect
      .poll(async () => textOf(page.locator('.title-scale')), { timeout: 60_000 })
      .toContain('Test Flat');
    const broken = epw().replace('2001,1,2,1,60,A,', '2001,1,2,1,60,A,what');
    await page
      .locator('[data-weather]')
      .setInputFiles({ name: 'broken.epw', mimeType: 'text/plain', buffer: Buffer.from(broken) });
    await page.getByText('broken.epw was not read').waitFor({ timeout: 60_000 });
    expect(await textOf(page.locator('.season-found'))).toContain('Line 33');
    expect(await textOf(page.locator('.title-scale'))).toContain('Test Flat');
    await page.context().close();
  });

  it('works on a phone', async () => {
    const { page, complaints } = await visit(browser(), PHONE, '#season');
    await ran(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

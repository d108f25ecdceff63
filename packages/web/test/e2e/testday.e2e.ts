import { readFileSync } from 'node:fs';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { DESK, expectAccessible, expectNoSideways, numberIn, ownBrowser, PHONE, visit } from './browser';

const browser = ownBrowser();

const US = { locale: 'en-US', timezoneId: 'America/Denver' };
const NOON = new Date('2026-04-12T18:00:00Z');
const judged = (page: Page) =>
  page.waitForSelector('.answer-card[aria-busy="false"], .quick[aria-busy="false"]', { timeout: 60_000 });

/** A panel of one's own, without test days, at noon of a spring day. */
async function own(options: BrowserContextOptions): Promise<{ page: Page; complaints: string[] }> {
  const opened = await visit(browser(), { ...options, ...US });
  const { page } = opened;
  await page.clock.setSystemTime(NOON);
  await page.getByRole('button', { name: /I have one/ }).click();
  await page.getByLabel('Town or region').fill('Phoenix');
  await page.getByRole('button', { name: /Phoenix/ }).click();
  await page.getByRole('button', { name: 'Leave the questions' }).click();
  await page.waitForSelector('.quick');
  return opened;
}

async function begin(page: Page) {
  await page.goto(`${inject('address')}#testday`);
  await page.getByRole('button', { name: 'Begin a test day' }).click();
}

async function pair(page: Page, which: 'loop' | 'same', pool: string, back: string) {
  const form = page.locator(`[data-pair="${which}"]`);
  await form.getByLabel('Pool water').fill(pool);
  await form.getByLabel('Return water').fill(back);
  await form.locator('.pair-add').click();
}

async function runs(page: Page, times: string[]) {
  for (const time of times) {
    await page.getByLabel('Or type seconds').fill(time);
    await page.locator('.typed .act').click();
  }
}

describe('one pail and two temperatures on the home screen', () => {
  for (const [size, options] of [
    ['phone', PHONE],
    ['desk', DESK],
  ] as const)
    it(`say whether the panel does what it should, at ${size} size`, async () => {
      const { page, complaints } = await own(options);
      await page.getByLabel(/Seconds to fill/).fill('7.5');
      await page.getByLabel('Pool water').fill('81.0');
      await page.getByLabel('Return water').fill('82.4');
      await page.getByRole('button', { name: 'Judge it' }).click();
      await judged(page);
      expect(await page.locator('.quick-says').innerText()).toMatch(
        /^Yours [\d,]+ Btu\/h, expected −?[\d,]+ Btu\/h to [\d,]+ Btu\/h: (agrees|cannot tell|low by|high by)/,
      );
      expect(await page.locator('.quick').innerText()).toMatch(/makes \d+ % of the doubt/);
      expect(complaints).toEqual([]);
      await expectNoSideways(page);
      await page.context().close();
    });
});

describe('Test day sheet', () => {
  it('keeps a watch running through a reload, from the instant of its start', async () => {
    const { page } = await own(PHONE);
    await begin(page);
    const key = page.locator('.watch-key').first();
    await key.click();
    expect(await key.innerText()).toBe('Stop');
    await page.waitForTimeout(1500);
    await page.reload();
    await expect.poll(() => page.locator('.watch-digits').first().innerText()).toMatch(/^0:0[1-9]\.\d$/);
    expect(await key.innerText()).toBe('Stop');
    await key.click();
    const seconds = Number.parseFloat(await page.locator('.run-value').first().innerText());
    expect(seconds).toBeGreaterThanOrEqual(1.5);
    expect(seconds).toBeLessThan(60);
    expect(await page.locator('.run-aside').first().innerText()).toMatch(/gpm$/);
    await page.context().close();
  });

  it('shows the spread as runs come, and the answer with what dominates its doubt', async () => {
    const { page, complaints } = await own(PHONE);
    await begin(page);
    await runs(page, ['14.2', '14.6 s', '14.4']);
    expect(await page.locator('[aria-labelledby="pail-title"] .hint').nth(1).innerText()).toBe(
      'mean 14.4 s, from 14.2 s to 14.6 s',
    );
    for (const [a, b] of [
      ['81.2', '82.9'],
      ['81.2', '83.0'],
      ['81.3', '82.8'],
    ])
      await pair(page, 'loop', a, b);
    await page.getByLabel('Deep blue, sharp shadows').check();
    await page.getByLabel('Felt on the face, leaves rustle').check();
    await judged(page);
    const half = async () => {
      await judged(page);
      return numberIn(await page.locator('.answer-bar .three-sub').first().innerText());
    };
    const before = await half();
    expect(await page.locator('.answer-says').innerText()).toMatch(/^Yours [\d,]+ Btu\/h, expected/);
    expect(await page.locator('.doubt').innerText()).toMatch(/% of the doubt\./);
    // the check of one thermometer against the other narrows it
    await page.getByText('Check one against the other').click();
    for (const [a, b] of [
      ['80.1', '80.3'],
      ['80.0', '80.2'],
      ['80.1', '80.3'],
    ])
      await pair(page, 'same', a, b);
    await expect.poll(half, { timeout: 30_000 }).toBeLessThan(before * 0.8);
    await expectNoSideways(page);
    await expectAccessible(page);
    // raw readings are in the file as they were taken
    const coming = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    const [day] = JSON.parse(readFileSync(await (await coming).path(), 'utf8')).testDays;
    expect(day.at).toBe('2026-04-12T11:00');
    expect(day.pail.times_s).toEqual([14.2, 14.6, 14.4]);
    expect(day.samePail).toHaveLength(3);
    expect(day.inlet.readings[2].value_C).toBeCloseTo((81.3 - 32) / 1.8, 6);
    expect(day.weather).toMatchObject({ sky: 'clear', beaufort: 2 });
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('answers nonsense with sense', async () => {
    const { page } = await own(PHONE);
    await begin(page);
    await runs(page, ['0']);
    await page.getByLabel('Or type seconds').fill('soon');
    expect(await page.locator('.typed [role="alert"]').innerText()).not.toBe('');
    await page.getByLabel('Or type seconds').fill('14.4');
    await page.locator('.typed .act').click();
    await pair(page, 'loop', '83', '81');
    await judged(page);
    const answer = await page.locator('.answer-card').innerText();
    expect(answer).toMatch(/0 s is no time for water to run/);
    expect(answer).toMatch(/colder|warmer|cool|negative|other way/i);
    await page.context().close();
  });

  it('takes a survey tube by tube with three keys, and names the tube that stands out', async () => {
    const { page } = await own(PHONE);
    await begin(page);
    await page.getByRole('button', { name: 'Tubes', exact: true }).click();
    for (let i = 0; i < 20; i++)
      await page.getByRole('button', { name: i === 6 ? 'Hot' : 'Cool', exact: true }).click();
    await expect
      .poll(() => page.locator('.survey-keys').innerText(), { timeout: 60_000 })
      .toMatch(/20 of 40 felt[\s\S]*Tube A1-7 (blocked|air-bound|runs weakly)/);
    await expectAccessible(page);
    await page.context().close();
  });

  it('draws the log of the example, opens a day of it, and keeps the history of states and repairs', async () => {
    const { page } = await visit(browser(), { ...DESK, ...US }, '#testday');
    await page.clock.setSystemTime(NOON);
    await page.getByRole('button', { name: 'Log', exact: true }).click();
    await expect.poll(() => page.locator('#log-desc').textContent(), { timeout: 60_000 }).toMatch(/Yours/);
    await expectAccessible(page);
    await page.locator('.log-days .act').first().click();
    await judged(page);
    expect(await page.locator('.answer-card').innerText()).toContain('Judged against “Two sections”');
    await page.getByRole('button', { name: 'History', exact: true }).click();
    const entries = page.locator('.history li');
    const before = await entries.count();
    await page.getByLabel('Name of the state').fill('Valve moved');
    await page.getByRole('button', { name: 'Record it' }).first().click();
    await page.locator('.records').getByLabel('Where').selectOption({ index: 1 });
    await page.locator('.records').getByLabel('Tube').selectOption('4');
    await page.getByRole('button', { name: 'Record it' }).last().click();
    expect(await entries.count()).toBe(before + 2);
    expect(await page.locator('.history').innerText()).toMatch(/Mended with a coupling: \S+ tube 4/);
    await expectAccessible(page);
    // a state gets another name and day; a repair is taken out, and undo brings it back
    await page.getByRole('button', { name: 'Edit: Valve moved' }).click();
    const form = page.locator('.history-edit');
    await form.getByLabel('Name of the state').fill('Valve turned');
    await form.getByLabel('From').fill('2026-03-03');
    await expectAccessible(page);
    await form.getByRole('button', { name: 'Keep the change' }).click();
    expect(await page.locator('.history').innerText()).toMatch(/2026-03-03\s+Valve turned/);
    await page.getByRole('button', { name: /^Edit: Mended with a coupling: \S+ tube 4/ }).click();
    await page.getByRole('button', { name: 'Remove from the history' }).click();
    expect(await entries.count()).toBe(before + 1);
    await page.keyboard.press('Control+z');
    await expect.poll(() => entries.count()).toBe(before + 2);
    await page.context().close();
  });

  it('prints one card to take along, made from the design', async () => {
    const { page } = await visit(browser(), { ...DESK, ...US }, '#testday');
    await page.getByRole('button', { name: 'Cards', exact: true }).click();
    await page.waitForSelector('.life-card', { timeout: 60_000 });
    await page.evaluate(() => {
      window.print = () => {};
    });
    await page.getByRole('button', { name: 'Print: First fill' }).click();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.life-card:visible').count()).toBe(1);
    expect(await page.locator('.life-card:visible').innerText()).toMatch(/Never test with air/);
    expect(await page.locator('.bar').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await expectAccessible(page);
    await page.context().close();
  });
});

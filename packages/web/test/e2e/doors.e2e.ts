import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  DESK,
  expectAccessible,
  expectNoSideways,
  numberIn,
  ownBrowser,
  PHONE,
  settled,
  visit,
} from './browser';

const browser = ownBrowser();

const US = { locale: 'en-US', timezoneId: 'America/Denver' };
const next = (page: Page) => page.locator('.first-next').click();
const title = (page: Page) => page.locator('#first-title').innerText();
/** The strip once its band belongs to what was answered. */
const band = async (page: Page) => {
  await page.waitForSelector('.strip-band[aria-busy="false"]', { timeout: 60_000 });
  await expect.poll(() => page.locator('[data-band]').innerText(), { timeout: 60_000 }).toMatch(/between/);
  const [low, high] = (await page.locator('[data-band]').innerText()).split(' and ').map(numberIn);
  return { low, high };
};
const settledHome = (page: Page) => page.waitForSelector('.three[aria-busy="false"]', { timeout: 60_000 });

/** From a door to the own panel, as a person would who knows most of it. */
async function answerAll(page: Page): Promise<void> {
  expect(await title(page)).toBe('Where does it stand?');
  await page.getByLabel('Town or region').fill('Phoe');
  await page.getByRole('button', { name: /Phoenix/ }).click();
  expect(await page.getByLabel('Latitude').inputValue()).toBe('33.4');
  await next(page);
  await page.getByLabel('Length').fill('24 ft');
  await page.getByLabel('Width').fill('12 ft');
  expect(await page.locator('.ask-fact').innerText()).toMatch(/holds 1[01],\d00 gal|holds 10,[0-9]{3} gal/);
  await next(page);
  await page.getByRole('button', { name: 'two speeds' }).click();
  await page.locator('.shelf-item', { hasText: '1-1/2 hp' }).click();
  await next(page);
  await page.locator('.pipe-size', { hasText: '3/4 in' }).first().click();
  await next(page);
  await page.getByRole('button', { name: /south-east/ }).click();
  await next(page);
  const count = page.getByRole('slider', { name: /Number of tubes/ });
  await count.focus();
  await count.press('ArrowUp');
  await page.getByRole('button', { name: 'one pass more' }).click();
  await next(page);
  await settledHome(page);
}

describe('the two doors', () => {
  it('begin with a pool pipe in which the usual pump does no damage', async () => {
    const { page } = await visit(browser(), { ...DESK, ...US });
    await page.getByRole('button', { name: /I am planning one/ }).click();
    for (let i = 0; i < 6; i++) await next(page);
    await settledHome(page);
    await page.goto(`${page.url().split('#')[0]}#loop`);
    await settled(page);
    expect(await page.locator('.note-damage, .note-safety').count()).toBe(0);
    await page.context().close();
  });

  it('stand over the example, which is complete and in use behind them', async () => {
    const { page, complaints } = await visit(browser(), { ...DESK, ...US });
    await page.waitForSelector('.doors');
    expect(await page.locator('.doors .door').count()).toBe(2);
    await page.locator('[data-field="length"]').first().click();
    await page.locator('.editor .stepper').last().click();
    await page.keyboard.press('Escape');
    expect(await page.locator('.tools .tool').first().getAttribute('aria-label')).toMatch(
      /^Undo: Tube length/,
    );
    expect(complaints).toEqual([]);
    await page.getByRole('button', { name: 'Look round the example first' }).last().click();
    expect(await page.locator('.doors').count()).toBe(0);
    await page.reload();
    await page.waitForSelector('.title-block');
    expect(await page.locator('.doors').count()).toBe(0);
    await page.context().close();
  });

  for (const [size, options] of [
    ['desk', DESK],
    ['phone', PHONE],
  ] as const)
    it(`lead one who plans to the own panel, at ${size} size`, async () => {
      const { page, complaints } = await visit(browser(), { ...options, ...US });
      await page.getByRole('button', { name: /I am planning one/ }).click();
      await answerAll(page);
      expect(await page.locator('.three-heat strong').innerText()).toMatch(/\d/);
      expect(await page.locator('.three dd').nth(1).innerText()).toMatch(/^\+\d/);
      expect(await page.locator('.three dd').nth(2).innerText()).toMatch(/none|\d+/);
      expect(await page.locator('.home-note').count()).toBeLessThanOrEqual(1);
      await expectNoSideways(page);
      // heat, joints and cost move together; the length snaps to what is sold
      const joints = page.locator('.trade-two dd').first();
      await expect.poll(() => joints.innerText(), { timeout: 30_000 }).toMatch(/^\d+$/);
      const before = Number(await joints.innerText());
      const heat = numberIn(await page.locator('.three-heat strong').innerText());
      const length = page.getByRole('slider', { name: /Tube length/ });
      await length.focus();
      await length.press('ArrowRight');
      expect(await length.getAttribute('aria-valuetext')).toBe('30 ft');
      // the step itself: heat, joints and cost beside each other
      const change = page.locator('.trade-step dd');
      await expect
        .poll(() => change.allInnerTexts(), { timeout: 30_000 })
        .toEqual([
          expect.stringMatching(/^\+[\d,]+ Btu\/h$/),
          expect.stringMatching(/^\+\d+$/),
          expect.stringMatching(/^\+\$[\d,]+$/),
        ]);
      await expect
        .poll(async () => Number(await joints.innerText()), { timeout: 30_000 })
        .toBeGreaterThan(before);
      await settledHome(page);
      expect(numberIn(await page.locator('.three-heat strong').innerText())).toBeGreaterThan(heat);
      expect(await page.locator('.trade-two dd').nth(1).innerText()).toMatch(/\$[\d,]+/);
      // ends with a next step and a saved file
      expect(await page.locator('.home-next p').first().innerText()).not.toBe('');
      const coming = page.waitForEvent('download');
      await page.locator('.home-next .act').first().click();
      const file = JSON.parse(readFileSync(await (await coming).path(), 'utf8'));
      expect(file.site.place).toBe('Phoenix');
      expect(file.collector.sections[0].banks).toHaveLength(3);
      expect(file.collector.sections[0].banks[0]).toMatchObject({ count: 21, pipe: 'pvc-sch40-3/4' });
      expect(file.loop.pump.curve.shelf).toBe('twoSpeed-1.5hp');
      // closely laid tees fit the tubes that were chosen
      expect(file.collector.sections[0].banks[0].pitch_m).toBeCloseTo(3.375 * 0.0254, 4);
      expect(complaints).toEqual([]);
      await page.context().close();
    });

  it('widen the band for "I don’t know", and narrow it again for an answer', async () => {
    const { page } = await visit(browser(), { ...PHONE, ...US });
    await page.getByRole('button', { name: /I am planning one/ }).click();
    await next(page);
    await next(page);
    const known = await band(page);
    await page.getByRole('button', { name: 'I don’t know' }).click();
    await expect
      .poll(async () => (await band(page)).high - (await band(page)).low, { timeout: 60_000 })
      .toBeGreaterThan((known.high - known.low) * 1.02);
    await page.locator('.shelf-item', { hasText: '3/4 hp' }).click();
    expect(await page.getByRole('button', { name: 'I don’t know' }).getAttribute('aria-pressed')).toBe(
      'false',
    );
    await page.context().close();
  });

  it('go on with the same question after a reload', async () => {
    const { page } = await visit(browser(), { ...PHONE, ...US });
    await page.getByRole('button', { name: /I have one/ }).click();
    await next(page);
    await page.getByLabel('Length').fill('31 ft');
    await expect.poll(() => page.locator('.job').innerText()).toContain('saved');
    await page.reload();
    expect(await title(page)).toBe('How big is the pool?');
    expect(await page.getByLabel('Length').inputValue()).toBe('31 ft');
    await page.context().close();
  });

  it('read a place that no list knows by its degrees, and keep what cannot be read', async () => {
    const { page } = await visit(browser(), { ...PHONE, ...US });
    await page.getByRole('button', { name: /I am planning one/ }).click();
    const latitude = page.getByLabel('Latitude');
    await latitude.fill('34 S');
    await latitude.blur();
    expect(await latitude.inputValue()).toBe('-34');
    await latitude.fill('north');
    await latitude.blur();
    expect(await latitude.inputValue()).toBe('north');
    expect(await latitude.getAttribute('aria-invalid')).toBe('true');
    await page.context().close();
  });

  it('are free of findings of axe-core, every question and the home screen too', async () => {
    for (const options of [DESK, { ...PHONE, colorScheme: 'dark' as const }]) {
      const { page } = await visit(browser(), { ...options, ...US });
      await page.waitForSelector('.doors');
      await settled(page);
      await expectAccessible(page);
      await page.getByRole('button', { name: /I have one/ }).click();
      for (let i = 0; i < 6; i++) {
        await page.waitForSelector('.first-keys');
        await page.waitForSelector('.own-panel svg, .ask-picture svg, .first-ask', { state: 'attached' });
        await expectAccessible(page);
        await expectNoSideways(page);
        await next(page);
      }
      await settledHome(page);
      await expectAccessible(page);
      await page.context().close();
    }
  });

  it('can be gone through with the keyboard alone', async () => {
    const { page } = await visit(browser(), { ...DESK, ...US });
    await page.waitForSelector('.doors');
    /** Tabs on until something answers to the name. */
    const reach = async (name: RegExp) => {
      for (let i = 0; i < 120; i++) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const e = document.activeElement;
          return `${e?.getAttribute('aria-label') ?? ''} ${e?.textContent ?? ''}`;
        });
        if (name.test(at)) return;
      }
      throw new Error(`not reached by Tab: ${name}`);
    };
    await reach(/I am planning one/);
    await page.keyboard.press('Enter');
    for (const question of [/Where/, /How big/, /plate/, /Which pipe/, /lie/, /How many/]) {
      await expect.poll(() => title(page)).toMatch(question);
      await reach(/^ (Next|Show my panel)$/);
      await page.keyboard.press('Enter');
    }
    await settledHome(page);
    await reach(/Number of tubes/);
    await page.keyboard.press('ArrowUp');
    expect(await page.locator('.tools .tool').first().getAttribute('aria-label')).toBe('Undo: 21 tubes');
    await page.context().close();
  });
});

import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  answer,
  chooser,
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

const SHEET = '#build';
const VIEWS = ['drawings', 'parts', 'money', 'cuts', 'supports', 'work', 'cards'] as const;

/** Until the parts belong to the document shown. */
async function worked(page: Page): Promise<void> {
  await settled(page);
  await page.waitForSelector('.build[aria-busy="false"]', { timeout: 60_000 });
}

const show = async (page: Page, view: (typeof VIEWS)[number]): Promise<void> => {
  await page.locator('.build-views button', { hasText: view }).click();
  await worked(page);
};

const saved = async (page: Page, press: () => Promise<void>): Promise<{ name: string; text: string }> => {
  const coming = page.waitForEvent('download', { timeout: 60_000 });
  await press();
  const download = await coming;
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
};

const quince = (): {
  collector: { sections: { banks: { length_m: number; count: number; pipe: string; pitch_m: number }[] }[] };
  prices?: unknown;
  stock?: unknown;
} => JSON.parse(readFileSync(new URL('../../../../examples/quince-yard.json', import.meta.url), 'utf8'));

async function open(page: Page, project: unknown): Promise<void> {
  await page.locator('.title-number').click();
  await (await chooser(page)).setFiles({
    name: 'own.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(project)),
  });
  await page.waitForSelector('.toast', { timeout: 20_000 });
  await worked(page);
}

describe('Build sheet', () => {
  it('draws the set, and says what each drawing says', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await worked(page);
    const list = page.locator('.plans-list button');
    const names = await list.allInnerTexts();
    for (const word of ['Panel', 'Header', 'Supports', 'Loop', 'Cuts'])
      expect(names.some((n) => n.includes(word))).toBe(true);
    expect(await page.locator('.plan desc').textContent()).toContain('at a pitch of');
    await list.filter({ hasText: 'Header 1' }).click();
    expect(await textOf(page.locator('.bench'))).toContain('Nipple');
    expect(numberIn(await answer(page, 'glued joints'))).toBeGreaterThan(100);
    expect(numberIn(await answer(page, 'weighs, filled'))).toBeGreaterThan(100);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('takes a measured G, and every nipple follows; undo takes it back', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await page.locator('.plans-list button', { hasText: 'Header 1' }).click();
    const nipple = page.locator('.bench dl > div', { hasText: /^Nipple/ }).locator('dd');
    const before = numberIn(await textOf(nipple));
    const field = page.getByLabel(/^G, centre to socket bottom/);
    const now = numberIn((await field.getAttribute('placeholder')) ?? '');
    await field.fill(`${now + 0.1} in`);
    await field.press('Enter');
    // p − 2G: a tenth of an inch more in each tee is two tenths less of nipple
    await expect
      .poll(async () => numberIn(await textOf(nipple)), { timeout: 20_000 })
      .toBeCloseTo(before - 0.2, 2);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => numberIn(await textOf(nipple)), { timeout: 20_000 }).toBeCloseTo(before, 3);
    await page.context().close();
  });

  it('keeps ticks, own prices and what was paid through a reload', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'parts');
    const line = page.locator('.shop-line', { hasText: 'Check valve' });
    const cost = numberIn(await answer(page, 'parts cost'));
    await line.getByRole('checkbox').check();
    await expect.poll(() => textOf(page.locator('.shop-progress'))).toMatch(/^1 of /);
    await line.locator('.shop-edit').click();
    await line.getByLabel('Price of one').fill('41.50');
    await line.getByLabel('Price of one').press('Enter');
    await expect.poll(() => textOf(line.locator('.shop-price'))).toMatch(/^41\.50/);
    expect(await textOf(line.locator('.shop-price'))).not.toContain('demo');
    // both sums are shown in whole dollars: one may round the other way
    await expect
      .poll(async () => Math.abs(numberIn(await answer(page, 'parts cost')) - (cost + 11.5)))
      .toBeLessThanOrEqual(1);
    await line.getByLabel('Paid for them, in all').fill('35');
    await line.getByLabel('Paid for them, in all').press('Enter');
    await expect.poll(async () => numberIn(await answer(page, 'parts cost'))).toBe(Math.round(cost + 5));
    await expect.poll(() => textOf(page.locator('.job')), { timeout: 20_000 }).toContain('saved');
    await page.reload();
    await worked(page);
    await show(page, 'parts');
    expect(await line.getByRole('checkbox').isChecked()).toBe(true);
    expect(numberIn(await answer(page, 'parts cost'))).toBe(Math.round(cost + 5));
    await line.locator('.shop-edit').click();
    await line.getByLabel('Price of one').fill('');
    await line.getByLabel('Price of one').press('Enter');
    await line.getByRole('checkbox').uncheck();
    await expect.poll(() => textOf(page.locator('.shop-progress'))).toMatch(/^0 of /);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('proves the cutting plan, or loads the solver for a proof when it is asked to', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    const fetched: string[] = [];
    page.on('request', (request) => {
      if (request.url().includes('.wasm')) fetched.push(request.url());
    });
    await worked(page);
    await show(page, 'cuts');
    expect(await textOf(page.locator('.proof').first())).toContain('proven');
    const hand = numberIn(await answer(page, 'cuts'));
    await page.locator('.cuts-head button', { hasText: 'chop saw' }).click();
    await worked(page);
    expect(numberIn(await answer(page, 'cuts'))).toBeGreaterThan(hand / 2);
    expect(await page.locator('.cell', { hasText: 'kerf' }).count()).toBe(1);
    await page.locator('.cuts-head button', { hasText: 'hand saw' }).click();

    // unequal passes and four stock lengths: bound and plan do not meet by themselves
    const project = quince();
    const sizes = [1.621, 5, 0.911, 10, 1.233, 6, 1.452, 10, 1.243, 9, 1.336, 11];
    project.collector.sections
      .flatMap((s) => s.banks)
      .forEach((bank, i) => {
        bank.length_m = sizes[2 * i];
        bank.count = sizes[2 * i + 1];
      });
    const { pipe } = project.collector.sections[0].banks[0];
    const prices = [2.4, 3.35, 3.05, 4.42, 4, 6.33, 6.1, 9.63];
    project.prices = {
      currency: 'USD',
      asOf: '2026-04-12',
      parts: [
        ...[3.048, 6.096].map((stockLength_m) => ({ part: pipe, stockLength_m, notSold: true })),
        ...[0, 1, 2, 3].map((i) => ({ part: pipe, stockLength_m: prices[2 * i], price: prices[2 * i + 1] })),
      ],
    };
    project.stock = {
      pipes: [1.3, 2.2, 3.3].map((length_m) => ({ pipe, length_m, count: 2 })),
      parts: [],
      boards: [],
    };
    await open(page, project);
    await expect.poll(() => page.locator('.proof-gap').count(), { timeout: 20_000 }).toBe(1);
    expect(fetched).toEqual([]);
    await page.locator('.proof-act button').click();
    await expect.poll(() => page.locator('.proof-gap').count(), { timeout: 60_000 }).toBe(0);
    expect(
      await textOf(page.locator('.cut-sheet', { hasText: '1/2 in' }).locator('.proof').last()),
    ).toContain('proven');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('hands out report, tables and drawings', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await worked(page);
    const take = page.locator('.take');
    await take.locator('summary').click();
    const report = await saved(page, () => take.getByText('Report to print').click());
    expect(report.name).toBe('quince-yard-report.html');
    expect(report.text).toContain('<!doctype html>');
    expect(report.text).toContain('Order of work');
    expect(report.text).not.toMatch(/(src|href)="https?:/);
    const parts = await saved(page, () => take.getByText('Shop list (CSV)').click());
    expect(parts.text.split('\n')[0]).toContain('group,part,label');
    const cuts = await saved(page, () => take.getByText('Cutting plan (CSV)').click());
    expect(cuts.text.split('\n').length).toBeGreaterThan(10);
    await take.locator('summary').click();
    const svg = await saved(page, () => page.locator('.plans-save button', { hasText: 'SVG' }).click());
    expect(svg.text).toContain('<svg');
    const dxf = await saved(page, () => page.locator('.plans-save button', { hasText: 'DXF' }).click());
    expect(dxf.name).toMatch(/^quince-yard-panel-.*\.dxf$/);
    expect(dxf.text).toContain('ENTITIES');
    expect(complaints).toEqual([]);

    // what was handed out opens by itself and says it all
    const paper = await browser().newPage({ javaScriptEnabled: false });
    await paper.setContent(report.text);
    expect(await paper.locator('h1').innerText()).toContain('Quince yard');
    expect(await paper.locator('svg').count()).toBeGreaterThan(5);
    await paper.close();
    await page.context().close();
  });

  it('says what cannot be built, and takes one to the field that mends it', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    const project = quince();
    for (const s of project.collector.sections) for (const bank of s.banks) bank.pitch_m = 0.05;
    await open(page, project);
    const note = page.locator('.note-damage', { hasText: 'pitch' }).first();
    await note.locator('.note-main').click();
    await note.getByText('Go to it').click();
    expect(await textOf(page.locator('.editor h2'))).toContain('Pitch');
    await page.context().close();
  });

  it('prints one card by itself', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await worked(page);
    await show(page, 'cards');
    expect(await page.locator('.life-card').count()).toBeGreaterThan(6);
    await page.evaluate(() => {
      window.print = () => {};
    });
    await page.locator('.life-card', { hasText: 'First fill' }).getByText('Print').click();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.life-card:visible').count()).toBe(1);
    expect(await page.locator('.bar:visible, .title-block:visible, .build-head:visible').count()).toBe(0);
    await page.context().close();
  });

  it('is ticked in the shop without a network', async () => {
    const { page } = await visit(browser(), { ...PHONE, serviceWorkers: 'allow' }, SHEET);
    await worked(page);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null, undefined, {
      timeout: 30_000,
    });
    await page.context().setOffline(true);
    await page.reload();
    await worked(page);
    await show(page, 'parts');
    await page.locator('.shop-line').first().getByRole('checkbox').tap();
    await expect.poll(() => textOf(page.locator('.shop-progress'))).toMatch(/^1 of /);
    await expect.poll(() => textOf(page.locator('.job')), { timeout: 20_000 }).toContain('saved');
    await page.reload();
    await worked(page);
    await show(page, 'parts');
    expect(await page.locator('.shop-line').first().getByRole('checkbox').isChecked()).toBe(true);
    await page.context().close();
  });

  for (const colorScheme of ['light', 'dark'] as const)
    it(`is clean to axe-core on every page, ${colorScheme}`, async () => {
      const { page } = await visit(browser(), { ...DESK, colorScheme }, SHEET);
      await worked(page);
      for (const view of VIEWS) {
        await show(page, view);
        await expectAccessible(page);
      }
      await page.context().close();
    });

  it('fits a phone of 360 px', async () => {
    const { page, complaints } = await visit(browser(), PHONE, SHEET);
    await worked(page);
    for (const view of VIEWS) {
      await show(page, view);
      await expectNoSideways(page);
    }
    await expectAccessible(page);
    await show(page, 'parts');
    const first = page.locator('.shop-line').first();
    await first.getByRole('checkbox').tap();
    await expect.poll(() => textOf(page.locator('.shop-progress'))).toMatch(/^1 of /);
    await first.locator('.shop-edit').tap();
    await worked(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

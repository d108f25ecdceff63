import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  answer,
  DESK,
  expectAccessible,
  expectNoSideways,
  numberIn,
  openNote,
  ownBrowser,
  PHONE,
  settled,
  textOf,
  visit,
} from './browser';

const browser = ownBrowser();

const SHEET = '#collector';
const chip = (page: Page, id: string) => page.locator(`[data-field="${id}"]`).first();
const undoLabel = (page: Page) => page.locator('.tools .tool').first().getAttribute('aria-label');

describe('Collector sheet', () => {
  it('draws every tube and answers with heat and its band', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await settled(page);
    expect(numberIn(await answer(page, 'heat now'))).toBeGreaterThan(1000);
    expect(await textOf(page.locator('.cell-first .cell-sub'))).toMatch(/\d – \d/);
    const tubes = await page.locator('svg [data-layer="water"] line').count();
    expect(tubes).toBeGreaterThan(50);
    expect(await page.locator('#panel-desc').textContent()).toMatch(/tubes carry \d+ to \d+ % of even/);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('takes a length as people write it, keeps what cannot be read and says why', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const before = numberIn(await answer(page, 'heat now'));
    const was = await textOf(chip(page, 'length'));
    await chip(page, 'length').click();
    const input = page.locator('.editor input');
    await input.fill('thirty');
    expect(await textOf(page.locator('.editor [role="alert"]'))).toContain(`Still ${was}`);
    expect(await input.inputValue()).toBe('thirty');
    expect(await textOf(chip(page, 'length'))).toBe(was);
    await input.fill('25 ft 6 in');
    await input.press('Enter');
    expect(await textOf(chip(page, 'length'))).toBe('25 ft 6 in');
    await settled(page);
    expect(numberIn(await answer(page, 'heat now'))).toBeGreaterThan(before);
    expect(await undoLabel(page)).toBe('Undo: Tube length 25 ft 6 in');
    await page.keyboard.press('Control+z');
    expect(await textOf(chip(page, 'length'))).toBe(was);
    await page.context().close();
  });

  it('says what one step up and down does before it is done', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await chip(page, 'length').click();
    const effects = page.locator('.effect-heat');
    await expect.poll(() => textOf(effects.nth(1)), { timeout: 20_000 }).toMatch(/^\+.*Btu\/h$/);
    expect(await textOf(effects.nth(0))).toMatch(/^−/);
    await page.context().close();
  });

  it('makes one step of a drag, live while it moves', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const was = await textOf(chip(page, 'length'));
    const box = (await page.locator('.handle-x').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 10; i++) await page.mouse.move(x + i * 4, y);
    expect(await textOf(chip(page, 'length'))).not.toBe(was);
    await page.mouse.up();
    expect(await undoLabel(page)).toMatch(/^Undo: Tube length/);
    await page.keyboard.press('Control+z');
    expect(await textOf(chip(page, 'length'))).toBe(was);
    expect(await page.locator('.tools .tool').first().isDisabled()).toBe(true);
    await page.context().close();
  });

  it('opens and caps header ends by touch', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.locator('.segments button', { hasText: 'B' }).click();
    const capped = page.locator('.end-capped').first();
    const name = await capped.getAttribute('data-end');
    await capped.click();
    const same = page.locator(`[data-end="${name}"]`);
    expect(await same.getAttribute('aria-pressed')).toBe('true');
    expect(await same.getAttribute('aria-label')).toMatch(/header, [NESW]+ end: open$/);
    await page.context().close();
  });

  it('marks a tube as blocked by touching it', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const tube = page.locator('svg [data-layer="water"] line').nth(6);
    const box = (await tube.boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    const card = page.locator('.tube-card');
    await card.getByText('blocked', { exact: true }).click();
    await expect.poll(() => textOf(card.locator('.hint').first()), { timeout: 20_000 }).toBe('blocked');
    expect(await textOf(card)).toContain('scalds');
    await page.context().close();
  });

  it('mends from the margin and shows the difference from the reference', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.keyboard.press('Shift+R');
    await openNote(page, /too small|connected at/i);
    await page.locator('.act', { hasText: 'Mend' }).click();
    await settled(page);
    await expect.poll(() => page.locator('.cell-difference').count(), { timeout: 20_000 }).toBeGreaterThan(4);
    expect(await page.locator('.cell-difference').allInnerTexts()).toContainEqual(
      expect.stringMatching(/^[▲▼]/),
    );
    await page.context().close();
  });

  it('asked why, shows inputs, equation and source', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.locator('.cell').first().click();
    const why = page.locator('dialog.why');
    for (const word of ['How', 'From', 'Source', 'Sun on the plane', 'Perez']) {
      await expect.poll(() => textOf(why)).toContain(word);
    }
    await page.keyboard.press('Escape');
    await expect.poll(() => why.count()).toBe(0);
    await page.context().close();
  });

  it('switches units everywhere at once', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    expect(await textOf(chip(page, 'length'))).toContain('ft');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('metric');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(chip(page, 'length'))).toMatch(/ m$/);
    expect(await textOf(page.locator('.cell-first .cell-unit'))).toMatch(/W$/);
    await page.context().close();
  });

  it('looks at another hour: no heat from the sun at night', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const day = numberIn(await answer(page, 'heat now'));
    await page.locator('[data-drawer]').click();
    const hour = page.locator('#moment-hour');
    await hour.focus();
    await page.keyboard.press('End');
    await settled(page);
    await expect
      .poll(async () => numberIn(await answer(page, 'heat now')), { timeout: 20_000 })
      .toBeLessThan(day / 10);
    await page.context().close();
  });

  it('can be used with the keyboard alone', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const reached = new Set<string>();
    for (let i = 0; i < 70; i++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const e = document.activeElement as HTMLElement | null;
        if (e === null || e === document.body) return '';
        const style = getComputedStyle(e);
        const seen =
          e.matches(':focus-visible') && (style.outlineStyle !== 'none' || style.boxShadow !== 'none');
        return `${e.dataset.field ?? e.dataset.end ?? e.className}${seen ? '' : ' UNSEEN'}`;
      });
      reached.add(at);
    }
    for (const id of [
      'length',
      'count',
      'tube',
      'pitch',
      'header',
      'passes',
      'sections',
      'tilt',
      'facing',
      'colour',
    ])
      expect([...reached], id).toContain(id);
    expect([...reached].some((r) => r.startsWith('handle'))).toBe(true);
    expect([...reached].filter((r) => r.includes('UNSEEN'))).toEqual([]);
    await chip(page, 'passes').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('.editor input:focus');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Escape');
    expect(await textOf(chip(page, 'passes'))).toBe('3 passes');
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.field)).toBe('passes');
    await page.context().close();
  });

  for (const colorScheme of ['light', 'dark'] as const)
    it(`is clean to axe-core, ${colorScheme}`, async () => {
      const { page } = await visit(browser(), { ...DESK, colorScheme }, SHEET);
      await settled(page);
      await expectAccessible(page);
      await chip(page, 'tube').click();
      await expectAccessible(page);
      await page.keyboard.press('Escape');
      await page.locator('[data-drawer]').click();
      await expectAccessible(page);
      await page.context().close();
    });

  it('fits a phone of 360 px, where chips open a sheet from below', async () => {
    const { page, complaints } = await visit(browser(), PHONE, SHEET);
    await settled(page);
    await expectNoSideways(page);
    await expectAccessible(page);
    await chip(page, 'pitch').tap();
    const editor = (await page.locator('.editor').boundingBox())!;
    expect(Math.round(editor.y + editor.height)).toBe(740);
    expect(Math.round(editor.width)).toBe(360);
    for (const button of await page.locator('.chip, .stepper').all()) {
      const box = await button.boundingBox();
      if (box !== null) expect(box.height).toBeGreaterThanOrEqual(36);
    }
    await expectNoSideways(page);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

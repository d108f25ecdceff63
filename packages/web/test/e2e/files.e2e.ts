import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { chooser, DESK, ownBrowser, settled, textOf, visit } from './browser';

const browser = ownBrowser();

const SHEET = '#collector';

describe('files and keeping', () => {
  it('brings back the last step after a reload', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.locator('[data-field="count"]').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('.editor input:focus');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Escape');
    const now = await textOf(page.locator('[data-field="count"]'));
    await expect.poll(() => textOf(page.locator('.job')), { timeout: 20_000 }).toContain('saved');
    await page.reload();
    await settled(page);
    expect(await textOf(page.locator('[data-field="count"]'))).toBe(now);
    await page.context().close();
  });

  it('saves a file that it opens again as it was', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const coming = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    const download = await coming;
    expect(download.suggestedFilename()).toBe('quince-yard.sunlap.json');
    const saved = JSON.parse(readFileSync(await download.path(), 'utf8'));
    const original = JSON.parse(
      readFileSync(new URL('../../../../examples/quince-yard.json', import.meta.url), 'utf8'),
    );
    expect(saved).toEqual(original);
    await page.context().close();
  });

  it('refuses a broken file with the place of what is wrong, and changes nothing', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    await settled(page);
    const name = await textOf(page.locator('.job strong'));
    const broken = {
      ...JSON.parse(readFileSync(new URL('../../../../examples/tern-roof.json', import.meta.url), 'utf8')),
    };
    broken.collector.placement.tilt_deg = 'steep';
    await (await chooser(page)).setFiles({
      name: 'bad.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(broken)),
    });
    const said = await textOf(page.locator('dialog.problems'));
    expect(said).toContain('/collector/placement/tilt_deg');
    expect(said).toContain('as they were');
    await page.keyboard.press('Escape');
    expect(await textOf(page.locator('.job strong'))).toBe(name);
    await page.context().close();
  });

  it('opens the other example: coils, two valves, metric', async () => {
    const { page, complaints } = await visit(browser(), DESK, SHEET);
    await settled(page);
    await page.keyboard.press('Control+k');
    await page.keyboard.type('tern');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(page.locator('.job strong'))).toBe('Tern roof');
    await settled(page);
    expect(await textOf(page.locator('[data-field="count"]'))).toContain('coils');
    await page.keyboard.press('3');
    await page.waitForSelector('[id="/loop/bypass/pastValve/opening"]');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('asks the network for nothing but itself', async () => {
    const { page } = await visit(browser(), DESK, SHEET);
    const asked: string[] = [];
    page.on('request', (r) => asked.push(new URL(r.url()).origin));
    await page.reload();
    await settled(page);
    const own = new URL(page.url()).origin;
    expect(asked.filter((o) => o !== own && o !== 'null' && !o.startsWith('blob'))).toEqual([]);
    await page.context().close();
  });
});

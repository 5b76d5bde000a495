/**
 * The page of a sweep that was really run, opened from the disk where the program left it: 25 speeds of the example on
 * a coarse mesh. Quiet, small enough, moved by keyboard, and asks nothing of any network.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type Bench,
  hasBrowser,
  keepPicture,
  openBrowser,
  openFile,
  overhang,
  resize,
  seriousFindings,
} from './browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-real-'));
const out = join(folder, 'demo');
const file = join(out, 'sweep.html');
/** Coarse, and cut off after ten cycles: the page is looked at, not the engine. */
const coarse = ['--cell', '24mm', '--set', 'run.maxCycles=10', '--quiet'];

let bench: Bench;
beforeAll(async () => {
  if (!hasBrowser) return;
  const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');
  const words = [join(root, 'dist/src/main.js'), 'sweep', draft, ...coarse, '--out', out];
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  if (status !== 0 && status !== 4) throw new Error(`the sweep ended with ${status}: ${stderr}`);
  bench = await openBrowser();
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.runIf(hasBrowser)('the page of a real sweep', () => {
  test('holds 25 speeds in at most 8 MB', () => {
    const rows = readFileSync(join(out, 'sweep.csv'), 'utf8').trimEnd().split('\n').length - 1;
    expect(rows).toBe(25);
    expect(statSync(file).size).toBeLessThan(8e6);
  });

  test('opens from disk, follows the keyboard, and complains of nothing', async () => {
    const { page, complaints } = await openFile(bench, file);
    expect(page.url()).toBe(`file://${file}`);
    const speed = async (): Promise<number> =>
      Number((await page.locator('#speed-out').textContent())?.replace(/\D/g, ''));
    const figure = (id: string): Promise<string | null> =>
      page.evaluate((place) => {
        const drawn = document.querySelector(`#${place} .scatterlayer path.js-line`);
        return drawn?.getAttribute('d') ?? null;
      }, id);
    const [first, waves, verdict] = [
      await speed(),
      await figure('waves'),
      await page.locator('#verdict').textContent(),
    ];
    expect(waves).not.toBeNull();
    await page.locator('#speed').focus();
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowLeft', 'ArrowRight']) await page.keyboard.press(key);
    // The page draws once a frame, so what it shows is waited for and not read after the last key. Two steps to the
    // right and no other place is what the keys ask for: a page that lost one of them never gets there.
    await expect.poll(speed, { timeout: 10_000 }).toBe(first + 500);
    await expect.poll(() => figure('waves')).not.toBe(waves);
    expect(await page.locator('#verdict').textContent()).not.toBe(verdict);
    await page.keyboard.press('End');
    await expect.poll(speed, { timeout: 10_000 }).toBe(13_500);
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('fits 1400 px and 390 px and passes the accessibility check at both', async () => {
    const { page, complaints } = await openFile(bench, file, { width: 1400, height: 900 });
    for (const width of [1400, 390]) {
      await resize(page, { width, height: 900 });
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await seriousFindings(page)).toEqual([]);
      await keepPicture(page, `real-sweep-${width}`);
    }
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('stands in the index above it, which leads to it', async () => {
    const { page, complaints } = await openFile(bench, join(folder, 'index.html'));
    const link = page.locator('.runs a');
    expect(await link.textContent()).toMatch(/^Saltmarsh 125, draft A · .*10/);
    expect(await page.locator('.runs svg.outline').count()).toBe(1);
    expect(await page.locator('.runs svg.thumb polyline').count()).toBe(2);
    expect(await seriousFindings(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await keepPicture(page, 'real-index');
    await link.click();
    await page.waitForFunction(() => document.documentElement.dataset.drawn === 'yes');
    expect(page.url()).toBe(`file://${file}`);
    await page.close();
  });
});

/**
 * The bench's drawings in a headless browser: patterns measure true at 96 pixels to the inch (CSS Values and Units, 1 in
 * is 25.4 mm), the page and the prints are quiet, fit the window and keep a hostile name inert.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type Bench,
  hasBrowser,
  openBrowser,
  openFile,
  openPage,
  overhang,
  seriousFindings,
} from './browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const hostile = '<img src=x onerror=alert(1)><script>alert(1)</script>';
describe.runIf(hasBrowser)('the drawings of a bent pipe', () => {
  let bench: Bench;
  let out = '';
  beforeAll(async () => {
    bench = await openBrowser();
    out = join(bench.folder, 'unrolled');
    mkdirSync(out);
    const { status, stderr } = spawnSync(
      process.execPath,
      [
        join(root, 'dist/src/main.js'),
        'unroll',
        join(root, 'cases/saltmarsh-125/bent/pipe-a-bent.yaml'),
        ...['--set', `name=${hostile}`, '--sheet', '1000x500mm', '--out', out, '--overwrite'],
      ],
      { encoding: 'utf8' },
    );
    expect(status, stderr).toBe(0);
  });
  afterAll(() => bench?.close());

  it('measure true at 96 pixels to the inch', async () => {
    const svg = readFileSync(join(out, '17-baffle.svg'), 'utf8');
    const { page } = await openPage(bench, 'true-size', `<!doctype html><body>${svg}`);
    const [cut, bar] = await page.evaluate(() =>
      ['.cut path', '.page path'].map((place) => {
        const box = document.querySelector(place)?.getBoundingClientRect();
        return { width: box?.width ?? 0, height: box?.height ?? 0 };
      }),
    );
    const mm = (pixels: number): number => (pixels * 25.4) / 96;
    const [head, ...rows] = readFileSync(join(out, 'cut-list.csv'), 'utf8').trimEnd().split('\n');
    const row = rows.find((one) => one.endsWith('17-baffle'))?.split(',') ?? [];
    const stated = (column: string): number =>
      Number(row.at((head?.split(',').indexOf(column) ?? 0) - (head?.split(',').length ?? 0)));
    // The browser places to a 64th of a pixel, the file to a ten-thousandth of a millimetre.
    expect(Math.abs(mm(cut?.width ?? 0) - stated('blank_width_mm'))).toBeLessThan(0.02);
    expect(Math.abs(mm(cut?.height ?? 0) - stated('blank_height_mm'))).toBeLessThan(0.02);
    expect(Math.abs(mm(bar?.width ?? 0) - 100)).toBeLessThan(0.02);
    await page.close();
  });

  it('print in true size, a page of paper each', async () => {
    const { page, complaints } = await openFile(bench, join(out, 'print-a4.html'));
    const sizes = await page.evaluate(() =>
      [...document.images].map(({ naturalWidth, complete }) => ({ naturalWidth, complete })),
    );
    expect(complaints).toEqual([]);
    expect(sizes.length).toBeGreaterThan(5);
    // 210 mm or 297 mm at 96 pixels to the inch.
    for (const { naturalWidth, complete } of sizes) {
      expect(complete).toBe(true);
      expect([794, 1123]).toContain(naturalWidth);
    }
    await page.close();
  });

  it('stand on a quiet page that fits the window', async () => {
    for (const width of [1400, 390]) {
      const { page, complaints } = await openFile(bench, join(out, 'unroll.html'), { width, height: 900 });
      expect(complaints).toEqual([]);
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await seriousFindings(page)).toEqual([]);
      await page.close();
    }
  });
});

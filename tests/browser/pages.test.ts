/** Every page in a headless browser, opened from disk: drawn, quiet, within the window, reachable by keyboard. */

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { aimPage } from '../../plots/pages/aim-page.ts';
import { comparePage } from '../../plots/pages/compare-page.ts';
import { indexPage } from '../../plots/pages/index-page.ts';
import { mapPage } from '../../plots/pages/map-page.ts';
import { overnightPage } from '../../plots/pages/overnight-page.ts';
import { pulsePage } from '../../plots/pages/pulse-page.ts';
import { reconcilePage } from '../../plots/pages/reconcile-page.ts';
import { sweepPage } from '../../plots/pages/sweep-page.ts';
import { verifyPage } from '../../plots/pages/verify-page.ts';
import { syntheticSure } from '../plots/synthetic-members.ts';
import * as synthetic from '../plots/synthetic-pages.ts';
import { syntheticReconcile } from '../plots/synthetic-reconcile.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';
import {
  assetsOf,
  type Bench,
  cutLabels,
  hasBrowser,
  keepPicture,
  openBrowser,
  openPage,
  overhang,
  resize,
  seriousFindings,
  type Watched,
} from './browser.ts';

/** What it gives, computed the first time it is asked for. */
function once(make: () => string): () => string {
  let made: string | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

const sweepMarkup = once(() => sweepPage(syntheticSweep(), assetsOf('sweep-page')));
const pages: Record<string, () => string> = {
  sweep: sweepMarkup,
  sure: () => {
    const sweep = syntheticSweep();
    return sweepPage(sweep, assetsOf('sweep-page'), { sure: syntheticSure(sweep.rows, 9500) });
  },
  pulse: () => pulsePage(synthetic.syntheticPulse(), assetsOf('pulse-page')),
  map: () => mapPage(synthetic.syntheticMap(), assetsOf('map-page')),
  compare: () => comparePage(synthetic.syntheticCompare(), assetsOf('compare-page')),
  overnight: () => overnightPage(synthetic.syntheticOvernight(false, 90), assetsOf('overnight-page')),
  aim: () => aimPage(synthetic.syntheticAim(), assetsOf('aim-page')),
  reconcile: () => reconcilePage(syntheticReconcile(), assetsOf('reconcile-page')),
  verify: () => verifyPage(synthetic.syntheticVerify(), assetsOf('verify-page')),
  index: () => indexPage(synthetic.syntheticIndex(), assetsOf('index-page').script),
};

/** A4 sheets of each page in print, at most. A study's table and the index are as long as they have drafts and runs. */
const sheets: Readonly<Record<string, number>> = {
  reconcile: 2,
  sweep: 2,
  sure: 3,
  map: 2,
  compare: 2,
  aim: 3,
  overnight: 3,
  index: 2,
};

let bench: Bench;
beforeAll(async () => {
  if (!hasBrowser) return;
  bench = await openBrowser();
});
afterAll(async () => {
  await bench?.close();
});

/** From the narrowest window on, the middle one in the dark; the widest stays for the printer. */
const sizes = [
  { width: 390, height: 800 },
  { width: 800, height: 900, dark: true },
  { width: 1400, height: 900 },
];

describe.runIf(hasBrowser).each(Object.keys(pages))('the %s page', (name) => {
  let watched: Watched;
  beforeAll(async () => {
    watched = await openPage(bench, name, pages[name]?.() ?? '', sizes[0]);
  });
  afterAll(async () => {
    await watched?.page.close();
  });

  it.each(sizes)('is quiet, fits and passes the accessibility check at $width px', async (size) => {
    const { page, complaints } = watched;
    await resize(page, size);
    expect(complaints).toEqual([]);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    expect(await seriousFindings(page)).toEqual([]);
    if (size.width === 390) expect(await cutLabels(page)).toEqual([]);
    await keepPicture(page, `${name}-${size.width}${size.dark ? '-dark' : ''}`);
  });

  it('prints on as many A4 sheets as it needs, and no more', async () => {
    const pdf = await watched.page.pdf({ preferCSSPageSize: true, printBackground: true });
    const count = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length;
    expect(count).toBeLessThanOrEqual(sheets[name] ?? 1);
  });
});

describe.runIf(hasBrowser)('the index', () => {
  it('lays two ticked sweeps side by side, accessible and within a phone, and takes them away again', async () => {
    const { page, complaints } = await openPage(bench, 'beside', pages.index?.() ?? '', sizes[0]);
    const boxes = page.locator('.lay input');
    expect(await boxes.count()).toBe(2);
    await boxes.first().check();
    expect(await page.locator('#beside').isVisible()).toBe(false);
    await boxes.last().check();
    expect(await page.locator('#beside tbody tr').count()).toBeGreaterThan(5);
    expect(await page.locator('#beside svg').count()).toBe(4);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    expect(await seriousFindings(page)).toEqual([]);
    await keepPicture(page, 'beside-390');
    await boxes.first().uncheck();
    expect(await page.locator('#beside').isVisible()).toBe(false);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe.runIf(hasBrowser)('the sweep page of 25 speeds', () => {
  // How long it takes to open is a matter of `npm run bench`.
  it('stays below 8 MB', () => {
    expect(Buffer.byteLength(sweepMarkup())).toBeLessThan(8e6);
  });

  let watched: Watched;
  beforeAll(async () => {
    watched = await openPage(bench, 'sweep-25', sweepMarkup());
  });
  afterAll(async () => {
    await watched?.page.close();
  });

  it('changes speed by keyboard and by the play button', async () => {
    const { page, complaints } = watched;
    const speed = (): Promise<string | null> => page.locator('#speed-out').textContent();
    const line = (): Promise<string | null> =>
      page.locator('#waves .scatterlayer path.js-line').first().getAttribute('d');
    const [before, drawn] = [await speed(), await line()];
    for (let i = 0; i < 40; i++) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.id === 'speed')) break;
    }
    await page.keyboard.press('ArrowRight');
    await page.waitForFunction((old) => document.getElementById('speed-out')?.textContent !== old, before);
    await page.waitForFunction(
      (old) => document.querySelector('#waves .scatterlayer path.js-line')?.getAttribute('d') !== old,
      drawn,
    );
    const stepped = await speed();
    expect(stepped).not.toBe(before);
    await page.locator('#play').press('Enter');
    await page.waitForFunction((old) => document.getElementById('speed-out')?.textContent !== old, stepped);
    await page.locator('#play').press('Enter');
    expect(await page.locator('#play').getAttribute('aria-pressed')).toBe('false');
    expect(complaints).toEqual([]);
  });

  it('marks the same instant in both crank-angle figures', async () => {
    const { page } = watched;
    const field = page.locator('#diagram .nsewdrag').first();
    await field.scrollIntoViewIfNeeded();
    const box = await field.boundingBox();
    if (!box) throw new Error('the wave diagram has no area');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height * 0.6);
    await page.mouse.move(box.x + box.width / 2 + 3, box.y + box.height * 0.6);
    await page.waitForFunction(
      () => document.querySelector<HTMLElement>('#waves > .cursor')?.style.display === 'block',
    );
    // The crank axis stands from 83° below to 443° above: at 0.6 from the top it reads 83 + 0.4 · 360 = 227°.
    const text = await page.locator('#readout').textContent();
    expect(text).toMatch(/^\d+° \[bar\]: port .*; \d+ mm along: \d\.\d\d$/);
    expect(Number.parseInt(text ?? '', 10)).toBeGreaterThanOrEqual(224);
    expect(Number.parseInt(text ?? '', 10)).toBeLessThanOrEqual(230);
    // No box of the library's stands on the wave.
    expect(await page.locator('.hoverlayer .hovertext, .hoverlayer .legend').count()).toBe(0);
  });

  it.each([1400, 390])('keeps the height of the player’s bar over the speeds, %i px wide', async (width) => {
    const { page } = watched;
    await resize(page, { width, height: 900 });
    const heights = await page.evaluate(async () => {
      const slider = document.querySelector<HTMLInputElement>('#speed');
      const found: number[] = [];
      for (let i = 0; slider && i <= Number(slider.max); i += 2) {
        slider.value = String(i);
        slider.dispatchEvent(new Event('input'));
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
        found.push(document.querySelector('.player')?.getBoundingClientRect().height ?? 0);
      }
      return [...new Set(found)];
    });
    expect(heights).toHaveLength(1);
  });

  it('takes hostile names as text', async () => {
    const markup = sweepPage(syntheticSweep({ hostile: true, step: 1000 }), assetsOf('sweep-page'));
    const { page, complaints } = await openPage(bench, 'sweep-hostile', markup);
    expect(complaints).toEqual([]);
    expect(await page.locator('.titleblock dd').first().textContent()).toBe(
      '<script>alert(1)</script> & "Söhne"',
    );
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    await page.close();
  });
});

describe.runIf(hasBrowser)('the overnight page', () => {
  it('sorts by a pressed heading and filters by constraint', async () => {
    const headers = synthetic.syntheticOvernight(false, 90).drafts.map((draft) => draft.values[0] ?? 0);
    const { page } = await openPage(bench, 'overnight-sort', pages.overnight?.() ?? '');
    const first = (column: number): Promise<string | null> =>
      page.locator(`#ranking tbody tr:not([hidden]) td:nth-child(${column})`).first().textContent();
    await page.locator('#ranking th:nth-child(4) button').press('Enter');
    expect(await first(4)).toBe(String(Math.min(...headers)));
    await page.locator('#ranking th:nth-child(4) button').press('Enter');
    expect(await first(4)).toBe(String(Math.max(...headers)));
    await page.locator('#filter').selectOption('all');
    const shown = await page.locator('#ranking tbody tr:not([hidden]) td:last-child').allInnerTexts();
    expect(shown.length).toBeGreaterThan(0);
    expect(new Set(shown)).toEqual(new Set(['✓ all met']));
    await page.close();
  });
});

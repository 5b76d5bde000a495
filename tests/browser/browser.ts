/** One headless browser for a test file, with a fresh profile, told to ask nothing of any network. */

import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumFlags, chromiumPath } from '../../plots/chromium.mjs';

export { hasBrowser } from '../on-this-machine.ts';

const root = new URL('../..', import.meta.url).pathname;

export const assetsOf = (page: string): { plotly: string; script: string } => ({
  plotly: readFileSync(join(root, 'node_modules/plotly.js-dist-min/plotly.min.js'), 'utf8'),
  script: readFileSync(join(root, `dist/plots/bundle/${page}.js`), 'utf8'),
});

export interface Bench {
  readonly context: BrowserContext;
  readonly folder: string;
  close(): Promise<void>;
}

export async function openBrowser(): Promise<Bench> {
  if (!existsSync(chromiumPath))
    throw new Error(`no Chromium at ${chromiumPath}; install it or set CHROMIUM to its path`);
  const folder = mkdtempSync(join(tmpdir(), 'echocone-browser-'));
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), {
    executablePath: chromiumPath,
    headless: true,
    args: chromiumFlags,
  });
  return {
    context,
    folder,
    close: async () => {
      await context.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export interface Watched {
  readonly page: Page;
  /** Console errors, uncaught errors and requests beyond the file itself. */
  readonly complaints: string[];
}

export interface WindowSize {
  readonly width: number;
  readonly height: number;
  readonly dark?: boolean;
}

/** Writes a page to a file and opens it from there; waits until its figures are drawn. */
export function openPage(bench: Bench, name: string, markup: string, size?: WindowSize): Promise<Watched> {
  const file = join(bench.folder, `${name}.html`);
  writeFileSync(file, markup);
  return openFile(bench, file, size);
}

/** Opens a page from disk as a program left it; waits until its figures are drawn. */
export async function openFile(
  bench: Bench,
  file: string,
  size: WindowSize = { width: 1400, height: 900 },
): Promise<Watched> {
  const page = await bench.context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith('data:') && !url.startsWith('blob:') && url !== pathToFileURL(file).href)
      complaints.push(`request for ${url}`);
  });
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  await page.setViewportSize({ width: size.width, height: size.height });
  await page.emulateMedia({ colorScheme: size.dark === true ? 'dark' : 'light' });
  await page.goto(pathToFileURL(file).href);
  await untilDrawn(page);
  return { page, complaints };
}

/** Gives an open page's window another size and light; waits until the page has drawn its figures again. */
export async function resize(page: Page, size: WindowSize): Promise<void> {
  await page.setViewportSize({ width: size.width, height: size.height });
  await page.emulateMedia({ colorScheme: size.dark === true ? 'dark' : 'light' });
  // The page hears of its new width with the next frame.
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await untilDrawn(page);
}

const untilDrawn = (page: Page): Promise<unknown> =>
  page.waitForFunction(
    () => document.documentElement.dataset.drawn === 'yes' || document.scripts.length < 2,
    undefined,
    { timeout: 20_000 },
  );

/** Keeps a picture of the whole page as build output, where `PICTURES` is set: to draw one takes longer than to check the page. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  if (!process.env.PICTURES) return;
  const folder = join(root, 'build/screenshots');
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}

/** How far the page is wider than its window [px]. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

/** Texts of the figures that stick out of their figure. */
export const cutLabels = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('.plot')].flatMap((plot) => {
      const frame = plot.getBoundingClientRect();
      return [...plot.querySelectorAll('text')]
        .filter((text) => {
          const box = text.getBoundingClientRect();
          return (
            box.width > 0 &&
            (box.left < frame.left - 1 ||
              box.right > frame.right + 1 ||
              box.bottom > frame.bottom + 1 ||
              box.top < frame.top - 1)
          );
        })
        .map((text) => `${plot.id}: ${text.textContent}`);
    }),
  );

/** Serious and critical findings of the accessibility check. */
export async function seriousFindings(page: Page): Promise<string[]> {
  const source = readFileSync(join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');
  await page.evaluate(source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: {
        run(options: { resultTypes: string[] }): Promise<{
          violations: { id: string; impact: string | null; nodes: { html: string }[] }[];
        }>;
      };
    };
    const { violations } = await axe.run({ resultTypes: ['violations'] });
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(' | ')}`);
  });
}

// How long a page takes from its file on disk to drawn figures, in headless Chromium.

import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { chromiumFlags, chromiumPath } from '../../plots/chromium.mjs';
import { median } from './march-rate.mjs';

const TIMES = 5;

/** Median of a few openings [ms]; null where there is no browser. */
export async function pageOpenMs(file) {
  if (!existsSync(chromiumPath)) return null;
  const profile = mkdtempSync(join(tmpdir(), 'echocone-bench-profile-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath,
    headless: true,
    viewport: { width: 1400, height: 900 },
    args: chromiumFlags,
  });
  try {
    const times = [];
    for (let i = 0; i < TIMES; i += 1) {
      const page = await context.newPage();
      const start = performance.now();
      await page.goto(pathToFileURL(file).href);
      await page.waitForFunction(() => document.documentElement.dataset.drawn === 'yes');
      times.push(performance.now() - start);
      await page.close();
    }
    return median(times);
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  }
}

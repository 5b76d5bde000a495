// `npm run pictures`: runs the demo and makes from it what the README shows: three pictures and an excerpt of the table.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { chromiumFlags, chromiumPath } from './chromium.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const pictures = join(root, 'plots/pictures');
const folder = mkdtempSync(join(tmpdir(), 'echocone-pictures-'));
/** A README is read on a telephone too [bytes]. */
const LARGEST = 150_000;

function demo() {
  const words = [
    'dist/src/main.js',
    'sweep',
    'cases/saltmarsh-125/draft-a.yaml',
    '--out',
    join(folder, 'demo'),
  ];
  return execFileSync(process.execPath, words, {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

/** Name and headline to the end of its sentence, then the table with its heading and every second row. */
function excerpt(answer) {
  const lines = answer.trimEnd().split('\n');
  const gap = lines.indexOf('');
  const table = lines.slice(gap);
  const first = table.findIndex((line) => /^[> ] +\d/.test(line));
  const rows = table.slice(first).filter((_, i) => i % 2 === 0);
  const headline = lines.slice(0, 1 + lines.findIndex((line, at) => at > 0 && line.endsWith('.')));
  return [...headline, ...table.slice(0, first), ...rows].join('\n');
}

function intoReadme(table) {
  const path = join(root, 'README.md');
  const text = readFileSync(path, 'utf8');
  const place = /(<!-- table of the demo -->\n```text\n)[^`]*(```\n)/;
  if (!place.test(text)) throw new Error('README.md has no place for the table of the demo');
  writeFileSync(
    path,
    text.replace(place, (_, before, after) => `${before}${table}\n${after}`),
  );
}

/** The board with a wider belly pulled, a turn stopped as the wave comes back. */
async function photographBoard(browser) {
  const words = [
    'board',
    'cases/saltmarsh-125/draft-a.yaml',
    '--cell',
    '10mm',
    '--out',
    join(folder, 'board'),
    '--quiet',
  ];
  execFileSync(process.execPath, [join(root, 'dist/src/main.js'), ...words], { cwd: root, stdio: 'ignore' });
  const page = await browser.newPage({ viewport: { width: 1040, height: 800 }, colorScheme: 'light' });
  const refined = () =>
    page.waitForFunction(() => document.documentElement.dataset.state === 'refined', undefined, {
      timeout: 120_000,
    });
  await page.goto(pathToFileURL(join(folder, 'board/board.html')).href);
  await refined();
  await page.evaluate(() => window.board.set('pipe.sections.header.length', '235 mm'));
  await refined();
  // The base was computed on these cells already; the gas to be played comes a little later than the rows.
  await page.waitForTimeout(1500);
  await page.locator('#turn-angle').fill('150');
  await page.locator('#joints .joint').nth(1).focus();
  await page.waitForTimeout(200);
  await page.screenshot({
    path: join(pictures, 'board.png'),
    clip: { x: 0, y: 0, width: 1040, height: 800 },
  });
}

async function photograph(file) {
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: chromiumFlags,
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1000, height: 800 }, colorScheme: 'light' });
    await page.goto(pathToFileURL(file).href);
    await page.waitForFunction(() => document.documentElement.dataset.drawn === 'yes');
    const first = { x: 0, y: 0, width: 1000, height: 620 };
    await page.screenshot({ path: join(pictures, 'sweep-page.png'), clip: first });
    const diagram = page.locator('#diagram');
    await diagram.evaluate((place) => place.scrollIntoView({ block: 'center' }));
    await diagram.screenshot({ path: join(pictures, 'wave-diagram.png') });
    await photographBoard(browser);
  } finally {
    await browser.close();
  }
}

try {
  mkdirSync(pictures, { recursive: true });
  const table = demo();
  await photograph(join(folder, 'demo/sweep.html'));
  intoReadme(excerpt(table));
  for (const name of ['sweep-page.png', 'wave-diagram.png', 'board.png']) {
    const { size } = statSync(join(pictures, name));
    process.stdout.write(`plots/pictures/${name}: ${Math.round(size / 1000)} kB\n`);
    if (size > LARGEST) throw new Error(`${name} is larger than ${LARGEST / 1000} kB`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

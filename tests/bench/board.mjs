// `npm run bench:board`: the live page measured in a headless Chromium, moved by mouse and keyboard. With --json one document,
// else the same as a table; `boardFigures({ quick })` is what `npm run bench` takes from it.

import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { availableParallelism, cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromiumFlags, chromiumPath } from '../../plots/chromium.mjs';
import { median } from './march-rate.mjs';

const root = new URL('../../', import.meta.url).pathname;
const program = join(root, 'dist/src/main.js');
const demo = join(root, 'cases/saltmarsh-125/draft-a.yaml');
/** Joints of the demo's pipe that are pulled in turn. */
const JOINTS = [1, 2, 3, 4];

const state = (page, wanted) =>
  page.waitForFunction((to) => document.documentElement.dataset.state === to, wanted, { timeout: 180_000 });

const joint = (page, k) => page.locator(`#joints .joint:nth-child(${k + 1}) .knob`);

/** Takes hold of a joint; where the mouse then is. */
async function grip(page, k) {
  const box = await joint(page, k).boundingBox();
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  return at;
}

/** From a drag's last move: to the first answer at the speed looked at, to all speeds in preview, to refined rows [ms]. */
async function answerTimes(page, k, dx, dy) {
  const at = await grip(page, k);
  for (let step = 1; step < 6; step++) await page.mouse.move(at.x + (dx * step) / 6, at.y + (dy * step) / 6);
  await page.evaluate(() => {
    const { dataset } = document.documentElement;
    window.times = {};
    document.getElementById('joints').addEventListener(
      'pointermove',
      () => {
        const start = performance.now();
        const look = () => {
          const { times } = window;
          if (times.first === undefined && Number(dataset.answered) >= window.wanted)
            times.first = performance.now() - start;
          if (times.preview === undefined && dataset.state !== 'computing' && times.first !== undefined)
            times.preview = performance.now() - start;
          if (dataset.state === 'refined' && times.preview !== undefined)
            times.refined = performance.now() - start;
          else requestAnimationFrame(look);
        };
        // The board heard of the move first: this is its change.
        window.wanted = Number(dataset.revision);
        requestAnimationFrame(look);
      },
      { once: true },
    );
  });
  await page.mouse.move(at.x + dx, at.y + dy);
  await page.mouse.up();
  await page.waitForFunction(() => window.times.refined !== undefined, undefined, { timeout: 180_000 });
  return page.evaluate(() => window.times);
}

/**
 * Longest time that the page's own thread works on one task [ms], by the processor's clock: what a drag asks of it, whatever else
 * the machine does.
 */
async function longestTask(browser, page, does) {
  await browser.startTracing(page, { categories: ['toplevel'] });
  await does();
  const { traceEvents } = JSON.parse(String(await browser.stopTracing()));
  const threads = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid}:${tid}`),
  );
  const tasks = traceEvents.filter(
    ({ ph, name, pid, tid }) => ph === 'X' && /RunTask$/.test(name) && threads.has(`${pid}:${tid}`),
  );
  return tasks.reduce((most, { tdur = 0 }) => Math.max(most, tdur / 1000), 0);
}

/** Longest time between two frames while a joint is dragged for so long [ms], and the median. */
async function frames(page, seconds) {
  const at = await grip(page, 3);
  await page.evaluate(() => {
    window.frames = [];
    window.watching = true;
    let last = performance.now();
    const tick = (now) => {
      window.frames.push(now - last);
      last = now;
      if (window.watching) requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
  const until = performance.now() + 1000 * seconds;
  for (let k = 0; performance.now() < until; k++) {
    await page.mouse.move(at.x + 25 * Math.sin(k / 15), at.y + 14 * Math.cos(k / 11));
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  const found = await page.evaluate(() => {
    window.watching = false;
    return window.frames.slice(2);
  });
  return { longest: Math.max(...found), median: median(found), over50: found.filter((ms) => ms > 50).length };
}

/** Heap of the page after collecting what is no longer used [MB]. */
async function heap(session) {
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}

/** The same random numbers each time. */
function dice(seed) {
  let at = seed;
  return () => {
    at = (Math.imul(at, 1_103_515_245) + 12_345) >>> 0;
    return at / 2 ** 32;
  };
}

/** Random edits by keys, buttons of the table and typed numbers, some of them impossible; counts refusals without a word. */
async function edits(page, count, roll) {
  const tally = { done: 0, refused: 0, unsaid: 0 };
  for (let k = 0; k < count; k++) {
    const before = await page.evaluate(() => window.board.pipeYaml());
    const what = roll();
    const joints = await page.locator('#joints .joint').count();
    if (what < 0.5) {
      const keys = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'];
      const key = `${roll() < 0.3 ? 'Shift+' : ''}${keys[Math.floor(4 * roll())]}`;
      await page
        .locator('#joints .joint')
        .nth(Math.floor(joints * roll()))
        .press(key);
    } else if (what < 0.8) {
      const fields = page.locator('#sections input');
      const field = fields.nth(Math.floor((await fields.count()) * roll()));
      await field.fill(`${(roll() < 0.3 ? -20 : 5) + Math.round(250 * roll())} mm`);
      await page.keyboard.press('Enter');
    } else if (what < 0.9) {
      const buttons = page.locator('#sections button');
      await buttons.nth(Math.floor((await buttons.count()) * roll())).click();
    } else await page.locator('#undo').click({ force: true });
    const after = await page.evaluate(() => [
      window.board.pipeYaml(),
      document.getElementById('notice').textContent,
    ]);
    if (after[1] !== '') {
      tally.refused++;
      if (after[0] !== before) tally.unsaid++;
    } else tally.done++;
  }
  return tally;
}

/** @returns {Promise<Record<string, number> | null>} null where there is no browser */
export async function boardFigures({ quick }) {
  if (!existsSync(chromiumPath)) return null;
  const { chromium } = await import('playwright-core');
  const folder = mkdtempSync(join(tmpdir(), 'echocone-board-'));
  const made = spawnSync(process.execPath, [
    program,
    'board',
    demo,
    '--cell',
    '7mm',
    '--out',
    folder,
    '--overwrite',
    '--quiet',
  ]);
  if (made.status !== 0) throw new Error(String(made.stderr));
  const browser = await chromium.launch({ executablePath: chromiumPath, args: chromiumFlags });
  try {
    const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
    const faults = [];
    page.on('pageerror', (error) => faults.push(String(error)));
    const start = performance.now();
    await page.goto(pathToFileURL(join(folder, 'board.html')).href);
    await page.waitForFunction(() => document.documentElement.dataset.drawn === 'yes');
    const opens = performance.now() - start;
    await state(page, 'refined');
    const all = [];
    for (const k of quick ? JOINTS.slice(0, 2) : JOINTS) all.push(await answerTimes(page, k, 14, -6));
    const of = (name) => median(all.map((times) => times[name]));
    const figures = {
      board_page_mb: statSync(join(folder, 'board.html')).size / 1e6,
      board_opens_ms: opens,
      board_first_answer_ms: of('first'),
      board_all_in_preview_ms: of('preview'),
      board_refined_7mm_ms: of('refined'),
    };
    if (quick) return figures;
    const drag = await frames(page, 5);
    const task = await longestTask(browser, page, () => frames(page, 5));
    const session = await page.context().newCDPSession(page);
    await session.send('HeapProfiler.enable');
    const roll = dice(7);
    const random = await edits(page, 200, roll);
    const before = await heap(session);
    for (let k = 0; k < 500; k++)
      await page
        .locator('#joints .joint')
        .nth(2)
        .press(k % 2 === 0 ? 'ArrowUp' : 'ArrowDown');
    const after = await heap(session);
    return {
      ...figures,
      board_drag_longest_frame_ms: drag.longest,
      board_drag_median_frame_ms: drag.median,
      board_drag_frames_over_50_ms: drag.over50,
      board_drag_longest_task_cpu_ms: task,
      board_heap_before_500_edits_mb: before,
      board_heap_after_500_edits_mb: after,
      board_random_edits_done: random.done,
      board_random_edits_refused: random.refused,
      board_refused_but_changed: random.unsaid,
      board_faults: faults.length,
    };
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1]?.endsWith('bench/board.mjs')) {
  const figures = await boardFigures({ quick: process.argv.includes('--quick') });
  const machine = {
    cpu: cpus()[0]?.model ?? 'unknown',
    cores: availableParallelism(),
    node: process.version,
  };
  const rounded = (value) => (typeof value === 'number' ? Number(value.toPrecision(4)) : value);
  if (process.argv.includes('--json'))
    process.stdout.write(
      `${JSON.stringify({ schemaVersion: 1, kind: 'bench-board', ...figures, machine }, (_, value) => rounded(value), 2)}\n`,
    );
  else if (figures === null)
    process.stdout.write(`No Chromium at ${chromiumPath}; set CHROMIUM to its path.\n`);
  else
    for (const [name, value] of Object.entries(figures))
      process.stdout.write(`${name.padEnd(36)}${rounded(value)}\n`);
}

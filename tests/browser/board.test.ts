/**
 * The board opened from disk: it is moved by real events of mouse and keyboard, answers, and its refined rows are those of the
 * command line on the same cells. Rings: identity (rows against a sweep), and what a page of this house has to be.
 */

import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { boardPage } from '../../plots/pages/board-page.ts';
import { loadCase, openFile } from '../../src/case/load.ts';
import { keysOf } from '../../src/case/schemas/key-list.ts';
import { sentCase } from '../../src/case/sent-case.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { runGroup, speedGroups } from '../../src/study/work/run-sweep.ts';
import {
  type Bench,
  hasBrowser,
  keepPicture,
  openFile as open,
  openBrowser,
  overhang,
  resize,
  seriousFindings,
} from './browser.ts';

const root = new URL('../..', import.meta.url).pathname;
const script = (): string => readFileSync(join(root, 'dist/plots/bundle/board-page.js'), 'utf8');
const DRAFT = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const STAGE = '<b>long</b> & thin';
const HOSTILE = '</script><script>document.title="owned"</script><img src=x onerror=alert(1)>';

interface BoardWindow {
  board: {
    set(path: string, text: string): string | null;
    get(path: string): string | null;
    rows(): SweepRow[];
    cell(): string;
    undo(): boolean;
    redo(): boolean;
    pipeYaml(): string;
    caseYaml(): string;
  };
}

/** A board of few speeds on cells [m], of the demo or of it with changes. */
function boardOf(cell: number, speeds: readonly number[], set: readonly string[] = []): string {
  const { document, set: rest } = sentCase(openFile(DRAFT), set);
  const carried = { file: 'draft-a.yaml', document, set: rest, cell, speeds };
  const keys = keysOf('case').map(({ path, doc, takes, unstated }) => ({ path, doc, takes, unstated }));
  const name = set.find((one) => one.startsWith('name='))?.slice(5) ?? 'Saltmarsh';
  return boardPage(
    { program: 'test', name, engine: 'engine', pipe: 'pipe', data: { carried, keys } },
    script(),
  );
}

const stateIs = (page: Page, state: string): Promise<unknown> =>
  page.waitForFunction((wanted) => document.documentElement.dataset.state === wanted, state, {
    timeout: 60_000,
  });

const call = <T>(page: Page, does: (board: BoardWindow['board']) => T): Promise<T> =>
  page.evaluate(`(${does})(window.board)`) as Promise<T>;

/** Pulls what stands at a place by so many pixels, with the mouse. */
async function pull(page: Page, selector: string, dx: number, dy: number): Promise<void> {
  const handle = page.locator(selector);
  await handle.scrollIntoViewIfNeeded();
  const box = await handle.locator('.knob').boundingBox();
  if (box === null) throw new Error(`nothing at ${selector}`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let k = 1; k <= 4; k++) await page.mouse.move(x + (dx * k) / 4, y + (dy * k) / 4);
  await page.mouse.up();
}

const joint = (k: number): string => `#joints .joint:nth-child(${k + 1})`;

/** Largest relative difference of two tables, and where it is. */
function furthest(
  rows: readonly SweepRow[],
  others: readonly SweepRow[],
): { readonly at: string; readonly by: number } {
  let worst = { at: '', by: 0 };
  rows.forEach((row, k) => {
    for (const [name, value] of Object.entries(others[k] ?? {})) {
      const own = row[name as keyof SweepRow];
      const by =
        typeof value === 'number' && typeof own === 'number'
          ? Math.abs(own - value) / Math.max(1e-3, Math.abs(value))
          : own === value
            ? 0
            : Number.POSITIVE_INFINITY;
      if (by > worst.by) worst = { at: `${row.speed_rpm} ${name}`, by };
    }
  });
  return worst;
}

describe.skipIf(!hasBrowser)('the board', { timeout: 120_000 }, () => {
  let bench: Bench;
  beforeAll(async () => {
    bench = await openBrowser();
  });
  afterAll(async () => bench.close());

  const opened = async (name: string, markup: string) => {
    const file = join(bench.folder, `${name}.html`);
    writeFileSync(file, markup);
    return { file, ...(await open(bench, file)) };
  };

  test('is moved by hand; what it refines is what a sweep of the file that it hands over computes', async () => {
    const { page, complaints, file } = await opened('moved', boardOf(0.03, [9500, 10_500]));
    expect(statSync(file).size).toBeLessThan(6e6);
    await stateIs(page, 'refined');
    const before = await call(page, (board) => board.rows());
    await page.locator('#carry').uncheck();
    await pull(page, joint(1), 12, 0);
    await pull(page, joint(3), 0, -9);
    await pull(page, joint(4), -10, 4);
    for (const key of ['ArrowRight', 'ArrowUp', 'Shift+ArrowLeft']) await page.locator(joint(2)).press(key);
    await page.locator(joint(0)).press('Shift+ArrowUp');
    await pull(page, '#ports .joint:nth-of-type(1)', 0, -6);
    await page.locator('#sections input').nth(12).fill('205.5 mm');
    await page.keyboard.press('Enter');
    await page.locator('#dial-0').press('ArrowRight');
    await page.locator('#dial-5').press('ArrowLeft');
    await stateIs(page, 'refined');
    expect(await page.locator('#notice').textContent()).toBe('');
    const rows = await call(page, (board) => board.rows());
    expect(await call(page, (board) => board.cell())).toBe('30 mm');
    expect(furthest(rows, before).by).toBeGreaterThan(1e-3);
    const taken = join(bench.folder, 'taken.yaml');
    const [handed] = await Promise.all([page.waitForEvent('download'), page.locator('#take-case').click()]);
    await handed.saveAs(taken);
    expect(readFileSync(taken, 'utf8')).toBe(await call(page, (board) => board.caseYaml()));
    // Eight rules of thumb have a place on the drawing.
    expect(await page.locator('#joints .usual path').count()).toBe(8);
    expect(await page.locator('#turn-said').textContent()).toMatch(/a preview on 30.mm cells/);
    const subject = loadCase(taken);
    expect(subject.run.speeds).toEqual([9500, 10_500]);
    const swept = speedGroups(subject).flatMap((group) => runGroup(group).records.map(({ row }) => row));
    expect(furthest(rows, swept)).toEqual(
      expect.objectContaining({ by: expect.toSatisfy((by: number) => by < 1e-9) }),
    );
    expect(await call(page, (board) => board.pipeYaml())).toContain('length: 205.5 mm');
    expect(complaints).toEqual([]);
    await keepPicture(page, 'board');
    await page.close();
  });

  test('undoes and redoes, keeps its draft in the address, and refuses in words what cannot be', async () => {
    const { page, complaints, file } = await opened('steps', boardOf(0.04, [10_000]));
    const header = (): Promise<string | null> =>
      call(page, (board) => board.get('pipe.sections.header.length'));
    expect(await call(page, (board) => board.set('pipe.sections.header.length', '230 mm'))).toBeNull();
    expect(await call(page, (board) => board.set('engine.ambient.pressure', '0.9 bar'))).toBeNull();
    expect(await call(page, (board) => board.undo())).toBe(true);
    expect(await call(page, (board) => board.get('engine.ambient.pressure'))).toBe('1.01325 bar');
    expect(await call(page, (board) => board.redo())).toBe(true);
    expect(await call(page, (board) => board.set('pipe.sections.header.length', '-5 mm'))).toContain(
      'out of range',
    );
    expect(await page.locator('#notice').textContent()).toContain('pipe.sections.header.length');
    expect(await header()).toBe('230 mm');
    // A joint cannot pass its neighbour: the draft stays as far as it went, and it is said why.
    await page.locator('#carry').uncheck();
    await pull(page, joint(1), 700, 0);
    expect(await page.locator('#notice').textContent()).toContain('a joint cannot pass its neighbour');
    await page.locator('#undo').click();
    expect(await header()).toBe('230 mm');
    await page.locator('#stage-name').fill(STAGE);
    await page.locator('#keep').click();
    expect(await call(page, (board) => board.set('pipe.sections.header.length', '240 mm'))).toBeNull();
    await page.waitForFunction(() => location.hash.includes('thin') && location.hash.includes('240'));
    const again = await bench.context.newPage();
    await again.goto(`file://${file}${new URL(page.url()).hash}`);
    await again.waitForFunction(() => document.documentElement.dataset.drawn === 'yes');
    expect(await call(again, (board) => board.get('pipe.sections.header.length'))).toBe('240 mm');
    expect(await call(again, (board) => board.get('engine.ambient.pressure'))).toBe('0.9 bar');
    expect(await again.locator('#stages b').allTextContents()).toEqual(['as opened', STAGE]);
    // A stage that came with the address is computed once the draft stands.
    await again.waitForFunction(
      () => !(document.getElementById('stages')?.textContent ?? '').includes('Not computed'),
      undefined,
      { timeout: 60_000 },
    );
    expect(await again.locator('#stages p').allTextContents()).toEqual(
      Array(2).fill(expect.stringMatching(/Nm at 10.000.rpm/)),
    );
    expect(complaints).toEqual([]);
    await again.close();
    await page.close();
  });

  test('shows a hostile name as text, asks nothing of a network, and is within reach of everybody', async () => {
    const markup = boardOf(0.04, [9000, 10_500], [`name=${JSON.stringify(HOSTILE)}`]);
    const { page, complaints } = await opened('hostile', markup);
    const policy = (await page.locator('meta[http-equiv]').getAttribute('content')) ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("'wasm-unsafe-eval'");
    expect(policy).not.toMatch(/'unsafe-eval'|https?:|connect-src/);
    await stateIs(page, 'refined');
    expect(await page.title()).not.toBe('owned');
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('.titleblock').textContent()).toContain('onerror');
    expect(await seriousFindings(page)).toEqual([]);
    for (const [width, dark] of [
      [800, true],
      [390, false],
    ] as const) {
      await resize(page, { width, height: 844, dark });
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      await keepPicture(page, `board-${width}`);
    }
    expect(await seriousFindings(page)).toEqual([]);
    const angle = (): Promise<string> => page.locator('#turn-angle').inputValue();
    await page.locator('#turn-on').click();
    expect(await angle()).toBe('1');
    await page.locator('#turn-play').click();
    await page.waitForFunction(
      () => Number((document.getElementById('turn-angle') as HTMLInputElement).value) > 5,
    );
    await page.locator('#turn-play').click();
    expect(complaints).toEqual([]);
    await page.close();
  });
});

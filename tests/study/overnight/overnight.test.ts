/**
 * Ring: identity. A study broken off at any moment, on one thread or two, comes to the same journal, ranking and page as
 * one that ran through: real processes, killed.
 */

import { appendFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { randomSource } from '../../../src/study/search/random.ts';
import { unfolded } from '../../commands/unfolded.ts';
import { broken, cheapText, type Ended, type Folder, journalLines, newFolder, read, whole } from './cheap.ts';

const folder: Folder = newFolder();
afterAll(() => folder.remove());
const out = (name: string): string => join(folder.path, name);

let unbroken: Ended;
beforeAll(async () => {
  unbroken = await whole(folder.study, out('unbroken'), 2);
}, 300_000);

/** The journal as a set: threads may finish in another order. */
const entries = (name: string): readonly string[] => [...journalLines(out(name))].sort();

function expectSame(name: string): void {
  expect(entries(name)).toEqual(entries('unbroken'));
  for (const file of ['ranking.csv', 'overnight.html'])
    expect(read(out(name), file) === read(out('unbroken'), file), `${file} of ${name}`).toBe(true);
}

describe('an unbroken study', () => {
  test('runs the drafts that can be built and keep to the constraints, and says what became of the rest', () => {
    const lines = read(out('unbroken'), 'ranking.csv').trim().split('\n');
    const [head, ...rows] = lines.map((line) => line.split(','));
    expect(head?.slice(0, 6)).toEqual(['rank', 'draft', 'standing', 'score', 'baffle_length_mm', 'bore_mm']);
    expect(rows).toHaveLength(20);
    const standing = (word: string) => rows.filter((row) => row[2] === word);
    // Draft A's passage, header, diffusers and belly leave less than 220 mm of the 885 mm for the baffle; 200 mm do not narrow.
    expect(standing('failed')).toHaveLength(4);
    expect(standing('outside').length + standing('scored').length).toBe(16);
    expect(standing('outside').length % 4).toBe(0);
    expect(standing('scored').length).toBeGreaterThanOrEqual(12);
    const scores = standing('scored').map((row) => Number(row[3]));
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
    expect(lines.filter((line) => line.includes('a baffle has to narrow'))).toHaveLength(4);
    // Every scored draft has its line in the journal, and no other.
    expect(journalLines(out('unbroken'))).toHaveLength(1 + standing('scored').length);
  });

  test('announces, times one and estimates; ends with 0, the drafts that failed being marked', () => {
    expect(unbroken.code).toBe(0);
    expect(unfolded(unbroken.stderr)).toMatch(
      /cheap · maxCycles 9: 20 drafts at 1 speed, \d+ outside the constraints, 4 that cannot be built\./,
    );
    expect(unbroken.stderr).toMatch(/One draft took .*; \d+ more on 2 threads take about/);
  });

  test('keeps no time and no folder in what it ranks', () => {
    const page = read(out('unbroken'), 'overnight.html');
    expect(page).not.toContain(folder.path);
    expect(read(out('unbroken'), 'ranking.csv')).not.toMatch(/20\d\d-\d\d-\d\d/);
  });
});

describe('the same bytes', () => {
  test('on one thread', async () => {
    await whole(folder.study, out('one-thread'), 1);
    expectSame('one-thread');
  }, 300_000);

  test('after kills at random moments', async () => {
    const random = randomSource(7);
    let lines = 1;
    for (let kill = 0; kill < 3; kill += 1) {
      lines = Math.min(lines + 1 + random.below(3), entries('unbroken').length - 1);
      const { code } = await broken(folder.study, out('killed'), lines, 'SIGKILL');
      expect(code).toBeNull();
      lines = journalLines(out('killed')).length;
    }
    const { stderr } = await whole(folder.study, out('killed'), 2);
    expect(stderr).toMatch(/Going on with a journal of \d+ finished drafts/);
    expectSame('killed');
  }, 300_000);

  test('after Ctrl-C, which says how to go on', async () => {
    const { code, stderr } = await broken(folder.study, out('stopped'), 4, 'SIGINT');
    expect(code).toBe(130);
    expect(stderr).toContain(`--out ${out('stopped')}`);
    expect(stderr).toContain('--set run.maxCycles=9');
    expect(read(out('stopped'), 'ranking.csv').split('\n').length).toBeGreaterThan(3);
    await whole(folder.study, out('stopped'));
    expectSame('stopped');
  }, 300_000);

  test('after a torn line, which is said', async () => {
    await broken(folder.study, out('torn'), 4, 'SIGKILL');
    const journal = join(out('torn'), 'journal.jsonl');
    // As if the last write had stopped within its line.
    appendFileSync(journal, '{"draft":"full 9","result":{"ok":true,"rows":[{"speed_r');
    const { stderr } = await whole(folder.study, out('torn'));
    expect(stderr).toMatch(/ended in a torn line of 55 bytes; it was dropped/);
    expectSame('torn');
    const size = statSync(journal).size;
    truncateSync(journal, size - 30);
    expect((await whole(folder.study, out('torn'))).stderr).toMatch(/torn line of \d+ bytes/);
    expectSame('torn');
  }, 300_000);
});

describe('refused', () => {
  test('the journal of another study', async () => {
    const other = join(folder.path, 'other.yaml');
    writeFileSync(other, cheapText.replace('weight: 0.05', 'weight: 0.1'));
    const before = journalLines(out('unbroken'));
    const { code, stderr } = await whole(other, out('unbroken'));
    expect(code).toBe(6);
    expect(unfolded(stderr)).toMatch(/is the journal of another study/);
    expect(journalLines(out('unbroken'))).toEqual(before);
  });

  test.each([
    [
      'constraints that no draft keeps to',
      'atMost: 885 mm',
      'atMost: 300 mm',
      /study\.yaml:8:3: constraints: no draft keeps to all of them; the first: length to the baffle's end \d/,
    ],
    [
      'drafts that cannot be built',
      'values: [21 mm, 22 mm, 23 mm, 24 mm, 200 mm]',
      'values: [200 mm]',
      /vary: no draft can be built; the first: pipe\.sections\.baffle: a baffle has to narrow/,
    ],
  ])('%s, before anything runs', async (_, from, to, message) => {
    const mine = newFolder(cheapText.replace(from, to));
    const { code, stderr } = await whole(mine.study, join(mine.path, 'out'));
    expect(code).toBe(3);
    expect(unfolded(stderr)).toMatch(message);
    expect(journalLines(join(mine.path, 'out'))).toEqual([]);
    mine.remove();
  });
});

describe('a screen', () => {
  test('refines the best share, and its check says what it would have dropped', async () => {
    const screen = (check: boolean) =>
      newFolder(
        cheapText.replace(
          'cell: 20 mm',
          `cell: 20 mm\nscreen: { cell: 40 mm, speeds: [10000 rpm], keep: 25 %, check: ${check} }`,
        ),
      );
    const [kept, checked] = [screen(false), screen(true)];
    await whole(kept.study, join(kept.path, 'out'));
    const rows = read(join(kept.path, 'out'), 'ranking.csv').trim().split('\n').slice(1);
    const scored = rows.filter((row) => row.includes(',scored,'));
    const screened = rows.filter((row) => row.includes(',screened,'));
    expect(scored).toHaveLength(Math.ceil(0.25 * (scored.length + screened.length)));
    const { stderr } = await whole(checked.study, join(checked.path, 'out'));
    expect(unfolded(stderr)).toMatch(
      /The screen would have (kept|dropped) the winner: its place there is \d+ of \d+/,
    );
    expect(unfolded(stderr)).toMatch(
      /Of 1000 random halves of the drafts it would have dropped the winner of [\d.]+ %/,
    );
    kept.remove();
    checked.remove();
  }, 300_000);
});

/** `echocone verify`: its table, its files and its exit code. The problems themselves are in tests/study/verify. */

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { commonFlags, flagsOf } from '../../src/commands/frame/flags.ts';
import { run } from '../../src/commands/verify.ts';
import type { VerifyResult } from '../../src/study/verify.ts';
import { judge } from '../../src/verify/check.ts';

const result = vi.hoisted(() => ({ value: undefined as unknown }));
vi.mock('../../src/study/verify.ts', () => ({
  problemCount: 2,
  runVerify: async () => result.value,
}));
vi.mock('../../src/study/work/pool.ts', () => ({ openPool: () => ({ close: async () => undefined }) }));

const folder = mkdtempSync(join(tmpdir(), 'verify-'));
afterAll(() => rmSync(folder, { recursive: true }));

const check = (name: string, error: number) =>
  judge({
    name,
    ring: 'exact solution',
    source: 'made up here',
    quantity: 'something [%]',
    cells: [10, 20, 40],
    judged: 1,
    bound: 0.3,
    run: (cells) => ({ error: (20 * error) / cells }),
  });

function made(errors: readonly number[]): VerifyResult {
  const checks = errors.map((error, k) => check(`problem number ${k + 1} of the list`, error));
  const missed = checks.filter(({ pass }) => !pass).map(({ name }) => name);
  return {
    schemaVersion: 1,
    kind: 'verify',
    program: 'echocone',
    passed: checks.length - missed.length,
    missed,
    checks,
    overlays: [],
    seconds: 1.2,
  };
}

async function verify(json = false) {
  const answers: string[] = [];
  const code = await run({
    verb: 'verify',
    files: [],
    flags: flagsOf({ out: folder, overwrite: true, quiet: true, json }, commonFlags),
    terminal: {
      colour: false,
      answer: (text: string) => answers.push(text),
      message: () => undefined,
      warning: () => undefined,
      progress: () => ({ advance: () => undefined, finish: () => undefined }),
    },
    signal: new AbortController().signal,
    program: 'echocone',
  });
  return { code, text: answers.join('') };
}

describe('all within their bounds', () => {
  beforeEach(() => {
    result.value = made([0.1, 2e-6]);
  });

  test('exit code 0, a table of at most 80 columns', async () => {
    const { code, text } = await verify();
    expect(code).toBe(0);
    expect(text).toContain('All 2 checks are within their bounds.');
    expect(text).toMatch(/✓ {2}problem number 1 of the list +10 +0\.2 +0\.1 +0\.05 +1\.0 +0\.3/);
    expect(text).toMatch(/4\.0e-6 +2\.0e-6 +1\.0e-6/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('the document and the page', async () => {
    const { text } = await verify(true);
    const document = JSON.parse(text) as VerifyResult;
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'verify', passed: 2, missed: [] });
    expect(readFileSync(join(folder, 'verify.json'), 'utf8')).toBe(text);
    const page = readFileSync(join(folder, 'verify.html'), 'utf8');
    expect(page).toContain('problem number 2 of the list');
    expect(page).toContain('made up here');
  });
});

test('one missed: exit code 4, and it is named', async () => {
  result.value = made([0.1, 0.4]);
  const { code, text } = await verify();
  expect(code).toBe(4);
  expect(text).toContain('1 of 2 checks missed: problem number 2 of the list.');
  expect(text).toMatch(/^> ✗/m);
});

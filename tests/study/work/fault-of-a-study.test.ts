/**
 * Ring: identity. A fault of the machine is no result. A thread that dies or runs out of memory at a piece of a study is
 * followed by a fresh one; where that dies as well the study ends with exit code 5 and keeps what is done, and the same
 * command goes on to the bytes of a study that knew no fault. Real threads of the built program, really exhausted.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { smallVerbs } from '../../studies/journals/verbs.mjs';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const hook = new URL('fault-hook.mjs', import.meta.url).href;
const folder = mkdtempSync(join(tmpdir(), 'echocone-fault-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const { words, files, journal: journalName } = smallVerbs(folder).overnight;

function run(out: string, faults: readonly object[] = []) {
  const counted = join(folder, `${out}-faults`);
  mkdirSync(counted, { recursive: true });
  const flags = ['--max-old-space-size=120', '--import', hook, join(root, 'dist/src/main.js')];
  const ended = spawnSync(
    process.execPath,
    [...flags, ...words, '--cell', '40mm', '--threads', '1', '--out', join(folder, out)],
    {
      encoding: 'utf8',
      env: { ...process.env, FAULTS: JSON.stringify(faults), FAULT_FOLDER: counted },
    },
  );
  return { ...ended, faults: readdirSync(counted).sort() };
}

test('want of memory that passes, then threads that die', () => {
  // The first of four and the last: what passes has long been done again on a busy machine too when the other ends the study.
  const [passing, lasting] = ['screen 1', 'screen 4'];
  const whole = run('whole');
  const broken = run('broken', [
    { job: passing, how: 'memory', times: 1 },
    { job: lasting, how: 'exit', times: 2 },
  ]);
  expect(broken.status, broken.stderr).toBe(5);
  expect(broken.faults).toEqual([`${passing}.0`, `${lasting}.0`, `${lasting}.1`]);
  const said = broken.stderr.replace(/\s+/g, ' ');
  expect(said).toMatch(/twice, the second time on a fresh thread.*not a result/);
  expect(said).toMatch(/same command/);
  const journal = readFileSync(join(folder, 'broken', journalName), 'utf8');
  const kept = journal
    .trim()
    .split('\n')
    .flatMap((line) => JSON.parse(line).draft ?? []);
  // What passed is a result like another; what did not is none.
  expect(kept).toContain(passing);
  expect(kept).not.toContain(lasting);
  const on = run('broken');
  expect(on.status).toBe(whole.status);
  for (const file of files) {
    const [found, wanted] = ['broken', 'whole'].map((out) => readFileSync(join(folder, out, file)));
    expect(found!.equals(wanted!), file).toBe(true);
  }
}, 120_000);

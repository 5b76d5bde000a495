/**
 * `map` as the command line runs it, on the built program with real threads: the same bytes whatever the threads and
 * however often the process is killed. Few cycles on a coarse mesh: nothing has settled, which is what exit code 4 says.
 */

import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as later } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { COLUMNS } from '../../src/findings/row.ts';
import { journalLines } from '../study/overnight/cheap.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const main = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-map-'));
const out = (name: string): string => join(folder, name);

function words(name: string, more: readonly string[] = []): string[] {
  return [
    main,
    'map',
    join(root, 'cases/saltmarsh-125/draft-a.yaml'),
    ...['--rpm', '9500,10500', '--duration', '188:204:8', '--cell', '12mm', '--set', 'run.maxCycles=3'],
    ...['--out', out(name), ...more],
  ];
}
const run = (name: string, ...more: string[]) =>
  spawnSync(process.execPath, words(name, more), { encoding: 'utf8' });
const text = (name: string, file: string): string => readFileSync(join(out(name), file), 'utf8');

let unbroken = { status: null as number | null, stdout: '', stderr: '' };
beforeAll(() => {
  unbroken = run('unbroken', '--threads', '2');
});

describe('a map', () => {
  test('says that nothing settled by its exit code, and writes all files', () => {
    expect(unbroken.status).toBe(4);
    expect(unbroken.stdout).toMatch(/6 of 6 points did not settle/);
    expect(unbroken.stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    const [head, ...lines] = text('unbroken', 'map.csv').trim().split('\n');
    expect(head).toBe(['duration_deg', ...COLUMNS.map((c) => c.name)].join(','));
    expect(lines.map((line) => line.split(',').slice(0, 2).join(' '))).toEqual([
      '188 9500',
      '188 10500',
      '196 9500',
      '196 10500',
      '204 9500',
      '204 10500',
    ]);
    const document = JSON.parse(text('unbroken', 'map.json'));
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'map', durations: [188, 196, 204] });
    expect(document.drawnDurationDeg).toBeCloseTo(195, 9);
    expect(text('unbroken', 'map.html')).toContain('<html');
  });

  test('one thread gives the same bytes as two', () => {
    run('one', '--threads', '1');
    for (const file of ['map.csv', 'map.json']) expect(text('one', file)).toBe(text('unbroken', file));
  });

  test('killed at random moments, the same command ends with the same files and does nothing twice', async () => {
    let kills = 0;
    for (let least = 1; least <= 3; least += 1) {
      const child = spawn(process.execPath, words('killed', ['--threads', '1', '--quiet']), {
        stdio: 'ignore',
      });
      const ended = new Promise((resolve) => child.once('exit', (_, signal) => resolve(signal)));
      while (child.exitCode === null && journalLines(out('killed')).length < least) await later(10);
      await later(100 * Math.random());
      child.kill('SIGKILL');
      if ((await ended) === 'SIGKILL') kills += 1;
    }
    expect(kills).toBeGreaterThan(0);
    expect(run('killed', '--threads', '2').status).toBe(4);
    for (const file of ['map.csv', 'map.json']) expect(text('killed', file)).toBe(text('unbroken', file));
    const drafts = text('killed', 'journal.jsonl').trim().split('\n').slice(1);
    expect(new Set(drafts.map((line) => JSON.parse(line).draft)).size).toBe(3);
    expect(drafts).toHaveLength(3);
  });

  test('a finished one is read back, not computed again', () => {
    const again = run('unbroken', '--json');
    expect(again.stderr).toMatch(/6 are done already/);
    expect(again.stdout).toBe(text('unbroken', 'map.json'));
  });

  test('the journal of another map is refused and left alone', () => {
    const before = text('unbroken', 'journal.jsonl');
    const other = run('unbroken', '--set', 'pipe.endCorrection=0.5');
    expect(other.status).toBe(6);
    expect(other.stderr).toMatch(/another study/);
    expect(text('unbroken', 'journal.jsonl')).toBe(before);
  });

  test('durations that cannot be cut are named; none left is a wrong command line', () => {
    const none = run('none', '--duration', '100:120:10');
    expect(none.status).toBe(2);
    expect(none.stderr).toMatch(/100 deg is left out: .*\n110 deg/);
  });
});

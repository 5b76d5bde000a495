/**
 * Ring: identity. Reconciling on the built program with real threads: its files, the engine that it writes, and a run that is
 * broken off. Few cycles on a coarse mesh at two speeds: what is tested is not what comes out.
 */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { readMembers } from '../../src/study/ensemble/members-file.ts';
import { hasRedis } from '../on-this-machine.ts';
import { newQueueServer } from '../queue-server.mjs';
import { unfolded } from './unfolded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-reconcile-'));
const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const measured = join(folder, 'measured.yaml');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const words = (out: string, threads: number): string[] => [
  join(root, 'dist/src/main.js'),
  ...['reconcile', draft, measured, '--count', '16', '--cell', '40mm', '--set', 'run.maxCycles=5'],
  ...['--threads', String(threads), '--out', join(folder, out)],
];
const run = (out: string, threads: number) =>
  spawnSync(process.execPath, words(out, threads), { encoding: 'utf8' });
const text = (out: string, file: string): string => readFileSync(join(folder, out, file), 'utf8');
const FILES = ['engine-reconciled.yaml', 'members.csv', 'reconciled.html', 'reconciled.json'];
let whole: ReturnType<typeof run>;

beforeAll(() => {
  writeFileSync(join(folder, 'dyno.csv'), 'rpm;Nm\n9000;18,4\n\n10000;x\n10250;19,9\n');
  writeFileSync(
    measured,
    'kind: measured\nname: test\nambient: { pressure: 1000 mbar, temperature: 22 degC }\n' +
      'dyno: { file: dyno.csv, speed: rpm [rpm], torque: Nm [N m], error: 2 % }\n',
  );
  whole = run('whole', 2);
});

describe('a reconciliation', () => {
  test('writes its document, page, members and engine, and takes its journal away', () => {
    expect(unfolded(whole.stderr)).toMatch(/dyno\.csv:4: a broken line was left out/);
    expect(whole.status, whole.stderr).toBe(0);
    expect(readdirSync(join(folder, 'whole')).sort()).toEqual([...FILES, 'run.json'].sort());
    expect(unfolded(whole.stdout)).toMatch(/What to measure next: /);
    const document = JSON.parse(text('whole', 'reconciled.json'));
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'reconciled', members: { asked: 16 } });
    expect(document.set).toContain('engine.ambient.pressure=1000 mbar');
    expect(document.groups[0].points.map(({ x }: { x: number }) => x)).toEqual([9000, 10_250]);
  });

  test('leaves members that bands read, one for each that could be computed', () => {
    const members = readMembers(join(folder, 'whole/members.csv'));
    expect(members.values.length).toBe(JSON.parse(text('whole', 'reconciled.json')).members.whole);
    expect(members.paths.length).toBeGreaterThan(25);
  });

  test('writes an engine that loads as a file and has the middles of the inputs, each with its comment', () => {
    const { central } = JSON.parse(text('whole', 'reconciled.json')) as { central: string[] };
    const own = central.filter((one) => one.startsWith('engine.'));
    const written = loadCase(draft, { set: [`engine=${join(folder, 'whole/engine-reconciled.yaml')}`] });
    expect(written.engine).toEqual({ ...loadCase(draft, { set: own }).engine, name: written.engine.name });
    expect(written.engine.ambient.pressure).toBe(101_325);
    const lines = text('whole', 'engine-reconciled.yaml').split('\n');
    expect(lines.filter((line) => /# reconciled: .* before, .* after/.test(line))).toHaveLength(own.length);
    expect(lines[0]).toMatch(/^# Saltmarsh 125, draft A, reconciled with test by echocone/);
  });
});

test('broken off, goes on with the same command to the same files, with another number of threads', async () => {
  const journal = join(folder, 'broken/journal.jsonl');
  const child = spawn(process.execPath, words('broken', 1), { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (piece) => {
    said += String(piece);
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  while (!existsSync(journal) || readFileSync(journal, 'utf8').split('\n').length < 12)
    await new Promise((resolve) => setTimeout(resolve, 20));
  child.kill('SIGINT');
  expect(await ended).toBe(130);
  expect(said).toContain(`To go on: the same command with --out ${join(folder, 'broken')}`);
  const resumed = run('broken', 1);
  expect(resumed.status, resumed.stderr).toBe(0);
  expect(resumed.stderr).toMatch(/Going on: \d+ of 81 runs of members are done already/);
  for (const file of FILES) expect(text('broken', file) === text('whole', file), file).toBe(true);
});

describe.skipIf(!hasRedis)('over a queue', () => {
  test('the same bytes, and nothing is left on the server', async () => {
    const server = await newQueueServer();
    const env = { ...process.env, ECHOCONE_QUEUE_PASSWORD: server.password };
    await server.start();
    const main = join(root, 'dist/src/main.js');
    const lender = spawn(process.execPath, [main, 'lend', '--over', server.address, '--threads', '1'], {
      stdio: 'ignore',
      env,
    });
    const gone = new Promise((resolve) => lender.once('exit', resolve));
    try {
      const flags = ['--over', server.address, '--quiet'];
      const over = spawnSync(process.execPath, [...words('queue', 1), ...flags], { encoding: 'utf8', env });
      expect(over.status, over.stderr).toBe(0);
      for (const file of FILES) expect(text('queue', file) === text('whole', file), file).toBe(true);
    } finally {
      lender.kill('SIGKILL');
      await gone;
      server.remove();
    }
  });
});

describe('what is refused', () => {
  const refused = (...more: string[]) =>
    spawnSync(process.execPath, [join(root, 'dist/src/main.js'), 'reconcile', ...more], {
      encoding: 'utf8',
      cwd: folder,
    });

  test('is a file of another kind, or measurements in the place of the case', () => {
    const pipe = refused(draft, join(root, 'cases/saltmarsh-125/pipe-a.yaml'));
    expect(pipe.status).toBe(3);
    expect(unfolded(pipe.stderr)).toMatch(/this is a pipe file where measurements are due/);
    expect(refused(measured, measured).status).toBe(3);
  });

  test('are too few members, and a curve of another engine', () => {
    expect(refused(draft, measured, '--count', '4')).toMatchObject({ status: 2 });
    writeFileSync(join(folder, 'other.csv'), 'rpm;Nm\n9000;25,4\n10250;27,9\n');
    writeFileSync(
      join(folder, 'other.yaml'),
      readFileSync(measured, 'utf8').replace('dyno.csv', 'other.csv'),
    );
    const { status, stderr } = refused(draft, measured, join(folder, 'other.yaml'));
    expect(status).toBe(3);
    expect(unfolded(stderr)).toMatch(
      /other\.csv:3: 27\.9 N m at 10250 rpm, and .*dyno\.csv:5 has 19\.9 N m there: these are curves of two engines/,
    );
  });
});

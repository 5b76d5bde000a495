/** The folder of a run: refused when it holds something, nothing but our own files replaced. */

import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { LOCK, unlockFolders } from '../../src/commands/frame/folder-lock.ts';
import { fileNameOf, openRunFolder } from '../../src/commands/frame/run-folder.ts';

let base = '';
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'echocone-folder-'));
});

/** What lies in a folder but for the lock, which goes with the run. */
const names = (folder: string): string[] => readdirSync(folder).filter((name) => name !== LOCK);

const refused = expect.objectContaining({ exitCode: 6 });

describe('run folder', () => {
  test('is made with its parents and takes files', () => {
    const folder = openRunFolder({ out: join(base, 'a/b'), name: 'x', overwrite: false });
    folder.write('sweep.csv', 'speed\n');
    expect(names(folder.path)).toEqual(['sweep.csv']);
    expect(folder.has('sweep.csv')).toBe(true);
  });

  test('is refused when it holds something, and left as it was', () => {
    writeFileSync(join(base, 'thesis.txt'), 'mine');
    expect(() => openRunFolder({ out: base, name: 'x', overwrite: false })).toThrow(refused);
    expect(readdirSync(base)).toEqual(['thesis.txt']);
  });

  test('--overwrite replaces our files only', () => {
    writeFileSync(join(base, 'thesis.txt'), 'mine');
    writeFileSync(join(base, 'sweep.csv'), 'old');
    openRunFolder({ out: base, name: 'x', overwrite: true }).write('sweep.csv', 'new');
    expect(readFileSync(join(base, 'thesis.txt'), 'utf8')).toBe('mine');
    expect(readFileSync(join(base, 'sweep.csv'), 'utf8')).toBe('new');
    expect(names(base)).toHaveLength(2);
  });

  test('one with its own journal is gone on with', () => {
    writeFileSync(join(base, 'journal.jsonl'), '');
    expect(openRunFolder({ out: base, name: 'x', overwrite: false, resumes: 'journal.jsonl' }).path).toBe(
      base,
    );
  });

  test('trouble with files is said with the path', () => {
    writeFileSync(join(base, 'file'), '');
    expect(() => openRunFolder({ out: join(base, 'file'), name: 'x', overwrite: false })).toThrow(refused);
    const folder = openRunFolder({ out: join(base, 'ok'), name: 'x', overwrite: false });
    mkdirSync(join(folder.path, 'taken.csv'));
    expect(() => folder.write('taken.csv', '')).toThrow(
      expect.objectContaining({ exitCode: 6, message: expect.stringContaining('taken.csv') }),
    );
    expect(names(folder.path)).toEqual(['taken.csv']);
  });

  test('of a run that came to nothing goes, but not with anything in it, nor one that was there', () => {
    const made = openRunFolder({ out: join(base, 'new'), name: 'x', overwrite: false });
    made.giveUp();
    expect(readdirSync(base)).toEqual([]);
    const kept = openRunFolder({ out: join(base, 'new'), name: 'x', overwrite: false });
    kept.write('sweep.csv', '');
    kept.giveUp();
    openRunFolder({ out: base, name: 'x', overwrite: true }).giveUp();
    expect(readdirSync(join(base, 'new'))).toEqual(['sweep.csv']);
  });

  test('names of cases become file names', () => {
    expect(fileNameOf('Saltmarsh 125, draft A')).toBe('saltmarsh-125-draft-a');
    expect(fileNameOf('<script>../../Söhne')).toBe('script-sohne');
    expect(fileNameOf('///')).toBe('run');
    expect(fileNameOf(`${'long '.repeat(11)}header and more`)).toBe(`${'long-'.repeat(11).slice(0, -1)}`);
    expect(fileNameOf('x'.repeat(70))).toBe('x'.repeat(60));
  });
});

describe('a folder in use', () => {
  const open = () => openRunFolder({ out: base, name: 'x', overwrite: true });
  const lock = (holder: unknown): void => writeFileSync(join(base, LOCK), JSON.stringify(holder));

  test('is refused, with the process that holds it and since when', async () => {
    const child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'], { stdio: 'ignore' });
    try {
      lock({ process: child.pid, machine: hostname(), since: '2026-11-26T20:00:00.000Z' });
      expect(open).toThrow(
        expect.objectContaining({
          exitCode: 6,
          message: expect.stringMatching(
            new RegExp(`in use by process ${child.pid} on .* since 2026-11-26T20`),
          ),
        }),
      );
    } finally {
      child.kill();
    }
  });

  test('by a run on another machine is refused: it cannot be looked for', () => {
    lock({ process: 1, machine: 'elsewhere', since: '2026-11-26T20:00:00.000Z' });
    expect(open).toThrow(/in use by process 1 on elsewhere/);
  });

  test('is taken over where the holder has ended, its number is another process, or nobody is named', () => {
    const ended = spawnSync(process.execPath, ['-e', '']).pid;
    for (const holder of [
      { process: ended, machine: hostname(), since: '' },
      { process: process.ppid, began: 1, machine: hostname(), since: '' },
      'torn',
    ]) {
      lock(holder);
      // One without a name is nobody's after a while.
      utimesSync(join(base, LOCK), 1e9, 1e9);
      open().write('sweep.csv', 'new');
      expect(JSON.parse(readFileSync(join(base, LOCK), 'utf8'))).toMatchObject({ process: process.pid });
      unlockFolders();
      expect(readdirSync(base)).toEqual(['sweep.csv']);
    }
  });

  test('of a process that was killed while it made it keeps nobody out, not for a moment', () => {
    const program = `
      import fs from 'node:fs';
      import { syncBuiltinESMExports } from 'node:module';
      import { lockFolder } from ${JSON.stringify(new URL('../../dist/src/commands/frame/folder-lock.js', import.meta.url).href)};
      fs.writeSync = () => { process.kill(process.pid, 'SIGKILL'); for (;;); };
      syncBuiltinESMExports();
      lockFolder(${JSON.stringify(base)});`;
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', program]);
    expect(run.signal).toBe('SIGKILL');
    open().write('sweep.csv', 'new');
    unlockFolders();
    expect(readdirSync(base)).toEqual(['sweep.csv']);
  });

  test('on a full disk names the file and leaves nothing behind', () => {
    const program = `
      import fs from 'node:fs';
      import { syncBuiltinESMExports } from 'node:module';
      import { lockFolder } from ${JSON.stringify(new URL('../../dist/src/commands/frame/folder-lock.js', import.meta.url).href)};
      fs.writeSync = () => { throw Object.assign(new Error('full'), { code: 'ENOSPC', syscall: 'write' }); };
      syncBuiltinESMExports();
      try { lockFolder(${JSON.stringify(base)}); } catch (error) { process.stdout.write(error.code + ' ' + error.path); }`;
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', program], { encoding: 'utf8' });
    expect(run.stdout).toBe(`ENOSPC ${join(base, LOCK)}`);
    expect(readdirSync(base)).toEqual([]);
  });

  test('of twelve runs that find a stale lock at once, one takes it', async () => {
    lock({ process: spawnSync(process.execPath, ['-e', '']).pid, machine: hostname(), since: '' });
    const program = `
      import { lockFolder } from ${JSON.stringify(new URL('../../dist/src/commands/frame/folder-lock.js', import.meta.url).href)};
      process.stdin.once('data', () => {
        try { lockFolder(${JSON.stringify(base)}); process.stdout.write('held'); } catch { process.stdout.write('refused'); }
        process.stdin.once('data', () => process.exit(0));
      });
      process.stdout.write('ready ');`;
    const runs = Array.from({ length: 12 }, () => {
      const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
        stdio: ['pipe', 'pipe', 'inherit'],
      });
      let said = '';
      child.stdout.on('data', (text) => {
        said += String(text);
      });
      return { child, said: () => said };
    });
    const all = async (word: RegExp): Promise<void> => {
      while (!runs.every(({ said }) => word.test(said())))
        await new Promise((resolve) => setTimeout(resolve, 20));
    };
    await all(/ready/);
    for (const { child } of runs) child.stdin.write('go');
    await all(/held|refused/);
    expect(runs.filter(({ said }) => said().includes('held'))).toHaveLength(1);
    for (const { child } of runs) child.stdin.end('end');
  });
});

test('parts of a broken-off run are cleared by the next one, those of a run that goes on are not', () => {
  const ended = spawnSync(process.execPath, ['-e', '']).pid;
  for (const name of [
    `.sweep.csv.echocone-${ended}.part`,
    `.map.csv.echocone-${process.ppid}.part`,
    '.mine.part',
  ])
    writeFileSync(join(base, name), 'half');
  openRunFolder({ out: base, name: 'x', overwrite: true });
  expect(names(base)).toEqual([`.map.csv.echocone-${process.ppid}.part`, '.mine.part']);
});

/** The folder of a run: refused when it holds something, nothing but our own files replaced. */

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { fileNameOf, openRunFolder } from '../../src/commands/frame/run-folder.ts';

let base = '';
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'echocone-folder-'));
});

const refused = expect.objectContaining({ exitCode: 6 });

describe('run folder', () => {
  test('is made with its parents and takes files', () => {
    const folder = openRunFolder({ out: join(base, 'a/b'), name: 'x', overwrite: false });
    folder.write('sweep.csv', 'speed\n');
    expect(readdirSync(folder.path)).toEqual(['sweep.csv']);
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
    expect(readdirSync(base)).toHaveLength(2);
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
    expect(readdirSync(folder.path)).toEqual(['taken.csv']);
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
  });
});

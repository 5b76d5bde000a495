/** The journal: nothing lost, nothing twice, whatever moment the process dies at. */

import { spawn, spawnSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeEach, describe, expect, test } from 'vitest';
import { canonicalJson, fingerprintOf } from '../../../src/study/work/canonical-json.ts';
import { openJournal } from '../../../src/study/work/journal.ts';
import { sealedLine, seedOf } from '../../../src/study/work/journal-line.ts';

let path = '';
beforeEach(() => {
  path = join(mkdtempSync(join(tmpdir(), 'echocone-journal-')), 'journal.jsonl');
});

const study = { kind: 'overnight', name: 'baffle', program: 'echocone 1', what: { length: [0.1, 0.2] } };

function writeDrafts(names: readonly string[]): void {
  const journal = openJournal<{ score: number }>(path, study);
  for (const name of names) journal.append(name, { score: name.length / 3 });
  journal.close();
}

function draftsRead(): [string, unknown][] {
  const found: [string, unknown][] = [];
  openJournal(path, study, (draft, result) => void found.push([draft, result])).close();
  return found;
}

describe('journal', () => {
  test('gives back what was written, in order', () => {
    writeDrafts(['a', 'bb', 'Söhne\n"x"']);
    expect(draftsRead()).toEqual([
      ['a', { score: 1 / 3 }],
      ['bb', { score: 2 / 3 }],
      ['Söhne\n"x"', { score: 3 }],
    ]);
  });

  test('takes a draft once', () => {
    writeDrafts(['a', 'b']);
    writeDrafts(['b', 'c', 'c']);
    const { fingerprint } = openJournal(path, study);
    appendFileSync(path, sealedLine({ draft: 'a', result: { score: 99 } }, seedOf(fingerprint)));
    expect(draftsRead().map(([draft]) => draft)).toEqual(['a', 'b', 'c']);
    expect(draftsRead()[0]?.[1]).toEqual({ score: 1 / 3 });
  });

  test('cut off at any byte, it is gone on with to the same file', () => {
    const names = ['a', 'bb', 'ü', 'dddd'];
    writeDrafts(names);
    const whole = readFileSync(path);
    for (let length = 0; length <= whole.length; length += 1) {
      writeFileSync(path, whole.subarray(0, length));
      const journal = openJournal(path, study);
      const lastLineEnd = whole.subarray(0, length).lastIndexOf(0x0a) + 1;
      const torn = length - lastLineEnd;
      expect(journal.dropped).toBe(
        torn === 0
          ? ''
          : `The journal ended in a torn line of ${torn} bytes; it was dropped and its work is done again.`,
      );
      journal.close();
      writeDrafts(names);
      expect(readFileSync(path).equals(whole)).toBe(true);
    }
  });

  test('lines longer than one read are whole', () => {
    const journal = openJournal<string>(path, study);
    for (const length of [65_535, 65_536, 200_000]) journal.append(String(length), 'é'.repeat(length));
    journal.close();
    expect(draftsRead().map(([, result]) => (result as string).length)).toEqual([65_535, 65_536, 200_000]);
  });

  test('of another study is refused and left alone', () => {
    writeDrafts(['a']);
    const before = readFileSync(path);
    expect(() => openJournal(path, { ...study, what: 'other' })).toThrow(
      expect.objectContaining({
        exitCode: 6,
        message: expect.stringMatching(/another study.*"overnight" of "baffle" by "echocone 1"/),
      }),
    );
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test('a damaged line is dropped, said and done again; the file is whole afterwards', () => {
    writeDrafts(['a', 'b', 'c']);
    const whole = readFileSync(path, 'utf8');
    // A digit of a score, which JSON alone would believe.
    writeFileSync(path, whole.replace('"score":0.3', '"score":9.3'));
    const journal = openJournal<{ score: number }>(path, study);
    expect(journal.dropped).toBe(
      'The journal had 1 damaged line; it was dropped and its work is done again.',
    );
    expect(journal.has('a')).toBe(false);
    expect(journal.count).toBe(2);
    journal.append('a', { score: 1 / 3 });
    journal.close();
    const lines = (text: string): string[] => text.split('\n').sort();
    expect(lines(readFileSync(path, 'utf8'))).toEqual(lines(whole));
    const again = openJournal(path, study);
    expect(again.dropped).toBe('');
    again.close();
  });

  test('a file of which no line passes is refused and left alone', () => {
    for (const text of ['speed,torque\n', 'a note without a line end', '{"crc":"00000000","journal":2}\n']) {
      writeFileSync(path, text);
      expect(draftsRead).toThrow(
        expect.objectContaining({ exitCode: 6, message: expect.stringContaining('left as it is') }),
      );
      expect(readFileSync(path, 'utf8')).toBe(text);
    }
  });

  test('of another version is refused, the first one too', () => {
    const fingerprint = 'a'.repeat(64);
    for (const line of [
      `{"journal":1,"study":"${fingerprint}"}\n`,
      sealedLine({ journal: 3, kind: 'overnight', study: fingerprint }, 0).toString(),
    ]) {
      writeFileSync(path, line);
      expect(draftsRead).toThrow(/another version of echocone/);
    }
  });

  test('a line of another journal does not pass', () => {
    writeDrafts(['a']);
    appendFileSync(path, sealedLine({ draft: 'b', result: { score: 1 } }, seedOf('f'.repeat(64))));
    expect(draftsRead().map(([draft]) => draft)).toEqual(['a']);
  });

  test('a result that cannot be read is dropped like a damaged line', () => {
    writeDrafts(['a', 'b']);
    const journal = openJournal(path, study, (draft) => draft !== 'a');
    expect(journal.has('a')).toBe(false);
    expect(journal.dropped).toMatch(/1 damaged line/);
    journal.close();
    expect(draftsRead().map(([draft]) => draft)).toEqual(['b']);
  });
});

describe('a real process, killed at random moments', () => {
  test('ends with the file of an unbroken run', async () => {
    const writer = fileURLToPath(new URL('journal-writer.mjs', import.meta.url));
    const words = (file: string): string[] => [writer, file, '60'];
    const unbroken = `${path}.unbroken`;
    expect(spawnSync(process.execPath, words(unbroken)).status).toBe(0);
    let kills = 0;
    for (let round = 0; round < 8; round += 1) {
      const child = spawn(process.execPath, words(path), { stdio: ['ignore', 'pipe', 'inherit'] });
      child.stdout.once('data', () => setTimeout(() => child.kill('SIGKILL'), Math.random() * 30));
      const signal = await new Promise((resolve) => child.once('exit', (_, by) => resolve(by)));
      if (signal === 'SIGKILL') kills += 1;
    }
    expect(kills).toBeGreaterThan(0);
    expect(spawnSync(process.execPath, words(path)).status).toBe(0);
    expect(readFileSync(path).equals(readFileSync(unbroken))).toBe(true);
  });
});

describe('fingerprint', () => {
  test('does not depend on the order of keys, but on everything else', () => {
    expect(canonicalJson({ b: [1, { d: null, c: 'x' }], a: true, e: undefined })).toBe(
      '{"a":true,"b":[1,{"c":"x","d":null}]}',
    );
    expect(fingerprintOf({ a: 1, b: 2 })).toBe(fingerprintOf({ b: 2, a: 1 }));
    expect(fingerprintOf({ a: [1, 2] })).not.toBe(fingerprintOf({ a: [2, 1] }));
    expect(() => canonicalJson({ a: Number.NaN })).toThrow(/number \(NaN\)/);
  });

  test('is SHA-256 of the text', () => {
    // FIPS 180-2, test vector of the empty message is e3b0c442…; here of the two bytes "{}", from sha256sum.
    expect(fingerprintOf({})).toBe('44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
  });
});

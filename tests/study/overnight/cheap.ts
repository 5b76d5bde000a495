/** A study of twenty drafts that are as cheap as an engine gets: cells of 20 mm, one speed, nine cycles. */

import { execFile, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const root = new URL('../../../', import.meta.url).pathname;
const program = join(root, 'dist/src/main.js');
const run = promisify(execFile);

/** One draft cannot be built: a baffle that widens. One constraint leaves some out. */
const TEXT = `kind: study
name: cheap
case: ${join(root, 'cases/saltmarsh-125/draft-a.yaml')}
vary:
  - { path: pipe.sections.baffle.length, from: 160 mm, to: 220 mm, step: 20 mm }
  - { name: bore, path: pipe.sections.baffle.to, values: [21 mm, 22 mm, 23 mm, 24 mm, 200 mm] }
constraints:
  lengthToBaffleEnd: { atMost: 885 mm }
speeds: [10000 rpm]
cell: 20 mm
score:
  - torqueAt: 10000 rpm
  - leadAt: { speed: 10000 rpm, wanted: 15 deg }
    weight: 0.05
`;

export interface Folder {
  readonly path: string;
  readonly study: string;
  remove(): void;
}

export function newFolder(text = TEXT): Folder {
  const path = mkdtempSync(join(tmpdir(), 'echocone-overnight-'));
  const study = join(path, 'study.yaml');
  writeFileSync(study, text);
  return { path, study, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export const cheapText = TEXT;

function words(study: string, out: string, threads: number): string[] {
  return ['overnight', study, '--out', out, '--threads', String(threads), '--set', 'run.maxCycles=9'];
}

export interface Ended {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a study to its end; on one thread, which takes less of a busy machine. */
export async function whole(study: string, out: string, threads = 1): Promise<Ended> {
  return run(process.execPath, [program, ...words(study, out, threads)], { maxBuffer: 1 << 26 }).then(
    ({ stdout, stderr }) => ({ code: 0, stdout, stderr }),
    (error: { code: number; stdout: string; stderr: string }) => ({ ...error, code: error.code }),
  );
}

/** Starts a study and sends it a signal once its journal has a number of lines; gives its exit code, null if killed. */
export function broken(
  study: string,
  out: string,
  lines: number,
  signal: 'SIGKILL' | 'SIGINT',
): Promise<{ code: number | null; stderr: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [program, ...words(study, out, 2)], {
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    let stderr = '';
    child.stderr.on('data', (text: Buffer) => {
      stderr += text.toString();
    });
    const look = setInterval(() => {
      if (journalLines(out).length >= lines) {
        clearInterval(look);
        child.kill(signal);
      }
    }, 3);
    child.on('close', (code) => {
      clearInterval(look);
      resolve({ code, stderr });
    });
  });
}

/** Lines of a journal, the torn end left out. */
export function journalLines(out: string): readonly string[] {
  try {
    return readFileSync(join(out, 'journal.jsonl'), 'utf8').split('\n').slice(0, -1);
  } catch {
    return [];
  }
}

export function read(out: string, name: string): string {
  return readFileSync(join(out, name), 'utf8');
}

/** Case files for the tests: a folder of their own that goes when the tests end, and edits of the demo's texts. */

import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CaseProblems } from '../../src/case/text/problem.ts';

export const CASES = new URL('../../cases/', import.meta.url).pathname;
/** Case files kept as they are for the tests of reading, whatever becomes of the demo. */
export const DRAFTS = new URL('./drafts/', import.meta.url).pathname;

const folder = mkdtempSync(join(tmpdir(), 'echocone-case-'));

/** Writes a file into the test's folder and gives its path. */
export function file(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

export function demo(name: string): string {
  return readFileSync(join(DRAFTS, 'saltmarsh-125', name), 'utf8');
}

/** The demo's draft A in the test's folder, with pieces of its engine, pipe and case file exchanged. */
export function edited(edits: {
  engine?: readonly Edit[];
  pipe?: readonly Edit[];
  case?: readonly Edit[];
}): string {
  file('engine.yaml', replaced(demo('engine.yaml'), edits.engine ?? []));
  file('pipe-a.yaml', replaced(demo('pipe-a.yaml'), edits.pipe ?? []));
  return file('draft-a.yaml', replaced(demo('draft-a.yaml'), edits.case ?? []));
}

export type Edit = readonly [from: string, to: string];

export function replaced(text: string, edits: readonly Edit[]): string {
  return edits.reduce((current, [from, to]) => {
    if (!current.includes(from)) throw new Error(`no ${from} in the text`);
    return current.replace(from, () => to);
  }, text);
}

/** The message of the problems that an action meets, with the folder's path taken out. */
export function problems(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (error instanceof CaseProblems) return error.message.replaceAll(`${folder}/`, '');
    throw error;
  }
  throw new Error('no problem was found');
}

export function without(text: string): string {
  return text.replaceAll(`${folder}/`, '');
}

/**
 * Once for all tests: one folder for whatever they write, removed when the last of them has ended, and one line for each thing that
 * is not on this machine, so that tests which need it are skipped.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { missing } from './on-this-machine.ts';

const NAME = 'echocone-tests-';

export function setup(): () => void {
  // Every project of the tests asks for it, in one process; they share the folder, for in a folder within a folder the path
  // of a browser's socket would be too long.
  if (basename(tmpdir()).startsWith(NAME)) return () => undefined;
  for (const line of missing) console.warn(line);
  const folder = mkdtempSync(join(tmpdir(), NAME));
  process.env.TMPDIR = folder;
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}

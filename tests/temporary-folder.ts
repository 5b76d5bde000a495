/**
 * One folder for whatever the tests write, removed when the last of them has ended. Projects of one run share it: a folder in a
 * folder would make the path of a browser's socket too long.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';

const NAME = 'echocone-tests-';

export function setup(): () => void {
  if (basename(tmpdir()).startsWith(NAME)) return () => undefined;
  const folder = mkdtempSync(join(tmpdir(), NAME));
  process.env.TMPDIR = folder;
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}

/** One folder for whatever the tests write, removed when the last of them has ended. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'echocone-tests-'));
  process.env.TMPDIR = folder;
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}

/** A full disk is said in words with the file that could not be written, and nothing half written is left. On the built program. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { unfolded } from './unfolded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-full-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// Writes beyond a number of bytes meet a full disk, as on a small file system.
const full = join(folder, 'full.cjs');
writeFileSync(
  full,
  `const fs = require('node:fs');
const { writeSync } = fs;
let left = Number(process.env.ROOM);
fs.writeSync = (file, bytes, ...rest) => {
  if (typeof bytes !== 'string' && file > 2) left -= bytes.length;
  if (left < 0) throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC', syscall: 'write', errno: -28 });
  return writeSync(file, bytes, ...rest);
};
require('node:module').syncBuiltinESMExports();
`,
);
const PULSE = join(root, 'cases/pulse/cone.yaml');

/** Room [bytes], and the file that is met without any left. */
test.each([
  ['0', 'probes.csv'],
  ['400000', 'pulse.html'],
])('with room for %s bytes: %s is named', (room, name) => {
  const out = join(folder, `run-${room}`);
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--require', full, join(root, 'dist/src/main.js'), 'pulse', PULSE, '--cell', '10mm', '--out', out],
    { encoding: 'utf8', env: { ...process.env, ROOM: room } },
  );
  expect(status, stderr).toBe(6);
  expect(unfolded(stderr)).toContain(`${join(out, name)}: the disk is full.`);
  const left = readdirSync(out);
  expect(left.filter((one) => one.endsWith('.part') || one === name)).toEqual([]);
  for (const one of left.filter((file) => file.endsWith('.json')))
    expect(() => JSON.parse(readFileSync(join(out, one), 'utf8'))).not.toThrow();
});

/**
 * The build's step for the two-lane kernel, in a folder of its own: without its compiler, and with sources that do not
 * compile, it says so, leaves the kernel out and lets the build go on. Ring: identity.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const modules = join(root, 'node_modules');
const installed = existsSync(join(modules, 'assemblyscript'));
const ASSEMBLY = 'solver/scheme/two-lane/assembly';
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'echocone-kernel-'));
  for (const path of ['solver/compile-kernel.mjs', ASSEMBLY])
    cpSync(join(root, path), join(folder, path), { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }\n');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const compile = () =>
  spawnSync(process.execPath, [join(folder, 'solver/compile-kernel.mjs')], { encoding: 'utf8' });
const product = (): string =>
  readFileSync(join(folder, 'dist/solver/scheme/two-lane/two-lane-kernel.js'), 'utf8');

test('without the compiler', () => {
  const { status, stderr } = compile();
  expect(status).toBe(0);
  expect(stderr).toMatch(/two-lane kernel is left out: assemblyscript is not installed/);
  expect(product()).toMatch(/^export const KERNEL = '';$/m);
});

test.skipIf(!installed)('with sources that do not compile, and again once they do not change', () => {
  symlinkSync(modules, join(folder, 'node_modules'));
  writeFileSync(join(folder, ASSEMBLY, 'index.ts'), 'export function decode(d: Nothing): void {}\n');
  const { status, stderr } = compile();
  expect(status).toBe(0);
  expect(stderr).toContain('is left out, it did not compile');
  expect(stderr).toContain('Nothing');
  expect(product()).toMatch(/^export const KERNEL = '';$/m);
  // A small kernel in its place is made once, and then left alone.
  writeFileSync(join(folder, ASSEMBLY, 'index.ts'), 'export function decode(d: i32): void {}\n');
  expect(compile().stderr).toBe('');
  const made = product();
  expect(made).toMatch(/KERNEL = '[A-Za-z0-9+/=]{40,}'/);
  writeFileSync(join(folder, 'dist/solver/scheme/two-lane/two-lane-kernel.js'), `${made}// kept\n`);
  expect(compile().stderr).toBe('');
  expect(product()).toBe(`${made}// kept\n`);
});

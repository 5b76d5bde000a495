/** The files that `new` writes: they read, `check` runs on them, a coarse sweep runs, and nothing is overwritten. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freshFiles } from '../../src/case/fresh/fresh-files.ts';
import { loadCase } from '../../src/case/load.ts';
import { typed } from '../../src/commands/frame/typed.ts';
import type { Case } from '../../src/model/case.ts';
import { INTAKES } from '../../src/model/known-engine.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { unfolded } from './unfolded.ts';

const main = fileURLToPath(new URL('../../dist/src/main.js', import.meta.url));
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'echocone-new-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]) =>
  spawnSync(process.execPath, [main, ...words], { cwd: folder, encoding: 'utf8' });

const sizes = [
  { cc: 50, bore: 0.0398, stroke: 0.04, rpm: 12_500 },
  { cc: 125, bore: 0.054, stroke: 0.0545, rpm: 10_500 },
  { cc: 250, bore: 0.0664, stroke: 0.072, rpm: 8500 },
];
/** Too few cycles to settle, enough to see that it runs. */
const short = ['--set', 'run.maxCycles=8', '--json'];
const mm = (length: number): string => `${(1000 * length).toFixed(1)}mm`;

/** One size of each intake is swept, another each time; all are written and checked. */
const isSwept = (intake: (typeof INTAKES)[number], cc: number): boolean =>
  INTAKES.indexOf(intake) === sizes.findIndex((size) => size.cc === cc);

/** Rules of thumb that object. */
const flagged = (subject: Case): readonly string[] =>
  checkReport(subject)
    .rules.filter((rule) => rule.outside !== 'no')
    .map(({ id }) => id);

/** Mild engines: what is usual at their speeds is no racing engine's. */
test.each([
  ['pistonPort', 48, 44, 9000],
  ['pistonPort', 45, 43, 8500],
  ['pistonPort', 54, 54, 6700],
  ['reed', 66, 72, 5500],
  ['disc', 42, 42, 9600],
] as const)('%s %f x %f mm at %f rpm: no rule of thumb objects', (intake, bore, stroke, rpm) => {
  const place = join(folder, `mild-${intake}-${bore}`);
  mkdirSync(place);
  const texts = freshFiles({ name: 'mild', intake, bore: bore / 1000, stroke: stroke / 1000, rpm });
  for (const [name, text] of Object.entries(texts)) writeFileSync(join(place, name), text);
  expect(flagged(loadCase(join(place, 'case.yaml')))).toEqual([]);
});

describe.each(INTAKES)('%s', (intake) => {
  test.each(sizes)('$cc cc: written and checked, one swept', ({ cc, bore, stroke, rpm }) => {
    const place = `${intake}-${cc}`;
    const flags = ['--intake', intake, '--bore', mm(bore), '--stroke', mm(stroke), '--rpm', String(rpm)];
    const written = run('new', place, ...flags);
    expect(written.status, written.stderr).toBe(0);
    const file = join(folder, place, 'case.yaml');
    const subject = loadCase(file);
    expect(subject.engine.bore).toBeCloseTo(bore, 9);
    expect(subject.run.targetSpeed).toBe(rpm);
    expect(subject.warnings).toEqual([]);
    // A piston port has no boost port, and fast engines no more width for transfers in its place.
    const outside = flagged(subject).filter((id) => intake !== 'pistonPort' || id !== 'transfer-time-area');
    expect(outside).toEqual([]);
    expect(run('check', file).status).toBe(0);
    if (!isSwept(intake, cc)) return;
    const speeds = `${rpm - 500}:${rpm}:500`;
    const swept = run('sweep', file, '--rpm', speeds, '--cell', '20mm', ...short, '--out', `${place}-run`);
    expect([0, 4], swept.stderr).toContain(swept.status);
    const { rows } = JSON.parse(swept.stdout) as { rows: { torque_nm: number }[] };
    expect(rows).toHaveLength(2);
    // Between a weak engine and the best of their size: 2 to 16 bar over the displacement.
    const perBar = ((Math.PI / 4) * bore ** 2 * stroke * 1e5) / (2 * Math.PI);
    for (const { torque_nm } of rows) {
      expect(torque_nm / perBar).toBeGreaterThan(2);
      expect(torque_nm / perBar).toBeLessThan(16);
    }
  });
});

test('what is known is written as it is and not marked; the rest is', () => {
  const known = { name: 'a "b"', intake: 'reed', bore: 0.054, stroke: 0.0545, rpm: 10_500 } as const;
  const bare = freshFiles(known);
  const told = freshFiles({ ...known, rod: 0.1153, exhaustDuration: 195, flange: 0.0362, trapped: 7.4 });
  const marked = (text: string, key: string): boolean => {
    const lines = text.split('\n');
    const at = lines.findIndex((line) => line.trimStart().startsWith(key));
    expect(at, key).toBeGreaterThan(0);
    // A long comment stands above its line, over one line or two.
    const first = lines.findLastIndex((line, k) => k < at && !line.trimStart().startsWith('#')) + 1;
    return lines.slice(first, at + 1).some((line) => line.includes('# assumed'));
  };
  for (const key of ['rod:', 'duration:', 'exitDiameter:', 'compression:']) {
    expect(marked(bare['engine.yaml'], key), key).toBe(true);
    expect(marked(told['engine.yaml'], key), key).toBe(false);
  }
  expect(told['engine.yaml']).toContain('rod: 115.3 mm');
  expect(told['engine.yaml']).toContain('exitDiameter: 36.2 mm');
  expect(told['engine.yaml']).toContain('duration: 195 deg');
  for (const text of [...Object.values(bare), ...Object.values(told)])
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
});

test('nothing is overwritten, nothing written for a wrong wish', () => {
  const wish = ['--intake', 'disc', '--bore', '50mm', '--stroke', '50mm', '--rpm', '9000'];
  expect(run('new', 'mine', ...wish).status).toBe(0);
  const file = join(folder, 'mine/engine.yaml');
  writeFileSync(file, 'mine');
  const again = run('new', 'mine', ...wish);
  expect(again.status).toBe(6);
  expect(unfolded(again.stderr)).toContain('never overwritten');
  expect(readFileSync(file, 'utf8')).toBe('mine');
  const short = run('new', 'other', ...wish, '--rod', '30mm');
  expect(short.status).toBe(2);
  expect(short.stderr).toContain('cannot turn');
  const missing = run('new', 'other', '--bore', '50mm');
  expect(missing.status).toBe(2);
  expect(missing.stderr).toContain('--intake <sort>, --stroke <length>, --rpm <speed>');
  expect(() => readFileSync(join(folder, 'other/case.yaml'))).toThrow();
});

test('the word to type is the one that a shell finds', () => {
  expect(typed('/nowhere:/usr/bin', main)).toBe('npx echocone');
});

/**
 * What a user does wrong, on the built program: each ends with its exit code, nothing on stdout, and a message on
 * stderr that says where and what to do. A stack would say that the program is at fault; there is none.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unfolded } from './unfolded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-wrong-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');

const echocone = (...words: string[]) =>
  spawnSync(process.execPath, [join(root, 'dist/src/main.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
  });

/** The example with one line of the engine written otherwise. */
function spoilt(name: string, from: string, to: string): string {
  const place = join(folder, name);
  cpSync(join(root, 'cases/saltmarsh-125'), place, { recursive: true });
  const engine = join(place, 'engine.yaml');
  const text = readFileSync(engine, 'utf8');
  if (!text.includes(from)) throw new Error(`the example has no "${from}"`);
  writeFileSync(engine, text.replace(from, to));
  return join(name, 'draft-a.yaml');
}

function refusal(code: number, ...words: string[]): string {
  const { status, stdout, stderr } = echocone(...words);
  expect(stderr).not.toMatch(/^\s+at /m);
  expect(stdout).toBe('');
  expect(status).toBe(code);
  return unfolded(stderr);
}

beforeAll(() => mkdirSync(join(folder, 'full')));

describe('a wrong case file, 3', () => {
  test('a misspelt key: file, line, column, the line, a caret and the nearest key', () => {
    const said = refusal(3, 'sweep', spoilt('misspelt', 'stroke: 54.5 mm', 'strokke: 54.5 mm'));
    expect(said).toContain('misspelt/engine.yaml:5:1:');
    expect(said).toContain('| strokke: 54.5 mm\n    | ^^^^^^^');
    expect(said).toContain('did you mean "stroke"?');
  });

  test('a missing unit: what it may be', () => {
    const said = refusal(3, 'sweep', spoilt('unitless', 'bore: 54 mm', 'bore: 54'));
    expect(said).toMatch(/unitless\/engine\.yaml:4:7: .*"54" has no unit.*mm/);
    expect(said).toContain('did you mean "54 mm"?');
  });

  test('a wrong unit: what it may be', () => {
    const said = refusal(3, 'sweep', spoilt('wrong-unit', 'rod: 115 mm', 'rod: 115 bar'));
    expect(said).toMatch(/wrong-unit\/engine\.yaml:6:6: .*bar.*mm/);
  });

  test('an engine that could not turn: why', () => {
    const said = refusal(3, 'sweep', spoilt('impossible', 'rod: 115 mm', 'rod: 25 mm'));
    expect(said).toMatch(/impossible\/engine\.yaml:6:6: .*not longer than half the stroke \(27\.25 mm\)/);
  });

  test('two mistakes are told at once', () => {
    const said = refusal(
      3,
      'check',
      spoilt('two', 'bore: 54 mm\nstroke: 54.5 mm', 'bore: 54\nstroke: -1 mm'),
    );
    expect(said).toContain('engine.yaml:4:7');
    expect(said).toContain('engine.yaml:5:9');
    expect(said).toContain('2 problems');
  });

  test('an override is held to the same', () => {
    const said = refusal(3, 'sweep', draft, '--set', 'engine.rod=20 mm');
    expect(said).toContain('--set');
    expect(said).toContain('half the stroke');
  });

  test('a file that is no YAML: the place', () => {
    writeFileSync(join(folder, 'torn.yaml'), 'kind: case\nengine: [\n');
    expect(refusal(3, 'sweep', 'torn.yaml')).toMatch(/torn\.yaml:\d+:\d+:/);
  });

  test('nothing was written for any of them', () => {
    expect(spawnSync('ls', [folder], { encoding: 'utf8' }).stdout).not.toContain('runs');
  });
});

describe('wrong use of the command line, 2', () => {
  test.each([
    ['an unknown verb', ['swep', draft], 'Did you mean sweep?'],
    ['an unknown flag', ['sweep', draft, '--overwrit'], 'Did you mean --overwrite?'],
    ['speeds that are none', ['sweep', draft, '--rpm', 'fast'], '6000:12000:250'],
    ['speeds the wrong way round', ['sweep', draft, '--rpm', '9000:8000:250'], 'lower end first'],
    ['a cell without unit', ['sweep', draft, '--cell', '5'], '5mm'],
    ['a cell finer than case files take', ['sweep', draft, '--cell', '1um'], 'from 0.1mm to 50mm'],
    ['sheet that nobody rolls', ['unroll', draft, '--thickness', '90mm'], 'from 0mm to 6mm'],
    ['a seam as wide as the cone', ['unroll', draft, '--seam', '400mm'], 'from 0mm to 50mm'],
    [
      'a folder where no file is written',
      ['check', draft, '--out', 'x'],
      '--out means nothing to check: it writes no file.',
    ],
    [
      'a mesh where nothing is simulated',
      ['unroll', draft, '--cell', '5mm'],
      '--cell means nothing to unroll',
    ],
    ['an override of no case', ['verify', '--set', 'a=b'], '--set means nothing to verify'],
    ['no thread at all', ['sweep', draft, '--threads', '0'], 'whole number from 1'],
    ['no case', ['sweep'], 'missing required argument'],
  ])('%s', (_, words, hint) => {
    expect(refusal(2, ...words)).toContain(hint);
  });
});

describe('trouble with files, 6', () => {
  test('a file that is not there', () => {
    expect(refusal(6, 'sweep', 'nowhere.yaml')).toContain('nowhere.yaml');
  });

  test('a folder in place of a file', () => {
    expect(refusal(6, 'sweep', 'full')).toContain('full');
  });

  test('an engine file that a case names and that is not there: named in the case', () => {
    const place = spoilt('half', 'bore: 54 mm', 'bore: 54 mm');
    rmSync(join(folder, 'half/engine.yaml'));
    const said = refusal(6, 'sweep', place);
    expect(said).toContain('engine.yaml');
  });

  test('a place where no folder can be made', () => {
    expect(refusal(6, 'sweep', draft, '--out', '/proc/echocone/x')).toContain('no folder can be made there');
    writeFileSync(join(folder, 'a-file'), '');
    expect(refusal(6, 'sweep', draft, '--out', 'a-file/x')).toContain('a-file');
  });

  test('a folder for the run that holds something', () => {
    writeFileSync(join(folder, 'full/thesis.txt'), 'mine');
    const said = refusal(6, 'sweep', draft, '--out', 'full');
    expect(said).toContain('full holds a file already');
    expect(said).toContain('--overwrite');
    expect(said).toContain('--out');
  });
});

describe('a speed that does not settle, 4', () => {
  test('is kept, marked and said', () => {
    const words = ['--rpm', '10000', '--cell', '15mm', '--set', 'run.maxCycles=3', '--out', 'unsettled'];
    const { status, stdout, stderr } = echocone('sweep', draft, ...words);
    expect(status).toBe(4);
    expect(stdout).toContain('not settled');
    expect(stderr).not.toMatch(/^\s+at /m);
    const [heads = '', row = ''] = readFileSync(join(folder, 'unsettled/sweep.csv'), 'utf8').split('\n');
    const cell = (name: string): string | undefined => row.split(',')[heads.split(',').indexOf(name)];
    expect(cell('settled')).toBe('false');
    expect(cell('cycles')).toBe('3');
    const [speed] = JSON.parse(readFileSync(join(folder, 'unsettled/sweep.json'), 'utf8')).speeds;
    expect(speed.notes.join(' ')).toMatch(/settle/i);
  });
});

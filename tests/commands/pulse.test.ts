/** `pulse` as the command line runs it: the four files, the table, the document, and what is refused. On the built program. */

import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;
const program = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-pulse-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]) =>
  spawnSync(process.execPath, [program, 'pulse', ...words], { cwd: root, encoding: 'utf8' });

const CASE = `
kind: pulse
name: a vessel let go
gas: { gamma: 1.4, gasConstant: 287 J/(kg K) }
ambient: { pressure: 1 bar, temperature: 300 K }
sections:
  - { name: pipe, length: 300 mm, diameter: 40 mm }
  - { name: cone, length: 200 mm, diameter: [40 mm, 80 mm] }
leftEnd: { vessel: { volume: 500 cc, pressure: 2 bar, temperature: 300 K, opening: { diameter: 30 mm } } }
rightEnd: open
probes: [ { name: p1, at: 50 mm }, { name: mouth, at: 500 mm } ]
until: 2 ms
sampleEvery: 10 us
profilesAt: [ 1 ms, 2 ms ]
cell: 5 mm
`;
const file = join(folder, 'vessel.yaml');
const out = join(folder, 'run');
let stdout = '';
beforeAll(() => {
  writeFileSync(file, CASE);
  stdout = execFileSync(process.execPath, [program, 'pulse', file, '--out', out], {
    cwd: root,
    encoding: 'utf8',
  });
});
const text = (name: string): string => readFileSync(join(out, name), 'utf8');

describe('files', () => {
  test('are the four that are promised, and the card for the index of runs', () => {
    expect(readdirSync(out).sort()).toEqual([
      'probes.csv',
      'profiles.csv',
      'pulse.html',
      'pulse.json',
      'run.json',
    ]);
  });

  test('probes.csv has its columns, and one line a sample', () => {
    const [heads, ...rows] = text('probes.csv').trim().split('\n');
    const of = (name: string): string =>
      ['pressure_pa', 'velocity_m_s', 'temperature_k', 'density_kg_m3', 'forward_pa', 'backward_pa']
        .map((quantity) => `${name}_${quantity}`)
        .join();
    expect(heads).toBe(
      `time_s,${of('p1')},${of('mouth')},left_vessel_pressure_pa,left_vessel_temperature_k,left_vessel_mass_kg`,
    );
    expect(rows.length).toBe(201);
    expect(rows.map((row) => row.split(',').length)).toEqual(rows.map(() => 16));
    expect(rows.at(-1)!.startsWith('0.002,')).toBe(true);
    // The gas law holds in the columns: p = rho R T.
    for (const row of rows) {
      const [, p, , T, rho] = row.split(',').map(Number);
      expect(p! / (rho! * 287 * T!)).toBeCloseTo(1, 12);
    }
  });

  test('profiles.csv has the two instants along the duct', () => {
    const [heads, ...rows] = text('profiles.csv').trim().split('\n');
    expect(heads).toBe('time_s,position_m,pressure_pa,velocity_m_s,temperature_k,density_kg_m3');
    expect(new Set(rows.map((row) => row.split(',')[0]))).toEqual(new Set(['0.001', '0.002']));
    for (const row of rows) expect(Number(row.split(',')[1])).toBeLessThan(0.5);
  });

  test('pulse.json says what it is, what was assumed and how its books close', () => {
    const document = JSON.parse(text('pulse.json'));
    expect(document).toMatchObject({
      schemaVersion: 1,
      kind: 'pulse',
      name: 'a vessel let go',
      rejectedSteps: 0,
    });
    expect(document.pulse.courant).toBe(0.8);
    expect(Math.abs(document.balance.massError)).toBeLessThan(1e-12);
    expect(Math.abs(document.balance.energyError)).toBeLessThan(1e-12);
    expect(document.balance.massIn).toBeLessThan(0);
  });

  test('pulse.html is one page that fetches nothing', () => {
    const page = text('pulse.html');
    expect(page.startsWith('<!doctype html>')).toBe(true);
    expect(page).toContain('a vessel let go');
    expect(page).not.toMatch(/<(script|link|img)[^>]+(src|href)="?https?:/);
  });
});

describe('answers', () => {
  test('the table fits 80 columns and names the probes', () => {
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/^p1 +50\.0 /m);
    expect(stdout).toContain('Balance errors: mass');
    expect(stdout).toContain('24.0 mm further out');
  });

  test('--cell meets the limits of the file', () => {
    const { stderr, status } = run(file, '--cell', '0.12mm', '--set', 'sections.pipe.length=3 m');
    expect([status, stderr]).toEqual([3, expect.stringMatching(/cell: gives 26667 cells; at most 20000/)]);
  });

  test('--json gives the document alone, --cell another mesh', () => {
    const { stdout: answer, status } = run(file, '--json', '--cell', '10mm', '--out', join(folder, 'json'));
    expect(status).toBe(0);
    expect(JSON.parse(answer).ducts[0].cells).toBe(52);
  });

  test('a folder that holds something is refused without --overwrite', () => {
    expect(run(file, '--out', out).status).toBe(6);
    expect(run(file, '--out', out, '--overwrite', '--quiet').status).toBe(0);
  });

  test('a wrong file ends with 3, a missing one with 6, and writes nothing', () => {
    const wrong = join(folder, 'wrong.yaml');
    writeFileSync(wrong, CASE.replace('until: 2 ms', 'untl: 2 ms'));
    const { status, stderr } = run(wrong, '--out', join(folder, 'none'));
    expect(status).toBe(3);
    expect(stderr).toContain('until');
    expect(run(join(folder, 'no.yaml'), '--out', join(folder, 'none')).status).toBe(6);
    expect(readdirSync(folder)).not.toContain('none');
  });
});

describe('every example', () => {
  test.each(readdirSync(join(root, 'cases/pulse')).filter((name) => name.endsWith('.yaml')))(
    '%s runs as it lies',
    (name) => {
      const { status, stdout: answer } = run(
        `cases/pulse/${name}`,
        '--json',
        '--cell',
        '10mm',
        '--out',
        join(folder, name),
      );
      expect(status).toBe(0);
      expect(Math.abs(JSON.parse(answer).balance.massError)).toBeLessThan(1e-12);
    },
  );
});

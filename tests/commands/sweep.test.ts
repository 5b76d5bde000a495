/**
 * `sweep` as the command line runs it, on the built program with real threads: the same bytes whatever the threads,
 * the columns that are promised, one document with --json. A coarse mesh: this is about files, not about the engine.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-sweep-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sweep = (name: string, ...words: string[]) =>
  spawnSync(
    process.execPath,
    [
      join(root, 'dist/src/main.js'),
      'sweep',
      join(root, 'cases/saltmarsh-125/draft-a.yaml'),
      ...['--cell', '12mm', '--rpm', '9500:10500:500', '--out', join(folder, name), ...words],
    ],
    { encoding: 'utf8' },
  );
const text = (name: string, file: string): string => readFileSync(join(folder, name, file), 'utf8');

/** The columns of the contract in their order; more may follow. */
const promised =
  'speed_rpm settled cycles exhaust_opens_deg transfers_open_deg transfers_close_deg exhaust_closes_deg suction_bar ' +
  'suction_deg port_mean_during_transfer_bar plugback_onset_deg plugback_peak_deg plugback_centroid_deg ' +
  'plugback_end_deg plugback_peak_bar plugback_lead_deg plugback_share_before_closing packed_mass_ratio ' +
  'echo_return_deg echo_gain transfer_opening_cylinder_bar transfer_opening_crankcase_bar passage_exit_mach_max ' +
  'delivery_ratio scavenging_efficiency trapping_efficiency charging_efficiency imep_bar bmep_bar torque_nm power_kw ' +
  'exhaust_gas_temperature_k pipe_mean_temperature_k traced_return_baffle_start_deg traced_return_baffle_middle_deg ' +
  'traced_return_baffle_end_deg handbook_return_deg mass_balance_error energy_balance_error spread_torque_percent ' +
  'spread_plugback_deg';

let one = { status: null as number | null, stdout: '', stderr: '' };
let two = one;
beforeAll(() => {
  one = sweep('one', '--threads', '1');
  two = sweep('two', '--threads', '2', '--json');
});

describe('a sweep', () => {
  test('leaves its table, its document and its page', () => {
    expect(one.status).toBe(0);
    expect(readdirSync(join(folder, 'one')).filter((name) => name.startsWith('sweep.'))).toEqual([
      'sweep.csv',
      'sweep.html',
      'sweep.json',
    ]);
  });

  test('is the same byte for byte on one thread and on two', () => {
    expect(two.status).toBe(0);
    for (const file of ['sweep.csv', 'sweep.json', 'sweep.html'])
      expect(text('two', file) === text('one', file), file).toBe(true);
  });

  test('prints a table of 80 columns on stdout and no stack anywhere', () => {
    expect(Math.max(...one.stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    for (const speed of ['9500', '10000', '10500'])
      expect(one.stdout).toMatch(new RegExp(`^[> ] +${speed} `, 'm'));
    // Marked: the middle of the plug-back lands between transfer and exhaust closing, as it does at all three.
    expect(one.stdout.match(/^> +\d+/gm)).toEqual(['>  9500', '> 10000', '> 10500']);
    expect(one.stderr).toContain(join(folder, 'one', 'sweep.html'));
    expect(one.stderr).not.toMatch(/^\s+at |\r/m);
  });

  test('with --json prints one document and nothing else', () => {
    const document = JSON.parse(two.stdout);
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'sweep', failures: [] });
    expect(document.program).toMatch(/^echocone \d+\.\d+\.\d+$/);
    expect(document.case.run.cell).toBe(0.012);
    expect(document.case.assumed.length).toBeGreaterThan(10);
    expect(two.stdout).toBe(text('two', 'sweep.json'));
  });

  test('refuses a folder that holds something, and replaces its own files with --overwrite', () => {
    const before = text('one', 'sweep.csv');
    const refused = sweep('one', '--threads', '2');
    expect(refused.status).toBe(6);
    expect(refused.stdout).toBe('');
    expect(refused.stderr).toContain('--overwrite');
    expect(sweep('one', '--threads', '2', '--overwrite', '--quiet')).toMatchObject({ status: 0, stderr: '' });
    expect(text('one', 'sweep.csv')).toBe(before);
  });
});

describe('sweep.csv', () => {
  const table = (): { readonly heads: string[]; readonly rows: Record<string, string>[] } => {
    const [heads = '', ...lines] = text('one', 'sweep.csv').trimEnd().split('\n');
    const names = heads.split(',');
    const record = (line: string): Record<string, string> => {
      const cells = line.split(',');
      expect(cells).toHaveLength(names.length);
      return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? '']));
    };
    return { heads: names, rows: lines.map(record) };
  };
  const value = (row: Record<string, string>, name: string): number => {
    expect(row[name], name).not.toBe('');
    return Number(row[name]);
  };

  test('has the promised columns in their order', () => {
    const columns = promised.split(' ');
    expect(table().heads.slice(0, columns.length)).toEqual(columns);
  });

  test('has a row a speed, ascending, the same numbers as the document', () => {
    const { heads, rows } = table();
    expect(rows.map(({ speed_rpm }) => speed_rpm)).toEqual(['9500', '10000', '10500']);
    const document = JSON.parse(two.stdout);
    for (const [i, row] of rows.entries())
      for (const name of heads) expect(row[name], name).toBe(String(document.rows[i][name] ?? ''));
  });

  test('has angles in the order in which the engine runs, and shares that are shares', () => {
    for (const row of table().rows) {
      const of = (name: string): number => value(row, name);
      // Drawn durations: exhaust 195, transfers 130 degrees, both about bottom dead centre but for the rod's angle.
      expect(of('exhaust_opens_deg')).toBeCloseTo(180 - 195 / 2, 6);
      expect(of('exhaust_closes_deg')).toBeCloseTo(180 + 195 / 2, 6);
      expect(of('transfers_close_deg') - of('transfers_open_deg')).toBeCloseTo(130, 6);
      expect(of('plugback_onset_deg')).toBeLessThan(of('plugback_peak_deg'));
      expect(of('plugback_peak_deg')).toBeLessThan(of('plugback_end_deg'));
      expect(of('plugback_lead_deg')).toBeCloseTo(of('exhaust_closes_deg') - of('plugback_peak_deg'), 9);
      expect(of('suction_deg')).toBeGreaterThan(of('exhaust_opens_deg'));
      expect(of('suction_deg')).toBeLessThan(of('plugback_peak_deg'));
      const [start, middle, end] = ['start', 'middle', 'end'].map((at) =>
        of(`traced_return_baffle_${at}_deg`),
      );
      expect(start).toBeLessThan(middle as number);
      expect(middle).toBeLessThan(end as number);
      expect(of('echo_return_deg')).toBeGreaterThan(of('plugback_peak_deg'));
      for (const share of [
        'plugback_share_before_closing',
        'packed_mass_ratio',
        'scavenging_efficiency',
        'trapping_efficiency',
      ]) {
        expect(of(share), share).toBeGreaterThanOrEqual(0);
        expect(of(share), share).toBeLessThanOrEqual(1);
      }
      // P = 2 pi n T
      expect(of('power_kw') / ((2 * Math.PI * of('speed_rpm') * of('torque_nm')) / 60_000)).toBeCloseTo(1, 9);
      // Charging = delivery x trapping, by definition; for the means of the books as well.
      const product = of('delivery_ratio') * of('trapping_efficiency');
      expect(of('charging_efficiency') / product).toBeCloseTo(1, 9);
    }
  });
});

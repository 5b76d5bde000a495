/**
 * `compare` as the command line runs it, on the built program: its summaries worked out again from its own rows, user
 * text that is no formula and no mark-up, and what it refuses. Few cycles on a coarse mesh, so nothing has settled.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { COLUMNS } from '../../src/findings/row.ts';
import { unfolded } from './unfolded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const main = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-compare-'));
const demo = (letter: string): string => join(root, `cases/saltmarsh-125/draft-${letter}.yaml`);
const flags = ['--rpm', '8500:10500:500', '--cell', '16mm', '--set', 'run.maxCycles=6'];
const run = (out: string, files: readonly string[], ...more: string[]) =>
  spawnSync(process.execPath, [main, 'compare', ...files, ...flags, '--out', join(folder, out), ...more], {
    encoding: 'utf8',
  });
const text = (out: string, file: string): string => readFileSync(join(folder, out, file), 'utf8');

interface Row {
  readonly speed_rpm: number;
  readonly torque_nm: number;
  readonly power_kw: number;
  readonly plugback_lead_deg: number;
}
interface Draft {
  readonly name: string;
  readonly summary: Readonly<Record<string, number>>;
  readonly againstFirst: Readonly<Record<string, number>> | null;
  readonly rows: readonly Row[];
}

let first = { status: null as number | null, stdout: '', stderr: '' };
let drafts: readonly Draft[] = [];
beforeAll(() => {
  first = run('two', [demo('a'), demo('c')], '--threads', '2', '--band', '9000:10000');
  drafts = JSON.parse(text('two', 'compare.json')).drafts;
});

/** Width of the unbroken run about the best over which torque keeps nine tenths, its edges straight between rows [rpm]. */
function heldWidth(rows: readonly Row[], best: Row): number {
  const level = 0.9 * best.torque_nm;
  const edge = (step: 1 | -1): number => {
    for (let at = rows.indexOf(best); ; at += step) {
      const here = rows[at] as Row;
      const next = rows[at + step];
      if (next === undefined) return here.speed_rpm;
      if (next.torque_nm >= level) continue;
      const share = (here.torque_nm - level) / (here.torque_nm - next.torque_nm);
      return here.speed_rpm + share * (next.speed_rpm - here.speed_rpm);
    }
  };
  return edge(1) - edge(-1);
}

describe('two drafts', () => {
  test('are compared though speeds of them did not settle, which is marked', () => {
    expect(first.status).toBe(0);
    expect(first.stdout).toMatch(/ \d+ rpm did not settle\.$/m);
    expect(first.stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(first.stdout).toMatch(/^draft C · maxCycles 6 against draft A · maxCycles 6: /m);
    expect(first.stdout).toMatch(/ {2}less first/);
    const [head, ...lines] = text('two', 'compare.csv').trim().split('\n');
    expect(head).toBe(['draft', ...COLUMNS.map((c) => c.name)].join(','));
    expect(lines).toHaveLength(10);
    expect(lines[5]?.startsWith('"Saltmarsh 125, draft C · maxCycles 6",8500,')).toBe(true);
    expect(text('two', 'compare.html')).toContain('draft C');
  });

  test.each([0, 1])('summary of draft %i follows from its rows', (k) => {
    const { rows, summary } = drafts[k] as Draft;
    const best = (of: (row: Row) => number): Row => rows.reduce((a, b) => (of(b) > of(a) ? b : a));
    const torque = best((r) => r.torque_nm);
    expect(summary.peakTorque).toBe(torque.torque_nm);
    expect(summary.peakTorqueSpeed).toBe(torque.speed_rpm);
    expect(summary.peakPower).toBe(best((r) => r.power_kw).power_kw);
    expect(summary.peakPowerSpeed).toBe(best((r) => r.power_kw).speed_rpm);
    // Trapezes over 9000, 9500, 10 000; the summary samples the same polygon.
    const [, low, middle, high] = rows.map((r) => r.torque_nm) as [number, number, number, number];
    expect(summary.averageTorque).toBeCloseTo((low / 2 + middle + high / 2) / 2, 9);
    const target = rows.find((r) => r.speed_rpm === JSON.parse(text('two', 'compare.json')).targetSpeed);
    if (target !== undefined) expect(summary.leadAtTarget).toBe(target.plugback_lead_deg);
    expect(summary.torqueBand).toBeCloseTo(heldWidth(rows, torque), 6);
  });

  test('differences are those to the first', () => {
    const [a, c] = drafts as [Draft, Draft];
    expect(a.againstFirst).toBeNull();
    for (const name of ['peakTorque', 'peakPowerSpeed', 'averageTorque', 'torqueBand'])
      expect(c.againstFirst?.[name]).toBe((c.summary[name] as number) - (a.summary[name] as number));
  });

  test('one thread gives the same bytes', () => {
    run('one', [demo('a'), demo('c')], '--threads', '1', '--band', '9000:10000');
    for (const file of ['compare.csv', 'compare.json', 'compare.html'])
      expect(text('one', file)).toBe(text('two', file));
  });
});

describe('finished sweeps', () => {
  const sweep = (out: string, ...more: string[]) =>
    spawnSync(
      process.execPath,
      [main, 'sweep', demo('a'), '--no-advice', ...flags, '--out', join(folder, out), ...more],
      { encoding: 'utf8' },
    );
  beforeAll(() => {
    sweep('swept');
    const tail = ['pipe.sections.stinger.diameter=20 mm', 'pipe.sections.baffle.to=20 mm'];
    sweep('narrow', '--rpm', '9000:10000:500', ...tail.flatMap((set) => ['--set', set]));
  }, 60_000);

  test('stand beside cases, by their folder or their file, with the same summary', () => {
    const operands = [join(folder, 'swept'), join(folder, 'swept/sweep.json'), demo('c')];
    const { status, stderr } = run('finished', operands, '--band', '9000:10000');
    expect(status, stderr).toBe(0);
    expect(unfolded(stderr)).toContain('is finished: --set, --rpm and --cell do not change it');
    const again = JSON.parse(text('finished', 'compare.json')).drafts as readonly Draft[];
    const { name: _, ...numbers } = drafts[0]?.summary ?? {};
    for (const one of again.slice(0, 2)) expect(one.summary).toMatchObject(numbers);
    expect(again[2]?.rows).toEqual(drafts[1]?.rows);
  });

  test('of other speeds are judged where all were run, and a narrower tail is cautioned for', () => {
    const { stdout, status } = spawnSync(
      process.execPath,
      [main, 'compare', join(folder, 'swept'), join(folder, 'narrow'), '--out', join(folder, 'both')],
      { encoding: 'utf8' },
    );
    // Few cycles: 4 says that a draft has no speed that settled.
    expect([0, 4]).toContain(status);
    expect(stdout).toMatch(/From\s9000\sto\s10000\srpm,\swhich\sall\swere\srun\sover:/);
    expect(stdout).toMatch(/^Caution: the tail of draft A .*stinger diameter 20 mm/m);
    expect(JSON.parse(text('both', 'compare.json')).drafts[1].name).toContain('stinger diameter 20 mm');
    expect(text('both', 'compare.html')).toContain('Caution: the tail of');
  });

  test.each([
    ['no JSON', '{', /no finished sweep: it is no JSON/],
    ['another kind', '{"kind":"map"}', /its kind is not sweep/],
    ['no rows', '{"kind":"sweep","schemaVersion":1,"case":{}}', /its case cannot be read/],
  ])('that are none are refused: %s', (_, content, why) => {
    const path = join(folder, 'odd.json');
    writeFileSync(path, content);
    const { status, stderr } = run('odd', [demo('a'), path]);
    expect(status).toBe(6);
    expect(unfolded(stderr)).toMatch(why);
  });

  test('a row of words is refused', () => {
    const whole = JSON.parse(text('swept', 'sweep.json'));
    whole.rows[0].torque_nm = 'much';
    const path = join(folder, 'words.json');
    writeFileSync(path, JSON.stringify(whole));
    expect(run('words', [demo('a'), path]).stderr).toContain('its rows cannot be read');
  });
});

describe('a what-if against its base', () => {
  test('has the name of what was changed in table, page, document and card', () => {
    const changed = 'pipe.sections.header.length=260 mm';
    const words = ['--rpm', '9000:9500:500', '--cell', '24mm', '--against', 'base', '--set', changed];
    const { stdout } = spawnSync(
      process.execPath,
      [main, 'compare', demo('a'), ...words, '--out', join(folder, 'base')],
      { encoding: 'utf8' },
    );
    expect(stdout).toContain('header 260 mm against Saltmarsh 125, draft A: ');
    expect(stdout).toMatch(/^Saltmarsh 125, draft A · header 260 mm$/m);
    const document = JSON.parse(text('base', 'compare.json'));
    expect(document.changed).toContain(changed);
    const headers = document.drafts.map(
      (one: { case: { pipe: { sections: { length: number }[] } } }) => one.case.pipe.sections[0]?.length,
    );
    expect(headers).toEqual([0.21, 0.26]);
    expect(JSON.parse(text('base', 'run.json')).changed).toEqual(document.changed);
    expect(text('base', 'compare.html')).toContain('header 260 mm');
  });
});

describe('user text', () => {
  test('is no formula and no mark-up anywhere', () => {
    const hostile = (name: string): string => {
      const path = join(folder, `${name.length}.yaml`);
      const draft = readFileSync(demo('a'), 'utf8')
        .replace(/^name: .*$/m, `name: ${JSON.stringify(name)}`)
        .replace(
          /(engine|pipe): (\S+\.yaml)/g,
          (_, key, file) => `${key}: ${join(root, 'cases/saltmarsh-125', file)}`,
        );
      writeFileSync(path, draft);
      return path;
    };
    const files = [hostile('=HYPERLINK("x")'), hostile('<script>alert(1)</script> & "Söhne"')];
    const { stdout, status } = run('hostile', files, '--rpm', '9000', '--set', 'run.maxCycles=2');
    expect(status).toBe(4);
    expect(stdout).toContain('<script>alert(1)</script> & "Söhne"');
    expect(text('hostile', 'compare.csv')).toMatch(/^"'=HYPERLINK\(""x""\) · .*",9000,/m);
    expect(text('hostile', 'compare.html')).not.toContain('<script>alert(1)');
    expect(text('hostile', 'compare.html')).toContain('&lt;script&gt;');
  });
});

describe('refused before anything runs', () => {
  test.each([
    ['one case', ['a'], [], /two to 8 drafts; 1 named[\s\S]*--against base/],
    ['nine cases', [...'aabbccaab'], [], /two to 8 drafts; 9 named/],
    ['a base of two cases', ['a', 'b'], ['--against', 'base'], /--against base takes one case/],
    ['a band beyond the speeds', ['a', 'b'], ['--band', '8000:10000'], /reaches beyond the speeds/],
    ['a band upside down', ['a', 'b'], ['--band', '10000:9000'], /lower speed first/],
  ] as const)('%s', (_, letters, more, message) => {
    const { status, stderr } = run('refused', letters.map(demo), ...more);
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
  });
});

/**
 * Names from a case file are text wherever they come out: in pages, drawings, tables for a spreadsheet and on the
 * terminal. A case whose names are mark-up, formulas and control sequences goes through the built program.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Bench, hasBrowser, openBrowser, openFile } from '../browser/browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-hostile-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const mark = '<script>alert(1)</script> & "Söhne"';
const formula = '=1+1';
/** Colours, a bell, a jump to the top left, the end of a string, and the mark that turns text round. */
const control = '\u001b[31mred\u0007\u001b[H\u009b2J\u202egnp';
const escaped = '&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot;';

// JSON is YAML: the names go in as they are.
const named = (name: string): string => JSON.stringify(name);
const pipe = `
kind: pipe
name: ${named(mark)}
sections:
  - { name: ${named(mark)}, role: header, length: 230 mm, diameter: [36 mm, 40 mm] }
  - { name: ${named(formula)}, role: diffuser, length: 280 mm, to: 70 mm }
  - { name: ${named('&amp; 排気管')}, role: belly, length: 110 mm, diameter: same }
  - { name: ${named('</style><img src=x onerror=alert(1)>')}, role: baffle, length: 240 mm, to: 27 mm }
  - { name: ${named("'+cmd|' /C calc'!A0")}, role: stinger, length: 240 mm, diameter: same }
`;
const subject = `
kind: case
name: ${named(`${formula} ${mark}`)}
note: ${named(mark)}
engine: ${named(join(root, 'cases/saltmarsh-125/engine.yaml'))}
pipe: pipe.yaml
run: { speeds: [9500 rpm, 10000 rpm], cell: 16 mm, maxCycles: 2 }
`;
const pulse = `
kind: pulse
name: ${named(mark)}
gas: { gamma: 1.4, gasConstant: 287 J/(kg K) }
ambient: { pressure: 1 bar, temperature: 300 K }
sections: [ { name: ${named(mark)}, length: 200 mm, diameter: 40 mm, pressure: 1.2 bar } ]
leftEnd: closed
rightEnd: open
probes: [ { name: ${named(formula)}, at: 50 mm }, { name: ${named(`@${mark}, two`)}, at: 60 mm } ]
until: 1 ms
sampleEvery: 50 us
cell: 5 mm
`;

interface Said {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}
const said: Record<string, Said> = {};
const echocone = (...words: string[]): Said =>
  spawnSync(process.execPath, [join(root, 'dist/src/main.js'), ...words], { cwd: folder, encoding: 'utf8' });
const written = (file: string): string => readFileSync(join(folder, file), 'utf8');

let bench: Bench;
beforeAll(async () => {
  writeFileSync(join(folder, 'pipe.yaml'), pipe);
  writeFileSync(join(folder, 'case.yaml'), subject);
  writeFileSync(join(folder, 'pulse.yaml'), pulse);
  mkdirSync(join(folder, 'out'));
  said.check = echocone('check', 'case.yaml');
  said.sweep = echocone('sweep', 'case.yaml', '--threads', '1', '--out', 'out/sweep');
  said.compare = echocone('compare', 'case.yaml', 'case.yaml', '--threads', '1', '--out', 'out/compare');
  said.unroll = echocone('unroll', 'case.yaml', '--out', 'out/unroll');
  said.pulse = echocone('pulse', 'pulse.yaml', '--out', 'out/pulse');
  if (hasBrowser) bench = await openBrowser();
});
afterAll(() => bench?.close());

const verbs = ['check', 'sweep', 'compare', 'unroll', 'pulse'];

describe('on the terminal', () => {
  test.each(verbs)('%s ends as it should and prints no control character', (verb) => {
    const { status, stdout, stderr } = said[verb] as Said;
    // Two cycles have not settled.
    expect(status, stderr).toBe(verb === 'sweep' || verb === 'compare' ? 4 : 0);
    for (const text of [stdout, stderr]) {
      expect(text.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
      expect(text).not.toContain('\u202e');
    }
  });

  test('names are shown as they are', () => {
    expect(said.sweep?.stdout).toContain(mark);
    expect(said.check?.stdout).toContain(formula);
  });

  test.each([
    ['written as escapes', named(control)],
    ['as they are', `"${control}"`],
  ])('control characters %s are refused, and not passed on by the message', (_, name) => {
    writeFileSync(join(folder, 'control.yaml'), subject.replace(/^name: .*$/m, `name: ${name}`));
    const { status, stdout, stderr } = echocone('sweep', 'control.yaml', '--out', 'out/control');
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^control\.yaml:3:\d+: /);
    expect(stderr.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
    expect(stderr).not.toContain('\u202e');
  });
});

describe.runIf(hasBrowser)('in pages', () => {
  test.each(['sweep', 'compare', 'pulse'])('%s shows names as text and runs none of them', async (verb) => {
    const file = `out/${verb}/${verb}.html`;
    const markup = written(file);
    expect(markup).toContain(escaped);
    expect(markup).not.toContain(mark);
    expect(markup).not.toContain('<img src=x');
    const { page, complaints } = await openFile(bench, join(folder, file));
    expect(complaints).toEqual([]);
    expect(await page.locator('body').textContent()).toContain(mark);
    await page.close();
  });

  test('the index lists them as text', () => {
    expect(written('out/index.html')).toContain(escaped);
    expect(written('out/index.html')).not.toContain(mark);
  });
});

describe.runIf(hasBrowser)('in drawings', () => {
  test('names are text, and file names are plain', () => {
    const files = readdirSync(join(folder, 'out/unroll')).filter((name) => name !== 'run.json');
    expect(files).toEqual(
      expect.arrayContaining(['drawing.svg', 'unroll.html', 'print-a4.html', 'sheet-1.dxf']),
    );
    for (const name of files) expect(name).toMatch(/^[a-z0-9.-]+$/);
    const drawings = files
      .filter((name) => name.endsWith('.svg'))
      .map((name) => written(`out/unroll/${name}`));
    expect(drawings.join('')).toContain('&lt;script&gt;');
    for (const svg of drawings) {
      expect(svg).not.toMatch(/<script|<img/);
      expect(svg.replaceAll(/[\n\t]/g, '')).not.toMatch(/\p{Cc}/u);
    }
    const exchange = files
      .filter((name) => name.endsWith('.dxf'))
      .map((name) => written(`out/unroll/${name}`));
    for (const dxf of exchange) expect(dxf.replaceAll(/\r?\n/g, '')).not.toMatch(/\p{Cc}/u);
  });
});

describe('in tables', () => {
  test.each(['sweep/sweep.csv', 'compare/compare.csv', 'pulse/probes.csv', 'pulse/profiles.csv'])(
    'no field of %s begins as a formula',
    (file) => {
      const fields = fieldsOf(written(`out/${file}`));
      const formulas = fields.filter(
        (field) => /^[=+\-@\t\r]/.test(field) && !Number.isFinite(Number(field)),
      );
      expect(formulas).toEqual([]);
    },
  );

  test('names in a heading are kept, led by an apostrophe where they would be formulas', () => {
    const heads = fieldsOf(written('out/pulse/probes.csv').split('\n')[0] as string);
    expect(heads).toContain(`'${formula}_pressure_pa`);
    expect(heads).toContain(`'@${mark}, two_pressure_pa`);
    expect(heads).toHaveLength(13);
  });
});

/** The fields of a table after RFC 4180, read by other code than wrote it. */
function fieldsOf(text: string): string[] {
  return [...text.matchAll(/("(?:[^"]|"")*"|[^,\n]*)(?:,|\n|$)/g)]
    .map((found) => found[1] as string)
    .map((field) => (field.startsWith('"') ? field.slice(1, -1).replaceAll('""', '"') : field))
    .slice(0, -1);
}

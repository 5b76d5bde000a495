/**
 * Every command of the README is run, in the order in which it stands there, in a fresh folder that holds the cases.
 * Those that run an engine get a coarse mesh and few cycles on top: what is tested is that they can be typed as they
 * stand, not what comes out. Keys and files that the text names are looked up as well.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import * as verbs from '../../src/commands/frame/verbs.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
};
const folder = mkdtempSync(join(tmpdir(), 'echocone-readme-'));
beforeAll(() => {
  cpSync(join(root, 'cases'), join(folder, 'cases'), { recursive: true });
  // The study of the README, with three drafts in place of forty.
  const study = join(folder, 'cases/studies/baffle-and-stinger.yaml');
  const text = readFileSync(study, 'utf8')
    .replace(/^ {2}- \{ name: stinger .*$/gm, '')
    .replace('step: 20 mm', 'step: 40 mm');
  writeFileSync(study, text);
  // The curve of the README, with two speeds in place of eleven.
  const table = join(folder, 'cases/saltmarsh-125/measured/dyno.csv');
  const [heading, ...lines] = readFileSync(table, 'utf8').split('\n');
  writeFileSync(table, [heading, lines[2], lines[8]].join('\n'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const commands = [...readme.matchAll(/^```sh\n([\s\S]*?)^```$/gm)].flatMap((block) =>
  (block[1] as string).trim().split('\n'),
);

const engine = ['--cell', '24mm', '--set', 'run.maxCycles=2', '--threads', '1'];
/** What is put behind a command so that it ends soon. */
const shorter: Readonly<Record<string, readonly string[]>> = {
  new: [],
  keys: [],
  check: [],
  board: [],
  unroll: [],
  pulse: ['--cell', '10mm'],
  sweep: [...engine, '--rpm', '10000'],
  map: [...engine, '--rpm', '10000', '--duration', '192:200:8'],
  compare: [...engine, '--rpm', '9750:10250:250'],
  aim: [...engine, '--drafts', '3'],
  overnight: engine,
  reconcile: [...engine, '--count', '16'],
  verify: [],
};

/** Words of a line as a shell splits them: blanks, and double quotes about a word. */
const words = (line: string): string[] =>
  (line.match(/(?:[^\s"]|"[^"]*")+/g) ?? []).map((word) => word.replaceAll('"', ''));

describe('commands of the README', () => {
  test('begin with installing and the demo', () => {
    expect(commands.slice(0, 2)).toEqual(['npm ci && npm run demo', 'npm cit']);
    expect(existsSync(join(root, 'package-lock.json'))).toBe(true);
  });

  test('show every verb', () => {
    const shown = new Set(commands.map((line) => words(line)[2]));
    for (const { name } of Object.values(verbs)) expect(shown).toContain(name);
  });

  const demo = (manifest.scripts.demo ?? '').replace('node dist/src/main.js', 'npx echocone');
  // `verify` takes its time, and verify.test.ts runs it whole; `lend` waits for a server, which the tests of queues start.
  const elsewhere = ['npx echocone verify --out runs/verify', 'npx echocone lend --over redis://host:6379'];
  const lines = [demo, ...commands.slice(2)].filter((line) => !elsewhere.includes(line));
  test.each(lines)('%s', (line) => {
    const [npx, program, verb = '', ...rest] = words(line);
    expect([npx, program]).toEqual(['npx', 'echocone']);
    expect(shorter).toHaveProperty(verb);
    const members = rest.includes('--bands') ? ['--bands', '8'] : [];
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(root, 'dist/src/main.js'), verb, ...rest, ...(shorter[verb] ?? []), ...members],
      { cwd: folder, encoding: 'utf8' },
    );
    // Few cycles on a coarse mesh: 4 says that it has not settled.
    expect(engineVerbs.has(verb) ? [0, 4] : [0], stderr).toContain(status);
    expect(stdout.length).toBeGreaterThan(100);
    const out = rest[rest.indexOf('--out') + 1];
    if (rest.includes('--out')) {
      expect(existsSync(join(folder, out as string))).toBe(true);
      expect(
        existsSync(join(folder, out as string, `${verb === 'reconcile' ? 'reconciled' : verb}.html`)),
      ).toBe(true);
    }
  });

  test('leave an index that lists the runs', () => {
    const runs = lines.filter((line) => line.includes('--out'));
    const index = readFileSync(join(folder, 'runs/index.html'), 'utf8');
    expect(index.match(/<a href=/g)).toHaveLength(runs.length);
  });
});

const engineVerbs = new Set(['sweep', 'map', 'compare', 'aim', 'overnight']);

describe('what the README names', () => {
  test('are files that exist', () => {
    const links = [...readme.matchAll(/\]\(([^)#:]+)\)/g)].map((found) => found[1] as string);
    expect(links.length).toBeGreaterThan(1);
    for (const link of links) expect(existsSync(join(root, link)), link).toBe(true);
  });

  test('are scripts that exist', () => {
    for (const [, name] of readme.matchAll(/npm run ([a-z]+)/g))
      expect(manifest.scripts).toHaveProperty(name as string);
  });

  test('are keys that a case takes', () => {
    const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');
    const pairs = [...readme.matchAll(/`([a-zA-Z]+): ([^`]+)`/g)].map(
      (found) => [found[1], found[2]] as const,
    );
    const paths: Readonly<Record<string, string>> = {
      crownBelowDeck: 'engine.crownBelowDeck',
      roof: 'engine.exhaust.windows.main.roof',
      height: 'engine.exhaust.windows.main.height',
      duration: 'engine.exhaust.windows.main.duration',
      widthAlong: 'engine.exhaust.windows.main.widthAlong',
      compression: 'engine.compression',
      crankcase: 'engine.crankcase',
      passage: 'engine.transfers.passage',
      head: 'engine.head',
      wall: 'pipe.wall',
      sheet: 'pipe.sheet',
      circumference: 'pipe.sections',
    };
    expect(pairs.map(([key]) => key).sort()).toEqual(Object.keys(paths).sort());
    const header = (value: string): string =>
      `[{ name: header, length: 400 mm, circumference: ${value}, step: true }]`;
    const given = pairs.map(
      ([key, value]) =>
        `${paths[key as string]}=${key === 'circumference' ? header(value as string) : value}`,
    );
    // Roof and duration say the same thing, so each is tried alone.
    // A circumference is of the outside, which wants the sheet.
    for (const one of given)
      expect(() => loadCase(draft, { set: ['pipe.sheet=0.8 mm', one] }), one).not.toThrow();
  });

  test('holds a table of the demo and its pictures, small', () => {
    expect(readme).toMatch(/<!-- table of the demo -->\n```text\n[^`]*\n> +\d+ [^`]*\n```\n/);
    for (const [, picture] of readme.matchAll(/!\[[^\]]{20,}\]\(([^)]+)\)/g))
      expect(readFileSync(join(root, picture as string)).length).toBeLessThan(150_000);
  });
});

/**
 * The packed program, installed in a fresh folder: the verbs run on the packed cases, the solver is imported alone,
 * and the tarball holds what runs and nothing else. No script of the package runs: the build stands.
 */

import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-package-'));
const home = join(folder, 'home');
const installed = join(home, 'node_modules/echocone');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Room for a slow registry: a fresh machine has nothing in npm's cache. */
const patience = 180_000;

const echocone = (...words: string[]) =>
  spawnSync('npx', ['--no-install', 'echocone', ...words], { cwd: home, encoding: 'utf8' });

let packed: readonly string[] = [];
beforeAll(() => {
  const told = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    cwd: root,
    encoding: 'utf8',
  });
  const [tarball] = JSON.parse(told) as readonly [{ filename: string; files: { path: string }[] }];
  packed = tarball.files.map(({ path }) => path);
  mkdirSync(home);
  writeFileSync(join(home, 'package.json'), '{ "name": "workshop", "private": true, "type": "module" }\n');
  execFileSync(
    'npm',
    ['install', '--prefer-offline', '--no-audit', '--no-fund', join(folder, tarball.filename)],
    {
      cwd: home,
      stdio: 'pipe',
    },
  );
}, patience);

describe('the tarball', () => {
  test('holds the program, the solver with its types, schemas, cases, licence', () => {
    for (const file of [
      'dist/src/main.js',
      'dist/src/study/work/worker.js',
      'dist/src/study/work/thread.cjs',
      'dist/solver/index.js',
      'dist/solver/index.d.ts',
      'dist/solver/scheme/two-lane/two-lane-kernel.js',
      'dist/plots/bundle/sweep-page.js',
      'dist/schema/engine.json',
      'cases/saltmarsh-125/draft-a.yaml',
      'LICENSE',
      'README.md',
    ])
      expect(packed).toContain(file);
  });

  test('holds no sources, tests, build notes or runs', () => {
    const strays = packed.filter(
      (path) =>
        /\.tsbuildinfo$|\.map$|\.test\.|(^|\/)(tests|runs|build|\.ci)\//.test(path) ||
        (path.endsWith('.ts') && !path.startsWith('dist/solver/')),
    );
    expect(strays).toEqual([]);
  });

  test('brings no tool of development along', () => {
    const modules = readdirSync(join(home, 'node_modules'));
    for (const name of ['typescript', 'vitest', '@biomejs', 'esbuild', 'playwright-core', 'axe-core'])
      expect(modules).not.toContain(name);
  });
});

describe('installed elsewhere', () => {
  test('says its version', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(echocone('--version').stdout).toBe(`${version}\n`);
  });

  test('checks a packed case', () => {
    const { status, stdout } = echocone('check', join(installed, 'cases/saltmarsh-125/draft-a.yaml'));
    expect(status).toBe(0);
    expect(stdout).toContain('header');
  });

  test('lets a packed pulse go and draws its page', () => {
    const { status, stderr } = echocone(
      'pulse',
      join(installed, 'cases/pulse/shock-tube.yaml'),
      '--cell',
      '10mm',
      '--out',
      'runs/tube',
    );
    expect(stderr).not.toMatch(/^\s+at /m);
    expect(status).toBe(0);
    expect(readFileSync(join(home, 'runs/tube/pulse.html'), 'utf8')).toContain('<script>');
  });

  test('runs an engine on worker threads', () => {
    const words = ['--rpm', '10000', '--cell', '15mm', '--set', 'run.maxCycles=3', '--threads', '2'];
    const draft = join(installed, 'cases/saltmarsh-125/draft-a.yaml');
    const { status, stdout } = echocone('sweep', draft, ...words, '--json', '--out', 'runs/engine');
    // Three cycles cannot have settled.
    expect(status).toBe(4);
    expect(JSON.parse(stdout).rows).toHaveLength(1);
  });

  test('lends its solver to a script, with types', () => {
    writeFileSync(
      join(home, 'tube.mjs'),
      `import { GasModel, meshTapers, Network, newDuct } from 'echocone/solver';
const gas = GasModel.perfectGas(1.4, 287);
const tube = newDuct('conservative', 'tube', gas, meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 50));
for (let i = 0; i < 50; i++) tube.setCell(i, i < 25 ? 2e5 : 1e5, 300, 0);
const links = [{ kind: 'closed', end: tube.left }, { kind: 'closed', end: tube.right }];
const network = new Network([tube], [], links, 0.8);
for (let step = 0; step < 20; step++) network.step(1);
console.log(tube.left.constructor.name, network.time > 0);
`,
    );
    const { stdout, stderr } = spawnSync(process.execPath, ['tube.mjs'], { cwd: home, encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toBe('DuctEnd true\n');
    expect(readFileSync(join(installed, 'dist/solver/index.d.ts'), 'utf8')).toContain('newDuct');
  });

  test('keeps everything else to itself', () => {
    const { status, stderr } = spawnSync(
      process.execPath,
      ['--input-type=module', '-e', "import 'echocone/dist/src/main.js'"],
      { cwd: home, encoding: 'utf8' },
    );
    expect(status).not.toBe(0);
    expect(stderr).toContain('ERR_PACKAGE_PATH_NOT_EXPORTED');
  });
});

// Puts the compiled program into few files, which load in half the time of some two hundred: the start, whole in `main.js`; what it
// loads later, the verbs above all, each in a part; what threads run; and what several of these share. What is large and seldom
// wanted, or finds files of its own, stays a package. What the compiler wrote stays beside them, for tests and studies.
import { rmSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const source = (file) => fileURLToPath(new URL(file, import.meta.url));
const compiled = source('../dist/src');
const usual = {
  outdir: compiled,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minifyWhitespace: true,
  minifySyntax: true,
  logLevel: 'warning',
  external: ['#two-lane-kernel', 'bullmq', 'mathjs', 'piscina', 'plotly.js-dist-min'],
  // Commander asks for Node's modules by require.
  banner: {
    js: "import{createRequire as requires}from'node:module';const require=requires(import.meta.url);",
  },
};

/** Entries of the parts, by the place that they are written to: what the start imports by name, as it turns out. */
const parts = { 'study/work/worker': source('study/work/worker.ts') };

const later = {
  name: 'later',
  setup(builder) {
    builder.onResolve({ filter: /^\./ }, ({ kind, path, importer }) => {
      if (kind !== 'dynamic-import') return undefined;
      const name = `parts/${basename(path, '.ts')}`;
      parts[name] = resolve(dirname(importer), path);
      return { path: `./${name}.js`, external: true };
    });
  },
};

rmSync(`${compiled}/parts`, { recursive: true, force: true });
await build({ ...usual, entryPoints: { main: source('main.ts') }, plugins: [later] });
await build({ ...usual, entryPoints: parts, splitting: true, chunkNames: 'parts/[name]-[hash]' });

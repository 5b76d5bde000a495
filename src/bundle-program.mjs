// Puts the compiled program into few files, which load in half the time of some two hundred: the command line, a part for each verb,
// what threads run, and what several of these share. What is large and seldom wanted, or finds files of its own, stays a package.
// The files that the compiler wrote stay beside them, for tests and studies.
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const source = (file) => fileURLToPath(new URL(file, import.meta.url));
const compiled = source('../dist/src');

rmSync(`${compiled}/parts`, { recursive: true, force: true });

await build({
  entryPoints: { main: source('main.ts'), 'study/work/worker': source('study/work/worker.ts') },
  outdir: compiled,
  chunkNames: 'parts/[name]-[hash]',
  splitting: true,
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
});

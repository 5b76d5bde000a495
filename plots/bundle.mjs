// Bundles the pages' browser code: each entry in plots/client becomes one script that a page carries inside it.
import { readdirSync } from 'node:fs';
import { build } from 'esbuild';

const here = new URL('.', import.meta.url).pathname;
const entries = readdirSync(`${here}client`).filter((name) => name.endsWith('-page.ts'));
await build({
  entryPoints: entries.map((name) => `${here}client/${name}`),
  outdir: `${here}../dist/plots/bundle`,
  bundle: true,
  format: 'iife',
  target: 'es2020',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
});
// The board carries the solver and the reader of case files; a page has no files to read.
const noFiles = `${here}client/board/no-files.ts`;
await build({
  entryPoints: [`${here}client/board/board-page.ts`],
  outdir: `${here}../dist/plots/bundle`,
  bundle: true,
  format: 'iife',
  target: 'es2022',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  alias: { 'node:fs': noFiles, 'node:path': noFiles },
});

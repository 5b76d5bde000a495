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

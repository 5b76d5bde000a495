// Puts what every start of the program loads into one file: the command line and commander, in place of some twenty files that
// Node would find and read one by one. A verb's own files stay as they are compiled, and are loaded when it runs.
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));
const compiled = resolve(here, '../dist/src');

/** Leaves what is loaded later outside, by its place beside the compiled start. */
const later = {
  name: 'later',
  setup(builder) {
    builder.onResolve({ filter: /^\./ }, ({ kind, path, importer }) => {
      if (kind !== 'dynamic-import') return undefined;
      const from = relative(here, resolve(dirname(importer), path)).replace(/\.ts$/, '.js');
      return { path: `./${from}`, external: true };
    });
  },
};

await build({
  entryPoints: [resolve(here, 'main.ts')],
  outfile: resolve(compiled, 'main.js'),
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minifyWhitespace: true,
  minifySyntax: true,
  logLevel: 'warning',
  plugins: [later],
  // Commander asks for Node's modules by require.
  banner: { js: "import{createRequire}from'node:module';const require=createRequire(import.meta.url);" },
});

/**
 * Runs the program again and again in one process, so that hundreds of runs need not load and warm it up each time. Asked by
 * messages `{ words }`, answers `{ code, said }`.
 */

import { join } from 'node:path';
import { root } from '../keep.mjs';

const main = join(root, 'dist/src/main.js');
let said = '';
let runs = 0;

process.stdout.write = () => true;
process.stderr.write = (text) => {
  said += text;
  return true;
};
// Every run listens anew.
for (const one of [process, process.stdout, process.stderr]) one.setMaxListeners(0);

process.on('message', async ({ words }) => {
  said = '';
  runs += 1;
  process.argv = [process.argv[0], main, ...words];
  process.exitCode = undefined;
  // Only the first file is loaded afresh; it runs what the words say.
  await import(`${main}?${runs}`);
  const code = process.exitCode ?? 0;
  process.exitCode = undefined;
  process.send({ code, said });
});

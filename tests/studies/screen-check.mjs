/** How often a screen would have dropped a winner of the demo study: all forty drafts through both passes. */

import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cell, folderOf, keep, root } from './keep.mjs';

const demo = readFileSync(join(root, 'cases/studies/baffle-and-stinger.yaml'), 'utf8');
const screens = [
  ['20 mm', '[9500 rpm, 10500 rpm, 11500 rpm]', '25 %'],
  ['20 mm', '[9500 rpm, 11500 rpm]', '25 %'],
];
const results = screens.map(([coarse, speeds, share], index) => {
  const folder = folderOf(`screen-${index + 1}`);
  // Beside the run's folder, which is the study's own.
  const study = `${folder}.yaml`;
  writeFileSync(
    study,
    demo
      .replace('../saltmarsh-125', join(root, 'cases/saltmarsh-125'))
      .replace(
        /^cell: .*$/m,
        `cell: ${cell}\nscreen: { cell: ${coarse}, speeds: ${speeds}, keep: ${share}, check: true }`,
      ),
  );
  const { stdout, status } = spawnSync(
    process.execPath,
    [join(root, 'dist/src/main.js'), 'overnight', study, '--json', '--out', folder],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'], maxBuffer: 1 << 28 },
  );
  if (status !== 0 && status !== 4) throw new Error(`the study ended with ${status}`);
  const { screen, notes } = JSON.parse(stdout);
  return { coarse, speeds, keep: share, ...screen, said: notes.at(-1) };
});
keep('screen-check', { results });

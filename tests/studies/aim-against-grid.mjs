/**
 * Aim started from the demo's pipe that is too long for its target, moving header, belly and baffle lengths, against a
 * brute-force grid of the same quantities. Both are told by the mean torque over the target +- 500 rpm on one mesh.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cell, echocone, flag, folderOf, keep, readJson, root } from './keep.mjs';

const target = Number(flag('--rpm', '11000'));
const draft = join(root, 'cases/saltmarsh-125/draft-c.yaml');
const aimed = folderOf(`aim-${target}`);
const vary = ['header', 'belly', 'baffle'].flatMap((name) => ['--vary', `${name}.length`]);
const seconds = echocone(
  'aim',
  draft,
  '--rpm',
  String(target),
  '--from',
  'draft',
  '--cell',
  cell,
  ...vary,
  '--out',
  aimed,
);
const found = readJson(join(aimed, 'aim.json'));

const grid = folderOf(`grid-${target}`);
// Beside the run's folder, which is the study's own.
const study = `${grid}.yaml`;
writeFileSync(
  study,
  `# The grid that aim is held against. Invented.
kind: study
name: Brute force
case: ${draft}
vary:
  - { path: pipe.sections.header.length, from: 130 mm, to: 330 mm, step: 20 mm }
  - { path: pipe.sections.belly.length, from: 40 mm, to: 140 mm, step: 25 mm }
  - { path: pipe.sections.baffle.length, from: 140 mm, to: 300 mm, step: 40 mm }
speeds: { from: ${target - 500} rpm, to: ${target + 500} rpm, step: 500 rpm }
cell: ${cell}
score:
  - averageTorque: { from: ${target - 500} rpm, to: ${target + 500} rpm }
`,
);
const gridSeconds = echocone('overnight', study, '--set', 'run.maxCycles=30', '--out', grid);
const [best] = readRanking(grid);
const row = found.after.rows.find((one) => one.speed_rpm === target);
keep('aim-against-grid', {
  target,
  aim: {
    seconds,
    mean_torque_nm: found.after.judged.torque,
    given_mean_torque_nm: found.given.judged?.torque ?? null,
    lead_deg: row.plugback_lead_deg,
    window_deg: row.exhaust_closes_deg - row.transfers_close_deg,
    in_window: found.after.judged.outsideDeg === 0,
    lengths_mm: Object.fromEntries(found.changes.map(({ name, after }) => [name, Math.round(1000 * after)])),
    limits: found.limits,
  },
  grid: { seconds: gridSeconds, ...best },
  aim_over_grid: found.after.judged.torque / best.mean_torque_nm,
});

function readRanking(folder) {
  const [head, ...rows] = readFileSync(join(folder, 'ranking.csv'), 'utf8')
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  return rows
    .filter((line) => line[2] === 'scored')
    .map((line) => ({
      drafts: rows.length,
      mean_torque_nm: Number(line[3]),
      lengths_mm: Object.fromEntries([4, 5, 6].map((k) => [head[k], Number(line[k])])),
    }));
}

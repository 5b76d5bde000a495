/**
 * What the coarse mesh of aim's search costs: pipes drawn over the ranges that aim searches about the demo's draft C, each
 * judged at the target's three speeds on 20, 10 and 5 mm cells, on as many cells for every pipe as aim does. Told are how far
 * scores lie apart, how alike they rank, and what is lost on 5 mm by building the best of 20 mm, or the best of its first four.
 * `--drafts 24`, `--cells 20,10,5`; finished pipes are kept in the folder and not run again.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { flag, folderOf, keep, root } from './keep.mjs';

const dist = (file) => import(join(root, 'dist/src', file));
const { loadCase } = await dist('case/load.js');
const { sobolSequence } = await dist('study/search/sobol.js');
const { aimQuantities, pipeAt, pointOf } = await dist('study/aim/quantities.js');
const { cellCount, meshed } = await dist('study/aim/mesh.js');
const { judgedSpeeds } = await dist('study/aim/objective.js');
const { judgeOf } = await dist('study/aim/judge.js');
const { runDraft } = await dist('study/work/draft.js');

const target = 11_000;
const count = Number(flag('--drafts', '24'));
const cells = flag('--cells', '20,10,5').split(',').map(Number);
/** About the header trim that serves the target: the pipes that a search compares in earnest. */
const subject = loadCase(join(root, 'cases/saltmarsh-125/draft-c.yaml'), {
  set: ['pipe.sections.header.length=180 mm'],
});
const quantities = aimQuantities(subject.pipe, []);
const centre = pointOf(subject.pipe, quantities);
const sobol = sobolSequence(quantities.length, count, 1);
const points = Array.from({ length: count }, (_, k) =>
  sobol.at(k).map((x, i) => Math.min(1, Math.max(0, centre[i] + 0.4 * (x - 0.5)))),
);
const judge = judgeOf({ subject, target, rules: true }, 20, subject.pipe);
const store = `${folderOf('aim-screen')}.json`;
const done = existsSync(store) ? JSON.parse(readFileSync(store, 'utf8')) : {};
for (const cell of cells)
  for (const [k, point] of points.entries()) {
    const name = `${cell}/${k}`;
    if (done[name] !== undefined) continue;
    const pipe = pipeAt(subject.pipe, quantities, point);
    const mesh = { cells: cellCount(subject, cell / 1000), speeds: judgedSpeeds(target), quick: cell === 20 };
    const judged = judge(runDraft({ draft: '', subject: meshed(subject, pipe, mesh) }), pipe);
    done[name] = judged === null ? null : { score: judged.score, torque: judged.torque };
    writeFileSync(store, JSON.stringify(done));
  }

const finest = Math.min(...cells);
const at = (cell) => points.map((_, k) => done[`${cell}/${k}`]?.score ?? Number.NaN);
const ranks = (values) => values.map((value) => values.filter((other) => other > value).length);
const fine = at(finest);
const best = Math.max(...fine);
const meshes = cells.map((cell) => {
  const values = at(cell);
  const [a, b] = [ranks(values), ranks(fine)];
  const n = values.length;
  const square = a.reduce((sum, rank, k) => sum + (rank - b[k]) ** 2, 0);
  const torques = points.map((_, k) => done[`${cell}/${k}`].torque / done[`${finest}/${k}`].torque - 1);
  const order = values.map((_, k) => k).sort((i, j) => values[j] - values[i]);
  return {
    cell_mm: cell,
    rank_correlation: 1 - (6 * square) / (n * (n * n - 1)),
    torque_error_mean_percent: (100 * torques.reduce((sum, one) => sum + one, 0)) / n,
    torque_error_worst_percent: 100 * Math.max(...torques.map(Math.abs)),
    lost_by_its_best_percent: 100 * (1 - fine[order[0]] / best),
    lost_by_best_of_its_first_four_percent:
      100 * (1 - Math.max(...order.slice(0, 4).map((k) => fine[k])) / best),
  };
});
keep('aim-screen', {
  cell: undefined,
  target,
  drafts: count,
  finest_mm: finest,
  best_score_nm: best,
  meshes,
});

/**
 * Transfer passages lumped into their windows and as ducts: how far the two differ on the demo, draft A, in torque, middle of the
 * wave, delivery, and the burnt share of what enters the cylinder through the transfers.
 * `node tests/studies/transfer-ducts.mjs --cell 10mm`
 */

import { join } from 'node:path';
import { loadCase } from '../../dist/src/case/load.js';
import { runGroup } from '../../dist/src/study/work/run-sweep.js';
import { flag, keep, root } from './keep.mjs';

const cell = flag('--cell', '10mm');
const speeds = [4000, 5000, 6000, 7000, 8000, 9000, 10_000, 10_500, 10_750, 11_000, 12_000];

function rowsAs(kind) {
  const set = [`run.cell=${cell}`, `engine.transfers.passage.as=${kind}`];
  const read = loadCase(join(root, 'cases/saltmarsh-125/draft-a.yaml'), { set });
  const subject = { ...read, run: { ...read.run, targetSpeed: null, speeds } };
  return runGroup({ subject, speeds, brief: true }).records.map(({ row }) => row);
}

const round = (value, digits) => Number(value.toFixed(digits));
const [lumped, ducts] = [rowsAs('lumped'), rowsAs('duct')];
keep('transfer-ducts', {
  cell,
  found: lumped.map((row, k) => {
    const pair = (column, digits) => [row, ducts[k]].map((one) => round(one[column], digits));
    return {
      rpm: row.speed_rpm,
      settled: row.settled && ducts[k].settled,
      torque_nm: pair('torque_nm', 2),
      torque_percent: round(100 * (ducts[k].torque_nm / row.torque_nm - 1), 1),
      middle_deg: pair('plugback_centroid_deg', 1),
      delivery: pair('delivery_ratio', 3),
      blown_back: pair('transfer_backflow_ratio', 3),
      burnt_share: pair('transfer_burnt_share', 4),
    };
  }),
});

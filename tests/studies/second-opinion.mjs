/**
 * The second opinion on the demo: draft A over speeds in the band and beyond by the conservative method of characteristics and by
 * the finite-volume scheme, on the same cells. Wanted on 2.5 mm: torque within 1 %, the wave's middle within 0.5 degrees. Where
 * torque changes by a tenth within 250 rpm, what is between them over the slope, as a shift of speed, is said too.
 * `node tests/studies/second-opinion.mjs --cell 2.5mm`
 */

import { join } from 'node:path';
import { loadCase } from '../../dist/src/case/load.js';
import { runGroup } from '../../dist/src/study/work/run-sweep.js';
import { flag, keep, root } from './keep.mjs';

const cell = flag('--cell', '2.5mm');
const speeds = Array.from({ length: 21 }, (_, k) => 8000 + 250 * k);

function rowsBy(scheme) {
  const set = [`run.cell=${cell}`, `run.scheme=${scheme}`];
  const read = loadCase(join(root, 'cases/saltmarsh-125/draft-a.yaml'), { set });
  const subject = { ...read, run: { ...read.run, targetSpeed: null, speeds } };
  return runGroup({ subject, speeds, brief: true }).records.map(({ row }) => row);
}

const round = (value, digits) => Number(value.toFixed(digits));
const [first, second] = [rowsBy('conservative'), rowsBy('finite-volume')];
const found = first.map((row, k) => {
  const other = second[k];
  const torque = 100 * (other.torque_nm / row.torque_nm - 1);
  const slope = ((first[k + 1] ?? row).torque_nm - (first[k - 1] ?? row).torque_nm) / row.torque_nm;
  return {
    rpm: row.speed_rpm,
    settled: row.settled && other.settled,
    torque_nm: [round(row.torque_nm, 3), round(other.torque_nm, 3)],
    torque_percent: round(torque, 2),
    middle_deg: [round(row.plugback_centroid_deg, 2), round(other.plugback_centroid_deg, 2)],
    middle_apart_deg: round(other.plugback_centroid_deg - row.plugback_centroid_deg, 2),
    delivery: [round(row.delivery_ratio, 4), round(other.delivery_ratio, 4)],
    worth_rpm: Math.abs(slope) > 0.1 ? round((5 * torque) / slope, 0) : null,
  };
});
keep('second-opinion', {
  cell,
  worst_torque_percent: Math.max(...found.map((one) => Math.abs(one.torque_percent))),
  worst_middle_deg: Math.max(...found.map((one) => Math.abs(one.middle_apart_deg))),
  found,
});

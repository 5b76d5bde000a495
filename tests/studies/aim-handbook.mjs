/** Aim started from handbook proportions for three invented singles: does it improve on the handbook's pipe at the target? */

import { join } from 'node:path';
import { cell, echocone, flag, folderOf, keep, readJson, root } from './keep.mjs';

const singles = [
  ['bench-50/case.yaml', 12_500],
  ['saltmarsh-125/draft-a.yaml', 11_000],
  ['bench-250/case.yaml', 8500],
];
const drafts = flag('--drafts', '120');
const results = singles.map(([path, target]) => {
  const folder = folderOf(`handbook-${path.split('/')[0]}`);
  const file = join(root, 'cases', path);
  const seconds = echocone(
    ...['aim', file, '--rpm', String(target), '--from', 'handbook', '--cell', cell],
    ...['--drafts', drafts, '--out', folder],
  );
  const { start, after, limits, gasTemperature, end } = readJson(join(folder, 'aim.json'));
  const at = ({ rows }) => rows.find((one) => one.speed_rpm === target);
  return {
    case: path,
    target,
    seconds,
    gas_temperature_k: gasTemperature,
    handbook_mean_torque_nm: start.judged?.torque ?? null,
    aimed_mean_torque_nm: after.judged?.torque ?? null,
    improves: (after.judged?.torque ?? 0) > (start.judged?.torque ?? 0),
    handbook_lead_deg: at(start)?.plugback_lead_deg ?? null,
    aimed_lead_deg: at(after)?.plugback_lead_deg ?? null,
    in_window: after.judged?.outsideDeg === 0,
    limits,
    end,
  };
});
keep('aim-handbook', { drafts: Number(drafts), results });

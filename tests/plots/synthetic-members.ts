/** SYNTHETIC: invented members of the invented sweep, for tests of pages only. No number here is a result. */

import { type BandsAnswer, bandsAnswer } from '../../src/findings/answers/bands.ts';
import type { MemberSweep } from '../../src/findings/member-bands.ts';
import { type DraftChances, draftChances } from '../../src/findings/member-chances.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { namer } from './synthetic-names.ts';

/** Members that differ in torque, and whose wave comes earlier or later by some degrees. */
export function syntheticMembers(rows: readonly SweepRow[], count = 40, gain = 0): readonly MemberSweep[] {
  return Array.from({ length: count }, (_, member) => {
    const share = (member + 0.5) / count - 0.5;
    const later = 12 * (((member * 17) % count) / count - 0.5);
    return {
      member,
      rows: rows.map((row) => ({
        ...row,
        settled: true,
        torque_nm: row.torque_nm === null ? null : row.torque_nm * (1 + 0.2 * share) + gain,
        power_kw: row.power_kw === null ? null : row.power_kw * (1 + 0.2 * share) + gain,
        plugback_centroid_deg: row.plugback_centroid_deg === null ? null : row.plugback_centroid_deg + later,
      })),
      failures: member === 3 ? [{ speedRpm: 9000, reason: 'negative pressure' }] : [],
      refused: '',
    };
  });
}

export function syntheticSure(
  rows: readonly SweepRow[],
  targetSpeed: number | null,
  hostile = false,
): BandsAnswer {
  const name = namer(hostile);
  const share = (path: string, of: number, error = 0.06) => ({ path, share: of, error, together: '' });
  const of = (answer: 'torque_nm' | 'works_from_rpm' | 'works_to_rpm' | 'best_power_kw', wall: number) => ({
    answer,
    speed_rpm: answer === 'torque_nm' ? targetSpeed : null,
    count: 40,
    shares: [
      share('pipe.wall.given.flange', wall),
      share('engine.combustion.duration', 0.2),
      share('pipe.roughness', 0.02),
    ],
  });
  return bandsAnswer(syntheticMembers(rows), {
    speeds: rows.map(({ speed_rpm }) => speed_rpm),
    targetSpeed,
    cell: 0.01,
    inputs: [
      {
        path: 'pipe.wall.given.flange',
        unit: 'degC',
        central: 450,
        p05: 368,
        p95: 532,
        why: 'assumed',
        reason: name('synthetic reason'),
      },
      {
        path: 'engine.combustion.duration',
        unit: 'deg',
        central: null,
        p05: 45.8,
        p95: 59.2,
        why: 'members file',
        reason: 'as the file of members has it',
      },
    ],
    drivers: [
      of('torque_nm', 0.3),
      of('works_from_rpm', 0.2),
      of('works_to_rpm', 0.5),
      of('best_power_kw', 0.02),
    ],
  });
}

export function syntheticChances(
  drafts: readonly { readonly name: string; readonly rows: readonly SweepRow[] }[],
): readonly DraftChances[] {
  const members = drafts.map(({ name, rows }, k) => ({ name, members: syntheticMembers(rows, 40, 0.1 * k) }));
  const [first, ...others] = members;
  if (first === undefined) return [];
  return others.map((one) => draftChances(one, first, { target: 9500, band: { from: 8000, to: 10_500 } }));
}

/**
 * What drives the width of the bands: for torque at the speed of interest, the edges of the working band and the best power, the share
 * of the members' variance that goes with each input alone (`search/correlation-ratio.ts`).
 */

import { curveOf, valueAt } from '../../findings/curve.ts';
import { type MemberSweep, memberFigures, settledRows } from '../../findings/member-bands.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { AnswerDrivers, InputShare } from '../../findings/width-drivers.ts';
import { correlationRatio, correlationRatioError } from '../search/correlation-ratio.ts';
import type { Members } from './members.ts';
import { plausibleRange } from './plausible-ranges.ts';

/** Fewest members that tell anything. */
const LEAST = 16;
/** Members of a group: five groups of 64. */
const PER_GROUP = 12;

type Answer = AnswerDrivers['answer'];
const ANSWERS = ['torque_nm', 'works_from_rpm', 'works_to_rpm', 'best_power_kw'] as const;

function answersOf(rows: readonly SweepRow[], speed: number | null): Readonly<Record<Answer, number | null>> {
  const torque_nm = speed === null ? null : valueAt(curveOf(rows, 'torque_nm'), speed);
  return { torque_nm, ...memberFigures(rows) };
}

/** @param speed of interest, for torque [rpm]; null: none */
export function widthDrivers(
  members: Members,
  sweeps: readonly MemberSweep[],
  speed: number | null,
): readonly AnswerDrivers[] {
  const read = sweeps.map((sweep) => ({
    member: sweep.member,
    answers: answersOf(settledRows(sweep), speed),
  }));
  return ANSWERS.flatMap((answer) => {
    const known = read.flatMap(({ member, answers }) => {
      const value = answers[answer];
      return value === null ? [] : [{ member, value }];
    });
    if (known.length < LEAST) return [];
    const speed_rpm = answer === 'torque_nm' ? speed : null;
    return [{ answer, speed_rpm, count: known.length, shares: sharesOf(members, known) }];
  });
}

function sharesOf(
  { paths, values }: Members,
  known: readonly { readonly member: number; readonly value: number }[],
): readonly InputShare[] {
  const scores = known.map(({ value }) => value);
  const shares = paths.flatMap(({ path }, k): readonly InputShare[] => {
    const column = known.map(({ member }) => values[member]?.[k] ?? null);
    if (column.some((value) => value === null)) return [];
    const numbers = column as readonly number[];
    const error = correlationRatioError(numbers, scores, PER_GROUP);
    if (error === null) return [];
    const together = plausibleRange(path)?.together?.group(path) ?? '';
    return [{ path, share: correlationRatio(numbers, scores, PER_GROUP), error, together }];
  });
  return shares.sort((a, b) => b.share - a.share || (a.path < b.path ? -1 : 1));
}

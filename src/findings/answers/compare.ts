/** Drafts side by side: each in numbers, what separates it from the first, and who is best. */

import { bandOf, EDGE_STEP, type SpeedSpan } from '../band.ts';
import { type BestOfDrafts, bestOf } from './compare-best.ts';
import { type DraftDifference, differenceBetween } from './compare-difference.ts';
import { sharedDrafts } from './compare-shared.ts';
import { type ComparedDraft, less, type NamedRows, summarise } from './compare-summary.ts';
import { type TargetAnswer, targetAnswer } from './compare-target.ts';

/** Drafts that one comparison takes at most. */
export const MOST_DRAFTS = 8;

/** Half the range of the mean where only a target is stated [rpm]. */
const HALF_RANGE = 1000;

/** A draft of which speeds have no row: they failed, or were not run. */
export interface UnfinishedDraft {
  readonly name: string;
  readonly missing: readonly number[];
  /** Speeds that it has rows of. */
  readonly done: number;
}

export interface CompareAnswer {
  readonly targetSpeed: number | null;
  /** Range of the mean torque [rpm]. */
  readonly band: SpeedSpan | null;
  readonly drafts: readonly ComparedDraft[];
  readonly target: TargetAnswer | null;
  /** Those that share the most power and the broadest torque; null: no two drafts have a speed in common. */
  readonly best: BestOfDrafts | null;
  /** What separates each but the first of those with rows from that first, over the speeds that all were run over. */
  readonly differences: readonly (DraftDifference & { readonly name: string; readonly from: string })[];
  /** What is judged is not what was asked for. */
  readonly unfinished: readonly UnfinishedDraft[];
}

/** @param stated range of the mean; null: about the target, or the first draft's band of torque */
export function compareAnswer(
  drafts: readonly NamedRows[],
  targetSpeed: number | null,
  stated: SpeedSpan | null,
): CompareAnswer {
  const band = stated ?? usualRange(drafts, targetSpeed);
  const summaries = drafts.map((draft) => summarise(draft, targetSpeed, band));
  const first = summaries[0];
  const compared = summaries.map(({ summary, ...rest }, k) => ({
    summary,
    ...rest,
    lessFirst: k === 0 || first === undefined ? null : less(summary, first.summary),
  }));
  const shared = sharedDrafts(drafts, targetSpeed);
  const [base, ...others] = shared.drafts ?? [];
  return {
    targetSpeed,
    band,
    drafts: compared,
    target: targetSpeed === null ? null : targetAnswer(drafts, targetSpeed),
    best: shared.drafts === null ? null : bestOf(shared.drafts, shared.over),
    differences:
      base === undefined
        ? []
        : others.map(({ summary }) => ({
            name: summary.name,
            from: base.summary.name,
            ...differenceBetween(base.summary, summary),
          })),
    unfinished: drafts.flatMap(({ name, rows, asked = [] }) => {
      const missing = asked.filter((speed) => rows.every((row) => row.speed_rpm !== speed));
      return missing.length === 0 ? [] : [{ name, missing, done: rows.length }];
    }),
  };
}

/** As far as all drafts cover it. The edges of a band are taken as they are printed, so that the mean is of what is said. */
function usualRange(drafts: readonly NamedRows[], target: number | null): SpeedSpan | null {
  const held = target === null ? bandOf(drafts[0]?.rows ?? [], 'torque_nm') : null;
  const wanted =
    target === null
      ? held && { from: toStep(held.from, Math.ceil), to: toStep(held.to, Math.floor) }
      : { from: target - HALF_RANGE, to: target + HALF_RANGE };
  if (wanted === null) return null;
  const run = drafts.filter(({ rows }) => rows.length > 0);
  const from = Math.max(wanted.from, ...run.map(({ rows }) => rows[0]?.speed_rpm ?? 0));
  const to = Math.min(wanted.to, ...run.map(({ rows }) => rows.at(-1)?.speed_rpm ?? 0));
  return to > from ? { from, to } : null;
}

const toStep = (speed: number, round: (value: number) => number): number =>
  EDGE_STEP * round(speed / EDGE_STEP);

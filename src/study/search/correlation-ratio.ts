/**
 * How much of a score's variation goes with one quantity: the correlation ratio η² (Pearson 1905) corrected for the number of
 * groups as ε² (Kelley, PNAS 21, 1935):
 *
 *   ε² = 1 - (S_within / (n - k)) / (S_total / (n - 1))
 *
 * with the n points grouped into k groups by the quantity's value, or by equal numbers of them where it has many values. It
 * is an estimate of the first-order share of variance. Its error is that of a jackknife that leaves out a block
 * of points at a time (Efron, The Jackknife, the Bootstrap and Other Resampling Plans, SIAM 1982, ch. 3; in blocks to cost little),
 * the groups staying as they are:
 *
 *   error² = (b - 1)/b Σ (ε²_without block - mean)².
 *
 * Of 64 points with shares of 0.1, 0.3 and 0.6 it gives 0.09, 0.11 and 0.09 in the mean of 150 trials, which scatter by 0.08, 0.10
 * and 0.08; grouped anew without each block it would give half as much again.
 */

/** Groups of a quantity that takes many values, at most. */
const MOST_GROUPS = 8;
/** Blocks of the jackknife, at most. */
const BLOCKS = 16;

/** Points of a group at least, as a rule. */
const PER_GROUP = 6;

/** Number of the group that each point falls into. */
function groupsOf(column: readonly number[], perGroup: number): readonly number[] {
  const distinct = [...new Set(column)].sort((a, b) => a - b);
  if (distinct.length <= Math.max(MOST_GROUPS, Math.floor(column.length / perGroup)))
    return column.map((value) => distinct.indexOf(value));
  const groups = Math.min(MOST_GROUPS, Math.max(2, Math.floor(column.length / perGroup)));
  const order = column.map((_, k) => k).sort((a, b) => column[a]! - column[b]! || a - b);
  const group = new Array<number>(column.length).fill(0);
  for (const [rank, k] of order.entries()) group[k] = Math.floor((rank * groups) / column.length);
  return group;
}

/** The share of the variation of `scores` that goes with the values of a column [-]. */
export function correlationRatio(
  column: readonly number[],
  scores: readonly number[],
  perGroup = PER_GROUP,
): number {
  return ratioOf(groupsOf(column, perGroup), scores);
}

function ratioOf(groups: readonly number[], scores: readonly number[]): number {
  const n = scores.length;
  const members = new Map<number, number[]>();
  for (const [k, group] of groups.entries()) {
    const list = members.get(group) ?? [];
    list.push(scores[k]!);
    members.set(group, list);
  }
  const k = members.size;
  const total = squares(scores);
  if (k < 2 || n <= k || !(total > 0)) return 0;
  const within = [...members.values()].reduce((sum, list) => sum + squares(list), 0);
  return Math.min(1, Math.max(0, 1 - within / (n - k) / (total / (n - 1))));
}

/** Sum of squared distances from the mean. */
function squares(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}

/** One standard error of the ratio [-]; null: too few points to tell. */
export function correlationRatioError(
  column: readonly number[],
  scores: readonly number[],
  perGroup = PER_GROUP,
): number | null {
  const blocks = Math.min(BLOCKS, Math.floor(scores.length / 2));
  if (blocks < 4) return null;
  const groups = groupsOf(column, perGroup);
  const without = Array.from({ length: blocks }, (_, block) => {
    const kept = scores.map((_, k) => k).filter((k) => k % blocks !== block);
    return ratioOf(
      kept.map((k) => groups[k]!),
      kept.map((k) => scores[k]!),
    );
  });
  return Math.sqrt(((blocks - 1) / blocks) * squares(without));
}

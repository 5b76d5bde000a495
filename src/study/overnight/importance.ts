/**
 * Which quantity the score depends on most: the share of the score's variation that goes with each quantity alone, the
 * correlation ratio η² (Pearson 1905) corrected for the number of groups as ε² (Kelley, PNAS 21, 1935):
 *
 *   ε² = 1 - (S_within / (n - k)) / (S_total / (n - 1))
 *
 * with the drafts grouped into k groups by the quantity's value, or by equal numbers of drafts where it has many values.
 * A quantity that works only together with another shows little here.
 */

export interface Importance {
  readonly name: string;
  readonly share: number;
}

/** Fewest drafts that tell anything. */
const LEAST = 12;
/** Groups of a quantity that takes many values, at most. */
const MOST_GROUPS = 8;

/** `values[draft][quantity]` and the scores of the same drafts. */
export function importanceOf(
  names: readonly string[],
  values: readonly (readonly number[])[],
  scores: readonly number[],
): readonly Importance[] {
  if (scores.length < LEAST) return [];
  return names.map((name, axis) => {
    const column = values.map((row) => row[axis]!);
    return { name, share: correlationRatio(groupsOf(column), scores) };
  });
}

/** Number of the group that each draft falls into. */
function groupsOf(column: readonly number[]): readonly number[] {
  const distinct = [...new Set(column)].sort((a, b) => a - b);
  if (distinct.length <= Math.max(MOST_GROUPS, Math.floor(column.length / 6)))
    return column.map((value) => distinct.indexOf(value));
  const groups = Math.min(MOST_GROUPS, Math.max(2, Math.floor(column.length / 6)));
  const order = column.map((_, k) => k).sort((a, b) => column[a]! - column[b]! || a - b);
  const group = new Array<number>(column.length).fill(0);
  for (const [rank, k] of order.entries()) group[k] = Math.floor((rank * groups) / column.length);
  return group;
}

function correlationRatio(groups: readonly number[], scores: readonly number[]): number {
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

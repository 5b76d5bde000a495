/** What one quantity of a study may be: one of a list, or anything in a range, in steps if they are given. SI. */

export type Axis =
  | { readonly kind: 'list'; readonly values: readonly number[] }
  | { readonly kind: 'range'; readonly from: number; readonly to: number; readonly step: number | null };

/** Points of a study by their number, made when asked for: nothing is kept for the others. */
export interface Sample {
  readonly count: number;
  /** Values of the quantities, one an axis, of the point with this number in [0, count). */
  at(index: number): readonly number[];
}

/** All points of a sample in order. */
export function* pointsOf(sample: Sample): Generator<readonly number[]> {
  for (let index = 0; index < sample.count; index += 1) yield sample.at(index);
}

/** How many values an axis has; null for a range without steps. */
export function valueCount(axis: Axis): number | null {
  if (axis.kind === 'list') return axis.values.length;
  if (axis.step === null) return axis.from === axis.to ? 1 : null;
  // The end belongs to the range though the step does not divide it exactly in binary: 0.1 to 0.3 by 0.1 has three.
  return Math.floor((axis.to - axis.from) / axis.step + 1e-9) + 1;
}

/** Value with this number on an axis that has a list or steps. */
export function valueAt(axis: Axis, index: number): number {
  if (axis.kind === 'list') return axis.values[index]!;
  const value = axis.from + index * (axis.step ?? 0);
  return Math.min(value, axis.to);
}

/** Value at a share in [0, 1) of an axis: every value of a list, and every step, takes an equal share. */
export function valueAtShare(axis: Axis, share: number): number {
  const count = valueCount(axis);
  if (count !== null) return valueAt(axis, Math.min(Math.floor(share * count), count - 1));
  return axis.kind === 'range' ? axis.from + share * (axis.to - axis.from) : Number.NaN;
}

/** A sample of the unit cube laid over axes. */
export function sampleOver(axes: readonly Axis[], shares: Sample): Sample {
  return {
    count: shares.count,
    at: (index) => shares.at(index).map((share, axis) => valueAtShare(axes[axis]!, share)),
  };
}

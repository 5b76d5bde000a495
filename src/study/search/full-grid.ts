/** The full grid: every value of each axis with every value of the others, the last axis running fastest. */

import { type Axis, type Sample, valueAt, valueCount } from './axis.ts';

export function fullGrid(axes: readonly Axis[]): Sample {
  const counts = axes.map((axis) => {
    const count = valueCount(axis);
    if (count === null) throw new RangeError('A full grid needs a step on every range.');
    return count;
  });
  return {
    count: counts.reduce((product, count) => product * count, 1),
    at(index) {
      const values: number[] = new Array(axes.length);
      let rest = index;
      for (let axis = axes.length - 1; axis >= 0; axis -= 1) {
        const count = counts[axis]!;
        values[axis] = valueAt(axes[axis]!, rest % count);
        rest = Math.floor(rest / count);
      }
      return values;
    },
  };
}

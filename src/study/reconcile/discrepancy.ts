/**
 * Errors of the data and of the model together. A model errs at neighbouring speeds and angles alike, so beside the measuring
 * errors R stands a discrepancy that is correlated over a length L (Kennedy & O'Hagan, J. R. Stat. Soc. B 63 (2001) 425):
 *
 *   C_ij = R_ij + (s δ)² exp(−(x_i − x_j)² / (2 L²)).
 *
 * δ is what a model of this sort is off by as a rule. s is 1 unless the data say more: where they lie further from the members
 * than the members' spread and C allow, s is raised to where the data are likeliest, so that what no input explains makes the
 * answer less certain and bends no input.
 */

import { cholesky, solveLower } from '../ensemble/correlations.ts';
import type { DataGroup, DatumKind } from './question.ts';
import { centred } from './smoother.ts';

/** Share of the largest value, or kelvin; and length of the correlation [rpm, deg, m]. Judgement; common practice, no source. */
const OF_MODEL: Readonly<Record<DatumKind, { readonly size: number; readonly length: number }>> = {
  torque: { size: 0.015, length: 1000 },
  pressure: { size: 0.02, length: 20 },
  gas: { size: 20, length: 0.1 },
  wall: { size: 15, length: 0.1 },
};

/** Times that the model's error may be as large as a rule. */
export const SCALES = [1, 1.5, 2, 3, 4, 6, 8, 12, 16] as const;

/** What the model may be off by in a group [as its values]. */
export function modelError({ kind, data }: DataGroup): number {
  const { size } = OF_MODEL[kind];
  const values = data.map(({ value }) => value);
  if (kind === 'torque') return size * Math.max(...values);
  if (kind === 'pressure') return size * (Math.max(...values) - Math.min(...values));
  return size;
}

/** Covariance of a group's errors. */
export function errorCovariance(group: DataGroup, scale: number): readonly (readonly number[])[] {
  const delta = scale * modelError(group);
  const { length } = OF_MODEL[group.kind];
  const { data, kind } = group;
  const turn = kind === 'pressure' ? 360 : Number.POSITIVE_INFINITY;
  return data.map(({ x, error }, i) =>
    data.map((other, j) => {
      const straight = Math.abs(x - other.x);
      const apart = Math.min(straight, turn - straight);
      const model = delta ** 2 * Math.exp(-(apart ** 2) / (2 * length ** 2));
      return model + (i === j ? error ** 2 : 0);
    }),
  );
}

type Rows = readonly (readonly number[])[];

/** The scale at which a group's data are likeliest, given what the members predict of them. */
export function likeliestScale(group: DataGroup, predicted: Rows): number {
  const { mean, anomalies } = centred(predicted);
  const miss = group.data.map(({ value }, j) => value - mean[j]!);
  const spread = miss.map((_, i) =>
    miss.map((__, j) => anomalies.reduce((sum, row) => sum + row[i]! * row[j]!, 0) / (anomalies.length - 1)),
  );
  let best: { readonly scale: number; readonly likely: number } = {
    scale: 1,
    likely: Number.NEGATIVE_INFINITY,
  };
  for (const scale of SCALES) {
    const errors = errorCovariance(group, scale);
    const L = cholesky(errors.map((row, i) => row.map((value, j) => value + spread[i]![j]!)));
    const w = solveLower(L, miss);
    const likely =
      -w.reduce((sum, value) => sum + value ** 2, 0) / 2 -
      L.reduce((sum, row, i) => sum + Math.log(row[i]!), 0);
    if (likely > best.likely + LEAST_GAIN) best = { scale, likely };
  }
  return best.scale;
}

/** A larger error is believed where it makes the data so much likelier, as a logarithm [-]. */
const LEAST_GAIN = 1;

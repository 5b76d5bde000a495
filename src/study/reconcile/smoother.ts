/**
 * The ensemble smoother with multiple data assimilation (ES-MDA; Emerick & Reynolds, Computers & Geosciences 55 (2013) 3–15):
 * the data are taken in several times, each time with their errors enlarged by √α, so that each step is a small one and
 * a model that is not linear is followed. With Σ 1/α = 1 the steps together count the data once. Members move by
 *
 *   z_n ← z_n + C_zd (C_dd + α I)⁻¹ (d + √α e_n − d_n),      e_n ~ N(0, I),
 *
 * where z are normal scores of the inputs (bounded inputs stay within their bounds), d the data and d_n what member n predicts,
 * both in units of the data's errors. The covariances are those of the members; C_dd is inverted in their own subspace, by
 * the singular values of the predictions' anomalies A = U diag(s) Vᵀ / √(N−1) (Evensen 2004).
 *
 * Few members make false correlations, of the size 1/√(N−1), and each narrows a spread that the data say nothing of. Two
 * things are done against it:
 *   - each entry of C_zd in the subspace is shrunk by what of its squared correlation is left when the part that
 *     chance gives is taken off, (r² − (1 − r²)/(N−2)) / r² (the correction of Kelley 1935), nought where nothing is left;
 *   - random numbers of which nothing can depend are moved along; by as much as their spread shrinks, all spreads are
 *     stretched again (Evensen 2009, inflation by a random ensemble, from memory).
 */

import type { RandomSource } from '../search/random.ts';
import { type SingularValues, singularValues } from './singular-values.ts';

/** Factors of the four steps, from the paper (from memory); the first steps are the smallest. Σ 1/α = 1. */
export const ALPHAS = [28 / 3, 7, 4, 2] as const;

/** Share of the anomalies' squares that is kept of their singular values. */
const ENERGY = 0.999;
/** Random numbers that are moved along. */
const IDLE = 40;

type Rows = readonly (readonly number[])[];

export interface Assimilation {
  /** Normal scores, `z[member][input]`. */
  readonly z: Rows;
  /** Predictions in units of the data's errors, `predicted[member][datum]`. */
  readonly predicted: Rows;
  /** The data in the same units. */
  readonly data: readonly number[];
  readonly alpha: number;
  readonly random: RandomSource;
}

export interface Assimilated {
  readonly z: Rows;
  /** By how much the spreads were stretched to make good what false correlations took [-]. */
  readonly stretched: number;
}

/** One step. */
export function assimilate({ z, predicted, data, alpha, random }: Assimilation): Assimilated {
  const members = z.length;
  const idle = z.map(() => Array.from({ length: IDLE }, () => random.normal()));
  // Perturbations without a mean, so that the members' mean is moved by the data alone.
  const noise = centred(z.map(() => data.map(() => random.normal()))).anomalies;
  const { anomalies } = centred(predicted);
  const scale = 1 / Math.sqrt(members - 1);
  const values = mainPart(singularValues(anomalies.map((row) => row.map((value) => value * scale))));
  const pulls = predicted.map((row, n) =>
    values.U.map((u, i) => {
      const pull = u.reduce(
        (sum, value, j) => sum + value * (data[j]! + Math.sqrt(alpha) * noise[n]![j]! - row[j]!),
        0,
      );
      return pull / (values.s[i]! ** 2 + alpha);
    }),
  );
  const moved = movedBy(z, pulls, values);
  const loss = meanRatio(idle, movedBy(idle, pulls, values));
  const stretched = Math.max(1, 1 / loss);
  const { mean, anomalies: after } = centred(moved);
  return { z: after.map((row) => row.map((value, k) => mean[k]! + stretched * value)), stretched };
}

/** Scores moved by their covariances with the parts of the predictions. */
function movedBy(z: Rows, pulls: Rows, { s, V }: SingularValues): Rows {
  const members = z.length;
  const { anomalies } = centred(z);
  const gains = (anomalies[0] ?? []).map((_, k) => {
    const spread = Math.sqrt(anomalies.reduce((sum, row) => sum + row[k]! ** 2, 0));
    return V.map((v, i) => {
      const along = anomalies.reduce((sum, row, n) => sum + row[k]! * v[n]!, 0);
      const r2 = spread === 0 ? 0 : (along / spread) ** 2;
      return (trusted(r2, members) * s[i]! * along) / Math.sqrt(members - 1);
    });
  });
  return z.map((row, n) =>
    row.map((value, k) => value + gains[k]!.reduce((sum, gain, i) => sum + gain * pulls[n]![i]!, 0)),
  );
}

/** What of a squared correlation is more than chance gives, over it [-]. */
export function trusted(r2: number, members: number): number {
  return r2 <= 0 ? 0 : Math.max(0, 1 - (1 - r2) / ((members - 2) * r2));
}

function mainPart({ s, U, V }: SingularValues): SingularValues {
  const whole = s.reduce((sum, value) => sum + value ** 2, 0);
  let sum = 0;
  const kept = s.findIndex((value) => {
    sum += value ** 2;
    return sum >= ENERGY * whole;
  });
  const count = kept < 0 ? s.length : kept + 1;
  return { s: s.slice(0, count), U: U.slice(0, count), V: V.slice(0, count) };
}

/** Mean over the columns of how their spreads changed [-]. */
function meanRatio(before: Rows, after: Rows): number {
  const spread = (rows: Rows): number[] => {
    const { anomalies } = centred(rows);
    return (anomalies[0] ?? []).map((_, k) =>
      Math.sqrt(anomalies.reduce((sum, row) => sum + row[k]! ** 2, 0)),
    );
  };
  const [old, fresh] = [spread(before), spread(after)];
  return fresh.reduce((sum, value, k) => sum + value / old[k]!, 0) / fresh.length;
}

/** Means of the columns, and what each row is beside them. */
export function centred(rows: Rows): { readonly mean: readonly number[]; readonly anomalies: Rows } {
  const mean = (rows[0] ?? []).map((_, k) => rows.reduce((sum, row) => sum + row[k]!, 0) / rows.length);
  return { mean, anomalies: rows.map((row) => row.map((value, k) => value - mean[k]!)) };
}

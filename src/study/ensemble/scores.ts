/**
 * Normal scores of members: point k of Sobol's sequence, an input a dimension, each share u as z = Φ⁻¹(u), and inputs that go
 * together as L z with L the Cholesky factor of their correlations (L Lᵀ = R). A score is then normal for each input
 * and correlated as stated (Iman & Conover 1982 rank by such scores; here they are taken as they are). Beyond the sequence's
 * dimensions shares are random numbers, a stream an input. Member k is the same however many are drawn.
 */

import { normalScore } from '../search/normal.ts';
import { randomSource } from '../search/random.ts';
import { mostSobolDimensions, sobolSequence } from '../search/sobol.ts';
import type { UncertainInput } from './uncertain-inputs.ts';

/** Of the shifts of the sequence: any number would do, one is kept so that members stay the same. */
export const MEMBER_SEED = 14;

type Drawn = Pick<UncertainInput, 'path' | 'together'>;

/** `scores[member][input]` of the first `count` members. */
export function memberScores(
  inputs: readonly Drawn[],
  count: number,
  seed = MEMBER_SEED,
): readonly (readonly number[])[] {
  const evenly = Math.min(inputs.length, mostSobolDimensions);
  const sobol = sobolSequence(evenly, count, seed);
  const others = inputs.slice(evenly).map((_, k) => randomSource(seed, evenly + k, 1));
  const mix = mixing(inputs);
  return Array.from({ length: count }, (_, member) => {
    const shares = [...sobol.at(member), ...others.map((one) => one.uniform())];
    // A share is a multiple of 2^-32, and 0 has no score.
    return mix(shares.map((share) => normalScore(share + 2 ** -33)));
  });
}

/** Makes scores that are independent correlated, group by group. */
function mixing(inputs: readonly Drawn[]): (scores: readonly number[]) => readonly number[] {
  const groups = new Map<string, number[]>();
  for (const [k, { together }] of inputs.entries())
    if (together !== null) groups.set(together.group, [...(groups.get(together.group) ?? []), k]);
  const factors = [...groups.values()].map((members) => ({
    members,
    L: cholesky(
      members.map((a) => members.map((b) => (a === b ? 1 : correlationOf(inputs[a]!, inputs[b]!)))),
    ),
  }));
  return (scores) => {
    const mixed = [...scores];
    for (const { members, L } of factors)
      for (const [row, k] of members.entries())
        mixed[k] = L[row]!.reduce((sum, l, column) => sum + l * scores[members[column]!]!, 0);
    return mixed;
  };
}

/** Where two of a group state different correlations the looser holds. */
const correlationOf = (a: Drawn, b: Drawn): number =>
  Math.min(a.together?.correlation ?? 0, b.together?.correlation ?? 0);

/** The lower factor L of a positive definite matrix R = L Lᵀ. @throws RangeError where R is none */
export function cholesky(R: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const L: number[][] = [];
  for (const [i, row] of R.entries()) {
    const line: number[] = [];
    for (let j = 0; j <= i; j += 1) {
      const other = j === i ? line : L[j]!;
      const rest = row[j]! - other.slice(0, j).reduce((sum, l, k) => sum + l * line[k]!, 0);
      if (j === i && !(rest > 0)) throw new RangeError('The correlations contradict each other.');
      line.push(j === i ? Math.sqrt(rest) : rest / L[j]![j]!);
    }
    L.push(line);
  }
  return L;
}

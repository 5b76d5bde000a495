/**
 * Normal scores of members: point k of Sobol's sequence, an input a dimension, each share u as z = Φ⁻¹(u). Beyond the
 * sequence's dimensions shares are random numbers, a stream an input.
 *
 * A few dozen points in as many dimensions cannot all be even by pairs: of the first 64 points only 32 patterns of halves are left
 * for any number of dimensions, and two inputs with the same pattern would pass for one. So in blocks of members scores are put in
 * the ranks of
 *
 *   S* = S (P Q⁻¹)ᵀ,   Q Qᵀ = correlations of the block's scores S,   P Pᵀ = those wanted
 *
 * (Iman & Conover, Commun. Statist. B 11 (1982) 311): each input keeps its even scores, and inputs go together as stated and not
 * otherwise. Member k is the same however many are drawn, a block being made whole.
 */

import { normalScore } from '../search/normal.ts';
import { randomSource } from '../search/random.ts';
import { mostSobolDimensions, sobolSequence } from '../search/sobol.ts';
import { cholesky, correlations, timesInverse } from './correlations.ts';
import type { UncertainInput } from './uncertain-inputs.ts';

/** Of the shifts of the sequence: any number would do, one is kept so that members stay the same. */
export const MEMBER_SEED = 14;
/** Members of a block, at least, and as a multiple of the inputs, so that their correlations have an inverse. */
const BLOCK = 64;
const PER_INPUT = 1.5;

type Drawn = Pick<UncertainInput, 'path' | 'together'>;
type Scores = readonly (readonly number[])[];

/** Members of a block for so many inputs: a power of two, over which the sequence is even. */
export const blockOf = (inputs: number): number =>
  Math.max(BLOCK, 2 ** Math.ceil(Math.log2(PER_INPUT * Math.max(1, inputs))));

/** `scores[member][input]` of the first `count` members. */
export function memberScores(inputs: readonly Drawn[], count: number, seed = MEMBER_SEED): Scores {
  if (inputs.length === 0) return Array.from({ length: count }, () => []);
  const block = blockOf(inputs.length);
  const whole = block * Math.ceil(count / block);
  const even = evenScores(inputs.length, whole, seed);
  const P = cholesky(wantedCorrelations(inputs));
  const mixed: (readonly number[])[] = [];
  for (let from = 0; from < whole; from += block)
    mixed.push(...goingTogether(even.slice(from, from + block), P));
  return mixed.slice(0, count);
}

/** Scores that are even input by input. */
function evenScores(inputs: number, count: number, seed: number): Scores {
  const evenly = Math.min(inputs, mostSobolDimensions);
  const sobol = sobolSequence(evenly, count, seed);
  const others = Array.from({ length: inputs - evenly }, (_, k) => randomSource(seed, evenly + k, 1));
  return Array.from({ length: count }, (_, member) => {
    const shares = [...sobol.at(member), ...others.map((one) => one.uniform())];
    // A share is a multiple of 2^-32, and 0 has no score.
    return shares.map((share) => normalScore(share + 2 ** -33));
  });
}

/** The scores of a block put in the ranks of correlated ones. */
function goingTogether(scores: Scores, P: Scores): Scores {
  const Q = cholesky(correlations(scores));
  const wanted = timesInverse(scores, P, Q);
  const columns = P.map((_, k) => {
    const ordered = scores.map((row) => row[k]!).sort((a, b) => a - b);
    const order = wanted.map((_, member) => member).sort((a, b) => wanted[a]![k]! - wanted[b]![k]!);
    const column = new Array<number>(scores.length).fill(0);
    for (const [rank, member] of order.entries()) column[member] = ordered[rank]!;
    return column;
  });
  return scores.map((_, member) => columns.map((column) => column[member]!));
}

function wantedCorrelations(inputs: readonly Drawn[]): Scores {
  return inputs.map((a) => inputs.map((b) => (a === b ? 1 : correlationOf(a, b))));
}

/** Of two in one group the looser of what they state; otherwise none. */
const correlationOf = ({ together: a }: Drawn, { together: b }: Drawn): number =>
  a === null || b === null || a.group !== b.group ? 0 : Math.min(a.correlation, b.correlation);

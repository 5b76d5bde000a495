/**
 * CMA-ES, the evolution strategy that adapts the covariance of its mutations: Hansen, "The CMA Evolution Strategy: A
 * Tutorial", arXiv:1604.00772 (2016). Symbols, default parameters and equation numbers are the tutorial's; negative
 * recombination weights are left out (its section 3.2 with all-positive weights).
 *
 *   n  quantities; λ points a generation; μ of them make the next mean
 *   m  mean; σ step size; C covariance = B diag(d²) Bᵀ
 *   p_σ, p_c  evolution paths
 *
 * The unit cube is kept by repair and penalty (appendix B.5): a point outside is valued at the nearest point inside,
 * plus a penalty that grows with its squared distance from there, scaled by the spread of the values in the
 * generation, so that the mean is pulled back but may lie on the border.
 */

import { type RandomSource, randomSource } from './random.ts';
import { clamped, type Point, type Search } from './search.ts';
import { identity, type Matrix, symmetricEigen } from './symmetric-eigen.ts';

export interface CmaEsSettings {
  /** First mean, in the unit cube. */
  readonly start: Point;
  /** First standard deviation; a third of the range is usual. */
  readonly sigma: number;
  readonly seed: number;
  readonly mostEvaluations: number;
  /** Ends when the values of the last generations, and all of this one, differ by no more than this. */
  readonly valueTolerance: number;
  /** Ends when no quantity is moved by more than this share of its range. */
  readonly pointTolerance: number;
  /** Points a generation; the default 4 + 3 ln n suits smooth functions. */
  readonly population?: number;
}

interface Strategy {
  readonly n: number;
  readonly lambda: number;
  readonly weights: readonly number[];
  readonly muEff: number;
  readonly cSigma: number;
  readonly dSigma: number;
  readonly cC: number;
  readonly c1: number;
  readonly cMu: number;
  /** Mean length of a standard normal vector. */
  readonly chiN: number;
}

/** Table 1 of the tutorial, equations (49) to (58). */
function strategyOf(n: number, population: number | undefined): Strategy {
  const lambda = population ?? 4 + Math.floor(3 * Math.log(n));
  const mu = Math.floor(lambda / 2);
  const raw = Array.from({ length: mu }, (_, i) => Math.log((lambda + 1) / 2) - Math.log(i + 1));
  const sum = raw.reduce((a, w) => a + w, 0);
  const weights = raw.map((w) => w / sum);
  const muEff = 1 / weights.reduce((a, w) => a + w * w, 0);
  const cSigma = (muEff + 2) / (n + muEff + 5);
  const c1 = 2 / ((n + 1.3) ** 2 + muEff);
  return {
    n,
    lambda,
    weights,
    muEff,
    cSigma,
    dSigma: 1 + 2 * Math.max(0, Math.sqrt((muEff - 1) / (n + 1)) - 1) + cSigma,
    cC: (4 + muEff / n) / (n + 4 + (2 * muEff) / n),
    c1,
    cMu: Math.min(1 - c1, (2 * (muEff - 2 + 1 / muEff)) / ((n + 2) ** 2 + muEff)),
    chiN: Math.sqrt(n) * (1 - 1 / (4 * n) + 1 / (21 * n * n)),
  };
}

interface Distribution {
  mean: number[];
  sigma: number;
  covariance: Matrix;
  /** B and the standard deviations d along its columns. */
  axes: readonly (readonly number[])[];
  deviations: readonly number[];
  pathSigma: number[];
  pathC: number[];
  generation: number;
}

export function* cmaEs(settings: CmaEsSettings): Search {
  const strategy = strategyOf(settings.start.length, settings.population);
  const random = randomSource(settings.seed);
  const state = firstDistribution(settings);
  const recent: number[] = [];
  const memory = 10 + Math.ceil((30 * strategy.n) / strategy.lambda);
  let evaluations = 0;
  while (evaluations + strategy.lambda <= settings.mostEvaluations) {
    const steps = Array.from({ length: strategy.lambda }, () => mutation(state, random));
    const points = steps.map((y) => y.map((yi, i) => state.mean[i]! + state.sigma * yi));
    const inside = points.map(clamped);
    const told = yield inside;
    evaluations += strategy.lambda;
    const values = penalised(told, points, inside, state);
    const order = values.map((_, k) => k).sort((a, b) => values[a]! - values[b]! || a - b);
    update(
      state,
      strategy,
      order.slice(0, strategy.weights.length).map((k) => steps[k]!),
    );

    recent.push(Math.min(...told));
    if (recent.length > memory) recent.shift();
    if (recent.length === memory && spread([...recent, ...told]) <= settings.valueTolerance) {
      return 'the values do not change any more';
    }
    const widest = state.sigma * Math.sqrt(Math.max(...state.covariance.map((row, i) => row[i]!)));
    if (widest <= settings.pointTolerance) return 'the points do not move any more';
  }
  return 'the evaluations allowed are used up';
}

function firstDistribution(settings: CmaEsSettings): Distribution {
  const n = settings.start.length;
  return {
    mean: [...settings.start],
    sigma: settings.sigma,
    covariance: identity(n),
    axes: identity(n),
    deviations: new Array<number>(n).fill(1),
    pathSigma: new Array<number>(n).fill(0),
    pathC: new Array<number>(n).fill(0),
    generation: 0,
  };
}

/** y = B D z, a normal vector of covariance C (39). */
function mutation(state: Distribution, random: RandomSource): number[] {
  const z = state.deviations.map((d) => d * random.normal());
  return state.axes.map((row) => dot(row, z));
}

/** Values with the penalty for lying outside the cube. */
function penalised(
  told: readonly number[],
  points: readonly Point[],
  inside: readonly Point[],
  state: Distribution,
): readonly number[] {
  const finite = told.filter(Number.isFinite).sort((a, b) => a - b);
  const quartile = (share: number): number => finite[Math.floor(share * (finite.length - 1))] ?? 0;
  const variance = state.covariance.reduce((sum, row, i) => sum + row[i]!, 0) / state.mean.length;
  const scale = (quartile(0.75) - quartile(0.25) || 1) / (state.sigma * state.sigma * variance);
  return told.map((value, k) => {
    const nearest = inside[k]!;
    return value + scale * points[k]!.reduce((sum, x, i) => sum + (x - nearest[i]!) ** 2, 0);
  });
}

/** Moves mean, paths, covariance and step size by the best steps, best first: equations (41) to (47). */
function update(state: Distribution, strategy: Strategy, best: readonly (readonly number[])[]): void {
  const { n, weights, muEff, cSigma, dSigma, cC, c1, cMu, chiN } = strategy;
  const y = state.mean.map((_, i) => best.reduce((sum, step, k) => sum + weights[k]! * step[i]!, 0));
  state.mean = state.mean.map((m, i) => m + state.sigma * y[i]!);
  state.generation += 1;

  // C^(-1/2) y = B D^(-1) B^T y.
  const along = state.deviations.map(
    (d, j) => state.axes.reduce((sum, row, i) => sum + row[j]! * y[i]!, 0) / d,
  );
  const whitened = state.axes.map((row) => dot(row, along));
  const drift = Math.sqrt(cSigma * (2 - cSigma) * muEff);
  state.pathSigma = state.pathSigma.map((p, i) => (1 - cSigma) * p + drift * whitened[i]!);
  const length = Math.sqrt(dot(state.pathSigma, state.pathSigma));
  state.sigma *= Math.exp((cSigma / dSigma) * (length / chiN - 1));

  // The path of C stands still while the step size grows fast.
  const settled = length / Math.sqrt(1 - (1 - cSigma) ** (2 * state.generation)) < (1.4 + 2 / (n + 1)) * chiN;
  const push = settled ? Math.sqrt(cC * (2 - cC) * muEff) : 0;
  state.pathC = state.pathC.map((p, i) => (1 - cC) * p + push * y[i]!);
  const lost = settled ? 0 : c1 * cC * (2 - cC);
  state.covariance = state.covariance.map((row, i) =>
    row.map((cij, j) => {
      const rankMu = best.reduce((sum, step, k) => sum + weights[k]! * step[i]! * step[j]!, 0);
      return (1 + lost - c1 - cMu) * cij + c1 * state.pathC[i]! * state.pathC[j]! + cMu * rankMu;
    }),
  );
  const eigen = symmetricEigen(state.covariance);
  state.axes = eigen.vectors;
  state.deviations = eigen.values.map((value) => Math.sqrt(Math.max(value, 1e-300)));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, ai, i) => sum + ai * b[i]!, 0);
}

function spread(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

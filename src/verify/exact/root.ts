/**
 * A root of one function of one variable, between two ends where it changes sign.
 *
 * Brent's method: inverse quadratic or secant steps as long as they shrink the bracket well, bisection otherwise, so
 * that it cannot leave the bracket and needs no derivative. Ends when the bracket is as narrow as the arithmetic.
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), ch. 4; value from memory.
 */

/** The root of `f` between `lower` and `upper` [as x]. Throws where `f` has the same sign at both ends. */
export function rootBetween(f: (x: number) => number, lower: number, upper: number): number {
  let previous = lower;
  let best = upper;
  let fPrevious = f(previous);
  let fBest = f(best);
  if (fPrevious === 0) return previous;
  if (fBest === 0) return best;
  if (!(fPrevious * fBest < 0)) {
    throw new RangeError(`no change of sign between ${lower} (${fPrevious}) and ${upper} (${fBest})`);
  }
  let opposite = previous;
  let fOpposite = fPrevious;
  let step = best - previous;
  let stepBefore = step;
  for (let iteration = 0; iteration < 200; iteration += 1) {
    if (fBest * fOpposite > 0) {
      opposite = previous;
      fOpposite = fPrevious;
      step = best - previous;
      stepBefore = step;
    }
    if (Math.abs(fOpposite) < Math.abs(fBest)) {
      previous = best;
      best = opposite;
      opposite = previous;
      fPrevious = fBest;
      fBest = fOpposite;
      fOpposite = fPrevious;
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(best) + Number.MIN_VALUE;
    const half = 0.5 * (opposite - best);
    if (Math.abs(half) <= tolerance || fBest === 0) return best;
    if (Math.abs(stepBefore) >= tolerance && Math.abs(fPrevious) > Math.abs(fBest)) {
      const trial = interpolatedStep(previous, best, opposite, fPrevious, fBest, fOpposite);
      if (Math.abs(trial) < Math.min(1.5 * Math.abs(half), 0.5 * Math.abs(stepBefore)) && trial * half > 0) {
        stepBefore = step;
        step = trial;
      } else {
        step = half;
        stepBefore = half;
      }
    } else {
      step = half;
      stepBefore = half;
    }
    previous = best;
    fPrevious = fBest;
    best += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    fBest = f(best);
  }
  return best;
}

/** Step from `best` by inverse quadratic interpolation through three points, by the secant where two coincide. */
function interpolatedStep(
  previous: number,
  best: number,
  opposite: number,
  fPrevious: number,
  fBest: number,
  fOpposite: number,
): number {
  const s = fBest / fPrevious;
  const half = 0.5 * (opposite - best);
  if (previous === opposite) return (2 * half * s) / (s - 1);
  const q = fPrevious / fOpposite;
  const r = fBest / fOpposite;
  const numerator = s * (2 * half * q * (q - r) - (best - previous) * (r - 1));
  return -numerator / ((q - 1) * (r - 1) * (s - 1));
}

/** The first change of sign of `f` met when walking from `from` to `to` in `steps` equal steps, refined; null: none. */
export function firstRoot(f: (x: number) => number, from: number, to: number, steps: number): number | null {
  let left = from;
  let fLeft = f(left);
  for (let i = 1; i <= steps; i += 1) {
    const right = from + ((to - from) * i) / steps;
    const fRight = f(right);
    if (fLeft === 0) return left;
    if (fLeft * fRight < 0) return rootBetween(f, left, right);
    left = right;
    fLeft = fRight;
  }
  return fLeft === 0 ? left : null;
}

/**
 * The standard normal distribution and its inverse,
 *
 *   Φ(z) = erfc(-z/√2) / 2,
 *
 * by the series of Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.2.11, and where the tail is what is
 * asked for by the continued fraction 26.2.14. The inverse starts from 26.2.23 and is brought to the last digits by
 * Halley's steps on Φ.
 */

/** Beyond this the tail's continued fraction takes few terms [-]. */
const TAIL = 3;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

const density = (z: number): number => Math.exp((-z * z) / 2) / ROOT_TWO_PI;

/** Share of the distribution below z [-]. */
export function normalShare(z: number): number {
  if (Number.isNaN(z)) return z;
  if (z < -TAIL) return tail(-z);
  if (z > TAIL) return 1 - tail(z);
  let term = z;
  let sum = z;
  for (let n = 1; Math.abs(term) > 1e-18 * Math.abs(sum); n += 1) {
    term *= (z * z) / (2 * n + 1);
    sum += term;
  }
  return 0.5 + density(z) * sum;
}

/** Share above z, for z above `TAIL` [-]. */
function tail(z: number): number {
  let fraction = z;
  for (let n = 60; n >= 1; n -= 1) fraction = z + n / fraction;
  return z === Number.POSITIVE_INFINITY ? 0 : density(z) / fraction;
}

/** The z below which a share p in (0, 1) lies [-]. */
export function normalScore(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`${p} is no share between 0 and 1.`);
  if (p > 0.5) return -normalScore(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  const top = 2.515517 + t * (0.802853 + t * 0.010328);
  const bottom = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  let z = top / bottom - t;
  for (let step = 0; step < 3; step += 1) {
    const miss = (normalShare(z) - p) / density(z);
    z -= miss / (1 + (z * miss) / 2);
  }
  return z;
}

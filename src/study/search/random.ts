/**
 * Random numbers that are the same on every machine for the same seed: xoshiro128** 1.1 (Blackman & Vigna, "Scrambled
 * linear pseudorandom number generators", ACM Trans. Math. Softw. 47(4), 2021), its state filled by SplitMix64
 * (Steele, Lea & Flood, OOPSLA 2014) as its authors advise.
 */

export interface RandomSource {
  /** Uniform whole number in [0, 2^32). */
  bits(): number;
  /** Uniform in [0, 1), a multiple of 2^-32. */
  uniform(): number;
  /** Uniform whole number in [0, bound), without bias. */
  below(bound: number): number;
  /** Standard normal, by Marsaglia's polar method. */
  normal(): number;
}

/** Source for a seed, a whole number from 0 to 2^53 - 1; streams of one seed are independent of each other. */
export function randomSource(seed: number, ...stream: readonly number[]): RandomSource {
  const words = splitMix64(seed, stream);
  return xoshiro128(words.next(), words.next());
}

function rotated(x: number, k: number): number {
  return (x << k) | (x >>> (32 - k));
}

function xoshiro128(low: bigint, high: bigint): RandomSource {
  let s0 = Number(low & 0xffffffffn) | 0;
  let s1 = Number(low >> 32n) | 0;
  let s2 = Number(high & 0xffffffffn) | 0;
  let s3 = Number(high >> 32n) | 0;
  let spare: number | null = null;
  const source: RandomSource = {
    bits() {
      const result = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
      const t = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= t;
      s3 = rotated(s3, 11);
      return result;
    },
    uniform: () => source.bits() / 4294967296,
    below(bound) {
      // Values above the last whole multiple of the bound would favour the small results.
      const fair = 4294967296 - (4294967296 % bound);
      for (;;) {
        const bits = source.bits();
        if (bits < fair) return bits % bound;
      }
    },
    normal() {
      if (spare !== null) {
        const value = spare;
        spare = null;
        return value;
      }
      for (;;) {
        const x = 2 * source.uniform() - 1;
        const y = 2 * source.uniform() - 1;
        const square = x * x + y * y;
        if (square >= 1 || square === 0) continue;
        const factor = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * factor;
        return x * factor;
      }
    },
  };
  return source;
}

/** SplitMix64; each number of the stream's name is mixed into the state. */
function splitMix64(seed: number, stream: readonly number[]): { next(): bigint } {
  let state = BigInt(seed);
  const next = (): bigint => {
    state = (state + 0x9e3779b97f4a7c15n) & 0xffffffffffffffffn;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & 0xffffffffffffffffn;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & 0xffffffffffffffffn;
    return z ^ (z >> 31n);
  };
  for (const part of stream) state = next() ^ BigInt(part);
  return { next };
}

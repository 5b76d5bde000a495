/** Samples taken at uneven crank angles, put on an even grid by straight interpolation; the cycle wraps round. */

/**
 * @param deg ascending angles after the cycle's start, the first `count` are used
 * @returns values at 0, stepDeg, 2 stepDeg ... below turnDeg
 */
export function resample(
  deg: Float64Array,
  values: Float64Array,
  count: number,
  stepDeg: number,
  turnDeg = 360,
): Float64Array {
  const points = Math.round(turnDeg / stepDeg);
  const out = new Float64Array(points);
  let k = 0;
  for (let i = 0; i < points; i++) {
    const angle = i * stepDeg;
    while (k < count && deg[k]! <= angle) k++;
    const before = k === 0 ? count - 1 : k - 1;
    const after = k === count ? 0 : k;
    const from = deg[before]! - (k === 0 ? turnDeg : 0);
    const to = deg[after]! + (k === count ? turnDeg : 0);
    const share = to > from ? (angle - from) / (to - from) : 0;
    const first = values[before]!;
    out[i] = first + share * (values[after]! - first);
  }
  return out;
}

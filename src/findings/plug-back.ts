/**
 * What the returning wave does at the port face over one cycle from exhaust opening (EO).
 *   suction     its lowest pressure before the plug-back
 *   plug-back   the compression that the baffle sends back: looked for where the wave traced from EO to the baffle and
 *               back arrives; onset and end where it crosses the reference pressure, peak from a parabola through the top of
 *               the smoothed wave, centroid and share before exhaust closing (EC) by impulse above the reference
 * Angles are degrees after EO on an even grid; the reference is the ambient pressure.
 */

export interface ReturningWave {
  /** Pressure of the returning wave at the port face, even over one turn from EO, wraps round [Pa]. */
  readonly pressure: Float64Array;
  readonly stepDeg: number;
  readonly reference: number;
  /** Exhaust closing, degrees after EO. */
  readonly closesDeg: number;
}

export interface PlugBack {
  readonly suctionPressure: number;
  readonly suctionDeg: number;
  /** Null, as all that follows from them: no plug-back was found. */
  readonly onsetDeg: number | null;
  readonly peakDeg: number | null;
  readonly centroidDeg: number | null;
  readonly endDeg: number | null;
  readonly peakPressure: number;
  /** Share of the impulse above the reference that lands before EC [-]. */
  readonly shareBeforeClosing: number | null;
  /** False: the returning wave never rises above the reference where it is expected. */
  readonly found: boolean;
  /** Another crest all but as high as the peak; null: none. */
  readonly otherCrestDeg: number | null;
}

/** Degrees before and after the traced return in which the peak is looked for. */
const EARLY_DEG = 20;
const LATE_DEG = 25;
/**
 * The top is sought on the wave smoothed by a triangle of this half-width [deg], a quarter of what a plug-back is long: a
 * travelling shock's spike on the front of a broad crest moves by degrees with the mesh, the crest does not. With 8 degrees
 * the peak of the demo at its best torque is two degrees off its limit for fine meshes, with 15 a third of one.
 */
const SMOOTH_DEG = 15;
/** A crest with this share of the peak's rise above the reference is a peak as good as it [-]. */
const AS_HIGH = 0.97;
/** Half-width of the parabola through the top [deg]. */
const TOP_DEG = 3;

/**
 * Reads the plug-back.
 * @param expected traced returns from the baffle's start and end, degrees after EO
 */
export function readPlugBack(
  wave: ReturningWave,
  expected: { readonly first: number; readonly last: number },
): PlugBack {
  const { pressure, stepDeg, reference, closesDeg } = wave;
  const n = pressure.length;
  const at = (k: number): number => pressure[((k % n) + n) % n] as number;
  const from = Math.round((expected.first - EARLY_DEG) / stepDeg);
  const to = Math.round((expected.last + LATE_DEG) / stepDeg);
  const half = Math.round(SMOOTH_DEG / stepDeg);
  const smooth = (k: number): number => {
    let sum = 0;
    for (let j = 1 - half; j < half; j++) sum += (half - Math.abs(j)) * at(k + j);
    return sum / (half * half);
  };
  let top = from;
  for (let k = from; k <= to; k++) if (smooth(k) > smooth(top)) top = k;
  const peakDeg = crown(smooth, top, stepDeg);
  let peakPressure = at(top);
  for (let k = top - half; k <= top + half; k++) peakPressure = Math.max(peakPressure, at(k));
  const found = peakPressure > reference;

  let first = top;
  while (first > top - n / 2 && at(first - 1) > reference) first--;
  let last = top;
  while (last < top + n / 2 && at(last + 1) > reference) last++;
  const onset = first - crossing(at(first), at(first - 1), reference);
  const end = last + crossing(at(last), at(last + 1), reference);

  let impulse = 0;
  let moment = 0;
  let before = 0;
  for (let k = first; k <= last; k++) {
    const part = Math.max(0, at(k) - reference);
    impulse += part;
    moment += part * k;
    const share = Math.max(0, Math.min(1, closesDeg / stepDeg - k + 0.5));
    before += part * share;
  }
  let low = first;
  for (let k = Math.min(0, first); k <= first; k++) if (at(k) < at(low)) low = k;
  return {
    suctionPressure: at(low),
    suctionDeg: low * stepDeg,
    onsetDeg: found ? onset * stepDeg : null,
    peakDeg: found ? peakDeg : null,
    centroidDeg: impulse > 0 ? (moment / impulse) * stepDeg : null,
    endDeg: found ? end * stepDeg : null,
    peakPressure,
    shareBeforeClosing: impulse > 0 ? before / impulse : null,
    found,
    otherCrestDeg: found ? otherCrest(smooth, { first, last, top, half }, reference, stepDeg) : null,
  };
}

interface Crested {
  /** Samples at which the wave is above the reference, and the one on top. */
  readonly first: number;
  readonly last: number;
  readonly top: number;
  /** A crest stands above all within this many samples. */
  readonly half: number;
}

/** The highest crest beside the top, if it is as good as it [deg]. */
function otherCrest(
  smooth: (k: number) => number,
  { first, last, top, half }: Crested,
  reference: number,
  stepDeg: number,
): number | null {
  const enough = reference + AS_HIGH * (smooth(top) - reference);
  let best: number | null = null;
  for (let k = first; k <= last; k++) {
    if (Math.abs(k - top) <= half || smooth(k) < enough) continue;
    if (smooth(k) < smooth(k - 1) || smooth(k) < smooth(k + 1)) continue;
    if (best === null || smooth(k) > smooth(best)) best = k;
  }
  return best === null ? null : crown(smooth, best, stepDeg);
}

function crossing(inside: number, outside: number, reference: number): number {
  return inside > outside ? Math.max(0, Math.min(1, (inside - reference) / (inside - outside))) : 0;
}

/** Vertex of the least-squares parabola through the samples around the top [deg]. */
function crown(at: (k: number) => number, top: number, stepDeg: number): number {
  const half = Math.max(2, Math.round(TOP_DEG / stepDeg));
  let s0 = 0;
  let s2 = 0;
  let s4 = 0;
  let y0 = 0;
  let y1 = 0;
  let y2 = 0;
  for (let j = -half; j <= half; j++) {
    const v = at(top + j);
    s0 += 1;
    s2 += j * j;
    s4 += j ** 4;
    y0 += v;
    y1 += v * j;
    y2 += v * j * j;
  }
  const curve = (s0 * y2 - s2 * y0) / (s0 * s4 - s2 * s2);
  if (!(curve < 0)) return top * stepDeg;
  return (top + Math.max(-half, Math.min(half, -y1 / s2 / (2 * curve)))) * stepDeg;
}

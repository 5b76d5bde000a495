/**
 * What the returning wave does at the port face over one cycle from exhaust opening (EO).
 *   suction     its lowest pressure before the plug-back
 *   plug-back   the compression that the baffle sends back: looked for where the wave traced from EO to the baffle and
 *               back arrives; onset and end where it crosses the reference pressure, peak from a parabola through the top of
 *               the smoothed wave, centroid and share before exhaust closing (EC) by impulse above the reference; a wave that
 *               merges with it counts in part
 * Angles are degrees after EO on an even grid; the reference is the ambient pressure.
 */

import { AS_HIGH, type Crest, humpsOf } from './humps.ts';

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
  /** Crest of another wave beside it, and how far that counts as part of it, 0 to 1; null: none worth naming. */
  readonly beside: { readonly deg: number; readonly counted: number } | null;
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
/** Half-width of the parabola through the top [deg]. */
const TOP_DEG = 3;
/** Another wave is looked for so far from the crest [deg], and is named if it has this share of its height [-]. */
const BESIDE_DEG = 70;
const WORTH_NAMING = 0.2;

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
  const at = around(pressure);
  const from = Math.round((expected.first - EARLY_DEG) / stepDeg);
  const to = Math.round((expected.last + LATE_DEG) / stepDeg);
  const half = Math.round(SMOOTH_DEG / stepDeg);
  const smooth = around(smoothedBy(half, pressure));
  const top = highestOf(smooth, from, to);
  const highest = highestOf(at, top - half, top + half);
  const peakPressure = at(highest);
  if (!(peakPressure > reference)) return { ...suctionOf(wave, top), ...notFound, peakPressure };
  const height = (k: number): number => at(k) - reference;
  // The smoothed crest of a short wave beside a deep suction may stand where the wave itself is below the surroundings.
  const main = height(top) > 0 ? top : highest;
  const crests = crestsOf(smooth, { from, to }, reference).filter(
    (one) => one.at !== top && height(one.at) > 0,
  );
  const humps = humpsOf(height, [{ at: main, share: 1 }, ...crests], n / 2);

  let impulse = 0;
  let moment = 0;
  let before = 0;
  for (let k = main - n / 2; k < main + n / 2; k++) {
    const part = humps.weight(k) * Math.max(0, height(k));
    impulse += part;
    moment += part * k;
    before += part * Math.max(0, Math.min(1, closesDeg / stepDeg - k + 0.5));
  }
  const [first, last] = [Math.ceil(humps.from), Math.floor(humps.to)];
  const peak = Math.max(humps.from, Math.min(humps.to, crown(smooth, top, stepDeg) / stepDeg));
  const away = Math.round(BESIDE_DEG / stepDeg);
  const apart = (k: number): number => (humps.weight(k) < 1 ? height(k) : Number.NEGATIVE_INFINITY);
  const other = highestOf(apart, main - away, main + away);
  return {
    ...suctionOf(wave, first),
    onsetDeg: humps.from * stepDeg,
    peakDeg: peak * stepDeg,
    centroidDeg: (moment / impulse) * stepDeg,
    endDeg: humps.to * stepDeg,
    peakPressure,
    shareBeforeClosing: before / impulse,
    found: true,
    otherCrestDeg: otherCrest(smooth, { first, last, top, half }, reference, stepDeg),
    beside:
      apart(other) < WORTH_NAMING * height(main)
        ? null
        : { deg: other * stepDeg, counted: humps.weight(other) },
  };
}

const notFound = {
  onsetDeg: null,
  peakDeg: null,
  centroidDeg: null,
  endDeg: null,
  shareBeforeClosing: null,
  found: false,
  otherCrestDeg: null,
  beside: null,
} as const;

/** The lowest pressure from exhaust opening to a sample. */
function suctionOf(
  { pressure, stepDeg }: ReturningWave,
  until: number,
): Pick<PlugBack, 'suctionPressure' | 'suctionDeg'> {
  const at = around(pressure);
  const depth = (k: number): number => -at(k);
  const low = highestOf(depth, Math.min(0, until), until);
  return { suctionPressure: -depth(low), suctionDeg: low * stepDeg };
}

/** Values by sample, of a wave that wraps round. */
function around(values: Float64Array): (sample: number) => number {
  const n = values.length;
  return (k) => values[k >= 0 && k < n ? k : ((k % n) + n) % n]!;
}

/**
 * A wave that wraps round, smoothed by a triangle of a half-width in samples: the mean over so many, taken twice. Sums run along, so
 * that a sample costs no more for a wide triangle.
 */
function smoothedBy(half: number, pressure: Float64Array): Float64Array {
  const once = runningMean(pressure, half, half - 1);
  return runningMean(once, half, 0);
}

/** Mean of each sample, those up to `back` before it and those after, `width` in all, of a wave that wraps round. */
function runningMean(values: Float64Array, width: number, back: number): Float64Array {
  const n = values.length;
  const out = new Float64Array(n);
  let [leaves, enters] = [(n - back) % n, (width - back) % n];
  let sum = 0;
  for (let k = 0; k < width; k++) sum += values[(leaves + k) % n]!;
  for (let k = 0; k < n; k++) {
    out[k] = sum / width;
    sum += values[enters]! - values[leaves]!;
    leaves = leaves + 1 === n ? 0 : leaves + 1;
    enters = enters + 1 === n ? 0 : enters + 1;
  }
  return out;
}

/** The first of the highest samples. */
function highestOf(value: (k: number) => number, from: number, to: number): number {
  let best = from;
  let most = value(from);
  for (let k = from + 1; k <= to; k++) {
    const here = value(k);
    if (here > most) {
      best = k;
      most = here;
    }
  }
  return best;
}

/** Crests of the smoothed wave where the plug-back is looked for, with their share of the highest. */
function crestsOf(
  smooth: (k: number) => number,
  { from, to }: { readonly from: number; readonly to: number },
  reference: number,
): readonly Crest[] {
  const rises = Array.from({ length: to - from + 1 }, (_, k) => smooth(from + k) - reference);
  const most = Math.max(...rises);
  return rises.flatMap((rise, k): Crest[] =>
    rise > 0 && rise >= (rises[k - 1] ?? rise) && rise > (rises[k + 1] ?? Number.NEGATIVE_INFINITY)
      ? [{ at: from + k, share: rise / most }]
      : [],
  );
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

/** What a change of the air or of the mixture does to torque, to the wave and to the band: differences of two runs. */

import { curveOf, valueAt } from '../curve.ts';
import type { SweepRow } from '../row.ts';

/** The air warmer, its pressure lower, the mixture leaner by a step. */
export type Weather = 'warmer' | 'lower' | 'leaner';

export interface WeatherEffect {
  readonly weather: Weather;
  /** What was changed: `+10 K`. */
  readonly change: string;
  /** Null: a run failed, or the plug-back was not found [Nm, deg, rpm]. */
  readonly torqueNm: number | null;
  readonly leadDeg: number | null;
  readonly bandRpm: number | null;
}

/** Speeds on either side from which the slope of the middle is taken [rpm]. */
const BESIDE = 250;
/** A middle that moves less than this with speed tells nothing of a band [deg/rpm]. */
const LEAST_SLOPE = 0.002;

export function weatherEffect(
  weather: Weather,
  move:
    | { readonly change: string; readonly torqueNm: number | null; readonly leadDeg: number | null }
    | undefined,
  rows: readonly SweepRow[],
  rpm: number,
): WeatherEffect {
  const { change = '', torqueNm = null, leadDeg = null } = move ?? {};
  const slope = slopeAt(rows, rpm);
  const bandRpm = leadDeg === null || slope === null ? null : leadDeg / slope;
  return { weather, change, torqueNm, leadDeg, bandRpm };
}

/** By how much later the middle comes for each rpm more [deg/rpm]; null: it cannot be told. */
function slopeAt(rows: readonly SweepRow[], rpm: number): number | null {
  const curve = curveOf(rows, 'plugback_centroid_deg');
  const [first, last] = [rows[0]?.speed_rpm ?? rpm, rows.at(-1)?.speed_rpm ?? rpm];
  const [from, to] = [Math.max(first, rpm - BESIDE), Math.min(last, rpm + BESIDE)];
  const [before, after] = [valueAt(curve, from), valueAt(curve, to)];
  if (before === null || after === null || to <= from) return null;
  const slope = (after - before) / (to - from);
  return slope < LEAST_SLOPE ? null : slope;
}

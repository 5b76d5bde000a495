/** What separates two drafts, as far as the model can tell them apart. */

import type { SpeedSpan } from '../band.ts';
import type { DraftSummary } from './compare-summary.ts';

/** What separates a draft from another; null where it is less than the model can tell. */
export interface DraftDifference {
  /** By how much its band of landing lies higher, and is wider [rpm]. */
  readonly shift: number | null;
  readonly wider: number | null;
  /** It lands the wave nowhere, and the other does. */
  readonly landsNowhere: boolean;
  /** What it gains in best torque [Nm] and in best power [kW]. */
  readonly torque: number | null;
  readonly power: number | null;
}

/** Least differences that are told [rpm], [Nm, kW]. */
const LEAST_SPEED = 100;
const LEAST_GAIN = 0.1;

export function differenceBetween(first: DraftSummary, other: DraftSummary): DraftDifference {
  const span = ({ usefulFrom, usefulTo }: DraftSummary): SpeedSpan | null =>
    usefulFrom === null || usefulTo === null ? null : { from: usefulFrom, to: usefulTo };
  const [was, is] = [span(first), span(other)];
  const told = (change: number | null, least: number): number | null =>
    change === null || Math.abs(change) < least ? null : change;
  const gain = (a: number | null, b: number | null): number | null =>
    told(a === null || b === null ? null : b - a, LEAST_GAIN);
  return {
    shift: told(was && is && (is.from + is.to - was.from - was.to) / 2, LEAST_SPEED),
    wider: told(was && is && is.to - is.from - (was.to - was.from), LEAST_SPEED),
    landsNowhere: is === null && was !== null,
    torque: gain(first.peakTorque, other.peakTorque),
    power: gain(first.peakPower, other.peakPower),
  };
}

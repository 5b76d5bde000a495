/**
 * The pipes that an aim offers, from the least change to the most: what each gives about the target, how sure that is, and
 * which is to be built first. That is the smallest step with most of the gain: metal that is left alone costs nothing.
 */

import { HELD_SHARE } from '../band.ts';
import { curveOf, middleLeadAt, valueAt } from '../curve.ts';
import type { SweepRow } from '../row.ts';
import { type WorkingBand, workingBand } from '../working-band.ts';
import { WORTH_GAIN } from './advice.ts';

/** A dimension of the drawing before and after [m]. */
export interface ChangedDimension {
  readonly name: string;
  readonly before: number;
  readonly after: number;
}

export interface OfferedPipe {
  readonly id: string;
  readonly rows: readonly SweepRow[];
  /** Mean torque about the target [Nm]; null: it cannot be read. */
  readonly mean: number | null;
  /** The same with the header so much shorter and longer than drawn [m, Nm]. */
  readonly build: { readonly by: number; readonly less: number | null; readonly more: number | null };
  /** Null: another pipe, with other sections. */
  readonly dimensions: readonly ChangedDimension[] | null;
  /** Rules of thumb that it does not keep to, in words. */
  readonly rules: readonly string[];
}

/** What a pipe gives about the target. */
export interface AboutTarget {
  readonly torque: number | null;
  /** Exhaust closing less the middle of the plug-back [deg]. */
  readonly middle: number | null;
  readonly mean: number | null;
  /** Least torque of the speeds computed within the band, and where. */
  readonly least: { readonly speedRpm: number; readonly torque: number } | null;
  readonly band: WorkingBand;
}

export interface OfferAnswer extends AboutTarget {
  readonly id: string;
  /** Mean torque more than the given pipe's [Nm]. */
  readonly gain: number | null;
  /** Share of the greatest gain [-]. */
  readonly gainShare: number | null;
  /** Nothing of the given pipe is changed; nothing more than in the step before. */
  readonly isGiven: boolean;
  readonly isRepeated: boolean;
  readonly dimensions: readonly ChangedDimension[] | null;
  /** What a header off by so much either way costs of the mean at worst [m, Nm]; null: it was not computed. */
  readonly build: { readonly by: number; readonly lost: number } | null;
  /** It keeps nine tenths of its mean torque with either, and at either end of the band of the target's. */
  readonly isRobust: boolean;
  readonly rules: readonly string[];
}

export interface OffersAnswer {
  readonly given: AboutTarget;
  readonly offers: readonly OfferAnswer[];
  /** The one to build first; null: none gains enough to be worth the metal. */
  readonly first: string | null;
}

/** A smaller step with this share of the greatest gain is enough. Judgement, no source. */
const ENOUGH = 0.9;

export interface OffersQuestion {
  readonly targetSpeed: number;
  readonly halfBand: number;
  readonly given: { readonly rows: readonly SweepRow[]; readonly mean: number | null };
  readonly offers: readonly OfferedPipe[];
}

export function offersAnswer({ targetSpeed, halfBand, given, offers }: OffersQuestion): OffersAnswer {
  const about = (rows: readonly SweepRow[], mean: number | null): AboutTarget => ({
    torque: valueAt(curveOf(rows, 'torque_nm'), targetSpeed),
    middle: middleLeadAt(rows, targetSpeed),
    mean,
    least: leastWithin(rows, targetSpeed, halfBand),
    band: workingBand(rows),
  });
  const gains = offers.map(({ mean }) => (mean === null || given.mean === null ? null : mean - given.mean));
  const most = Math.max(0, ...gains.map((gain) => gain ?? 0));
  const answers = offers.map((offer, k): OfferAnswer => {
    const { id, rows, mean, dimensions, rules } = offer;
    const gain = gains[k] ?? null;
    const here = about(rows, mean);
    const build = buildOf(offer);
    const held = HELD_SHARE * (mean ?? Number.POSITIVE_INFINITY);
    return {
      id,
      ...here,
      gain,
      gainShare: gain === null || most === 0 ? null : gain / most,
      isGiven: dimensions?.length === 0,
      isRepeated: k > 0 && isSame(dimensions, offers[k - 1]?.dimensions ?? null),
      dimensions,
      build,
      isRobust: build !== null && (mean ?? 0) - build.lost >= held && (here.least?.torque ?? 0) >= held,
      rules,
    };
  });
  const worth = WORTH_GAIN * (given.mean ?? 0);
  const first =
    most < worth || most === 0
      ? undefined
      : answers.find(({ gainShare, isGiven }) => !isGiven && (gainShare ?? 0) >= ENOUGH);
  return { given: about(given.rows, given.mean), offers: answers, first: first?.id ?? null };
}

function leastWithin(rows: readonly SweepRow[], target: number, halfBand: number): AboutTarget['least'] {
  let least: AboutTarget['least'] = null;
  for (const { speed_rpm: speedRpm, torque_nm: torque } of rows) {
    if (Math.abs(speedRpm - target) > halfBand || torque === null) continue;
    if (least === null || torque < least.torque) least = { speedRpm, torque };
  }
  return least;
}

function buildOf({ mean, build: { by, less, more } }: OfferedPipe): OfferAnswer['build'] {
  return mean === null || less === null || more === null
    ? null
    : { by, lost: Math.max(0, mean - less, mean - more) };
}

const isSame = (a: OfferedPipe['dimensions'], b: OfferedPipe['dimensions']): boolean =>
  a !== null &&
  b !== null &&
  a.length === b.length &&
  a.every(({ name, after }, k) => b[k]?.name === name && b[k]?.after === after);

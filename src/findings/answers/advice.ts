/**
 * What a sweep advises: changes that were computed. Each promises what its own run gave, told against the same cells of the
 * pipe as it is; what gains less than can be told is not advised, and what loses where it is meant to help is told with its
 * price.
 */

import type { SpeedSpan } from '../band.ts';
import { widthOf } from '../band.ts';
import type { SweepRow } from '../row.ts';
import { landingSpans } from '../working-band.ts';

/** What a change is for, in the order in which it is told. */
export const PURPOSES = ['target', 'lower', 'higher', 'output'] as const;
export type Purpose = (typeof PURPOSES)[number];

/** One dimension changed: its name in the drawing, and from what to what [m]. */
export interface DimensionChange {
  readonly name: string;
  readonly of: 'length' | 'diameter' | 'roof';
  readonly from: number;
  readonly to: number;
}

export interface Advice {
  readonly for: Purpose;
  readonly changes: readonly DimensionChange[];
  readonly set: readonly string[];
  readonly promises: {
    readonly torque_nm: number;
    readonly at_rpm: number;
    readonly lands_from_rpm: number | null;
    readonly lands_to_rpm: number | null;
  };
  /** The pipe as it is. */
  readonly now: { readonly torque_nm: number; readonly lands: SpeedSpan | null };
  /** Where it loses most of what was computed elsewhere; null: nowhere. */
  readonly cost: { readonly at_rpm: number; readonly torque_nm: number } | null;
  readonly basis: 'run';
  /** Cells that its torque was run on, and the edges of its landing [m]. */
  readonly cell: number;
  readonly edgeCell: number;
}

/** Why nothing is advised for a purpose. */
export interface NoAdvice {
  readonly for: Purpose;
  readonly why: 'best already' | 'loses' | 'open' | 'no change' | 'did not settle' | 'no budget';
  /** The change that was run and loses; with its promises as they came out. */
  readonly tried: Advice | null;
  /** Changes that were run, and what of the drawing they changed. */
  readonly runs: number;
  readonly things: readonly string[];
}

export interface AdviceReport {
  readonly advice: readonly Advice[];
  readonly none: readonly NoAdvice[];
}

/** Gain of torque worth a change of metal, and more than cycles and cells differ by [-]. Judgement, no source. */
export const WORTH_GAIN = 0.015;
/** A loss of torque that is none: cycles vary as much [-]. */
export const NO_LOSS = 0.003;
/** Losses elsewhere that are named, from this share of the torque there on [-]. Judgement, no source. */
export const NAMED_COST = 0.03;

/** Whether torque is better by a share of what it was. */
export const gainOf = (base: SweepRow | null, changed: SweepRow | null): number | null => {
  const [was, is] = [base?.torque_nm ?? null, changed?.torque_nm ?? null];
  return was === null || is === null || !(was > 0) ? null : is / was - 1;
};

/** Share of the best screened gain with which a change of the header alone is preferred. Judgement, no source. */
const SIMPLE = 0.8;
/** A change that gains less than this share of what is worth a change on coarse cells will not be worth one on fine ones [-]. */
const HOPE = 0.5;

/** A change that was screened: its gain, null where it failed, and whether it is of the header alone. */
export interface Screened {
  readonly gain: number | null;
  readonly simple: boolean;
}

/**
 * Place of the best of some screened changes, or of the best of the header alone where that gains nearly as much; null: none
 * gains enough to be worth a closer look.
 */
export function bestOfScreen(screened: readonly Screened[]): number | null {
  const gains = screened.map(({ gain }) => gain ?? Number.NEGATIVE_INFINITY);
  const most = Math.max(...gains);
  if (!(most >= HOPE * WORTH_GAIN)) return null;
  const simple = Math.max(...gains.filter((_, k) => screened[k]?.simple === true));
  return gains.indexOf(simple >= SIMPLE * most ? simple : most);
}

/**
 * The span in which a followed pipe lands. An end is null where the speeds run did not reach it, or leave a gap wider than a
 * step there: between far speeds nothing crosses in a straight line.
 */
export function followedLanding(
  rows: readonly SweepRow[],
  step: number,
): { readonly from: number | null; readonly to: number | null } {
  const [widest] = [...landingSpans(rows)].sort((a, b) => (widthOf(b) ?? 0) - (widthOf(a) ?? 0));
  if (widest === undefined) return { from: null, to: null };
  const speeds = rows.map((row) => row.speed_rpm);
  const between = (edge: number): number | null => {
    const below = speeds.findLast((speed) => speed < edge);
    const above = speeds.find((speed) => speed > edge);
    return below !== undefined && above !== undefined && above - below <= step ? edge : null;
  };
  return { from: between(widest.from), to: between(widest.to) };
}

/** Where a followed pipe loses most torque against the sweep, among the speeds that both have. */
export function costAgainst(
  sweep: readonly SweepRow[],
  followed: readonly SweepRow[],
  within: SpeedSpan | null,
): Advice['cost'] {
  let worst: Advice['cost'] = null;
  let most = NAMED_COST;
  for (const row of followed) {
    const was = sweep.find((one) => one.speed_rpm === row.speed_rpm);
    if (within === null || row.speed_rpm < within.from || row.speed_rpm > within.to) continue;
    const loss = -(gainOf(was ?? null, row) ?? 0);
    if (loss <= most || was?.torque_nm == null || row.torque_nm === null) continue;
    most = loss;
    worst = { at_rpm: row.speed_rpm, torque_nm: row.torque_nm - was.torque_nm };
  }
  return worst;
}

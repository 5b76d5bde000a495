/**
 * What a sweep answers: where the wave lands, best torque and power, what limits, and which way to change the pipe.
 *
 * A pipe of the same shape, longer in the ratio L'/L, does at N L/L' what the first did at N (similarity: time goes with
 * length over wave speed). So ΔL = L ΔN/N, with L from the port face to the middle of the baffle. A longer header does more
 * than a longer pipe of the same shape: the gas comes cooler to the cones and the wave runs back against a faster stream.
 * `headerShare` allows for it; the estimate is for a first cut, the next sweep tells.
 */

import { type Band, bandOf, edgeStep, heldShare, landingBands, type SpeedSpan } from '../band.ts';
import { highest, rowFor } from '../curve.ts';
import { type Landing, landing } from '../landing.ts';
import type { OutlineSection } from '../record.ts';
import type { SweepRow } from '../row.ts';
import { type Limit, limitsOf } from './sweep-limits.ts';

export interface SweepAnswer {
  /** Bands of computed speeds at which the wave lands, the widest first. */
  readonly lands: readonly SpeedSpan[];
  /** Where it lands nowhere, what it does instead. */
  readonly misses: 'early' | 'late' | 'none' | 'mixed' | null;
  readonly torque: SweepRow | null;
  readonly power: SweepRow | null;
  /** Which way to change the pipe; null: the estimate needs a baffle. */
  readonly header: HeaderMove | null;
  /** Speeds that keep nine tenths of the best torque; null: too few speeds. */
  readonly broad: BroadTorque | null;
  readonly limits: readonly Limit[];
  readonly target: TargetOfSweep | null;
}

/** How the header moves the landing, an estimate. */
export interface HeaderMove {
  readonly basis: 'estimate';
  /** Length that moves it by 500 rpm [m]. */
  readonly lengthFor500: number;
  /** It is more than half the header. */
  readonly isScarce: boolean;
}

export interface BroadTorque {
  readonly share: number;
  readonly band: Band;
  /** The wave is early below this, but the torque falls off slowly [rpm]. */
  readonly softBelow: number | null;
}

export interface TargetOfSweep {
  readonly wanted: number;
  /** The row that stands for it; null: it was not computed. */
  readonly row: SweepRow | null;
  readonly landing: Landing;
  /** Torque there over the best; null: not known. */
  readonly torqueShare: number | null;
  readonly isBest: boolean;
  /** What brings the middle of the landing speeds there; null: it lands, or nothing worth naming. */
  readonly change: HeaderChange | null;
}

export interface HeaderChange {
  readonly basis: 'estimate';
  readonly way: 'lengthen' | 'shorten';
  /** [m] */
  readonly by: number;
  readonly isBeyondHeader: boolean;
}

/**
 * Share of the similar pipe's ΔL that the header alone takes [-]. Re-runs with headers 25 to 90 mm longer or shorter gave
 * 0.71 and 0.61 for 40 mm more and less of the invented draft A, 0.66 and 0.64 for the invented 250 and 50.
 */
export const headerShare = 0.7;

/** From the port face to the middle of the baffle [m]; null without a baffle. */
export function reflectingLength(outline: readonly OutlineSection[]): number | null {
  const baffle = outline.filter((stretch) => stretch.role === 'baffle');
  const start = baffle[0]?.start;
  const end = baffle.at(-1)?.end;
  return start === undefined || end === undefined ? null : (start + end) / 2;
}

const headerLength = (outline: readonly OutlineSection[]): number =>
  outline
    .filter((stretch) => stretch.role === 'header')
    .reduce((sum, stretch) => sum + stretch.end - stretch.start, 0);

/** Length of header that moves the landing by 500 rpm about a speed [m]; null if it cannot be told. */
export function lengthFor500(outline: readonly OutlineSection[], about: number): number | null {
  const length = reflectingLength(outline);
  return length === null || !(about > 0) ? null : (headerShare * length * 500) / about;
}

export function sweepAnswer(
  rows: readonly SweepRow[],
  outline: readonly OutlineSection[],
  targetSpeed: number | null,
): SweepAnswer {
  const bands = landingBands(rows);
  const widest = bands[0];
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const centre = widest ? (widest.from + widest.to) / 2 : (torque?.speed_rpm ?? rows[0]?.speed_rpm ?? 0);
  const length = lengthFor500(outline, centre);
  const header = headerLength(outline);
  const move: HeaderMove | null =
    length === null ? null : { basis: 'estimate', lengthFor500: length, isScarce: length > header / 2 };
  const target = targetSpeed === null ? null : targetOf(rows, torque, targetSpeed);
  const isMoved = target !== null && target.landing !== 'lands' && widest !== undefined;
  return {
    lands: bands,
    misses: bands.length > 0 ? null : missesOf(rows),
    torque,
    power,
    header: move,
    broad: broadTorque(rows, widest),
    limits: limitsOf(rows, widest, power),
    target: target && {
      ...target,
      change: move && isMoved ? changeTo(target.wanted, centre, move, header) : null,
    },
  };
}

function missesOf(rows: readonly SweepRow[]): SweepAnswer['misses'] {
  const found = new Set<Landing>(rows.map(landing));
  found.delete('none');
  if (found.size === 0) return 'none';
  if (found.size > 1) return 'mixed';
  return found.has('early') ? 'early' : 'late';
}

/** Fewer speeds than this make no band. */
const fewSpeeds = 3;

function broadTorque(rows: readonly SweepRow[], widest: SpeedSpan | undefined): BroadTorque | null {
  const band = bandOf(rows, 'torque_nm');
  if (band === null || rows.length < fewSpeeds) return null;
  const soft = widest !== undefined && band.from < widest.from - edgeStep;
  return { share: heldShare, band, softBelow: soft ? widest.from : null };
}

function targetOf(
  rows: readonly SweepRow[],
  best: SweepRow | null,
  wanted: number,
): Omit<TargetOfSweep, 'change'> {
  const row = rowFor(rows, wanted);
  const [there, most] = [row?.torque_nm ?? null, best?.torque_nm ?? null];
  return {
    wanted,
    row,
    landing: row === null ? 'none' : landing(row),
    torqueShare: there === null || most === null ? null : there / most,
    isBest: row !== null && row === best,
  };
}

/** Change of the header worth naming [m]: a smaller one is within what the estimate can tell. */
const leastChange = 0.01;

/** Over a wide step the length goes with the inverse of the speed, L' = L N / N', so the 500 rpm at N scale by N / N'. */
function changeTo(wanted: number, centre: number, move: HeaderMove, header: number): HeaderChange | null {
  const gap = wanted - centre;
  const by = (Math.abs(gap) / 500) * move.lengthFor500 * (centre / wanted);
  if (by < leastChange) return null;
  return {
    basis: 'estimate',
    way: gap < 0 ? 'lengthen' : 'shorten',
    by,
    isBeyondHeader: gap > 0 && by > header / 2,
  };
}

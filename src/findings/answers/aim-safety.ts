/**
 * How safe an aimed pipe is: how much of its torque at the target a little more or less of a section loses, over which
 * speeds it holds, and what follows from that at the bench.
 */

import { type Band, bandOf } from '../band.ts';
import { curveOf, valueAt } from '../curve.ts';
import type { SweepRow } from '../row.ts';

/** What a little less and a little more of one quantity do at the target. */
export interface BothWays {
  readonly name: string;
  /** By how much, `10 mm`. */
  readonly step: string;
  readonly torqueLessNm: number;
  readonly torqueMoreNm: number;
}

interface PipeRows {
  readonly rows: readonly SweepRow[];
}

export interface SafetyQuestion {
  readonly targetSpeed: number;
  readonly after: PipeRows;
  /** The handbook's pipe that the search began with; null: it began with the one before. */
  readonly start: PipeRows | null;
  readonly sensitivities: readonly BothWays[];
}

export interface Loss {
  readonly name: string;
  readonly step: string;
  readonly way: 'more' | 'less';
  /** Torque lost, and what the same step the other way costs [Nm]. */
  readonly lost: number;
  readonly otherWay: number;
}

/**
 * What to do about a section on an edge. build: to this side of the drawing, which costs so much; both: there is no safe
 * side; hold: the safe side brings the edge in speed nearer from above or below.
 */
export type Cutting =
  | { readonly kind: 'build'; readonly loss: Loss; readonly side: 'short' | 'long' }
  | { readonly kind: 'both'; readonly loss: Loss }
  | { readonly kind: 'hold'; readonly edge: 'above' | 'below' };

export interface Safety {
  readonly onEdge: boolean;
  /** Torque at the target [Nm], and the speeds about it that keep nine tenths of that. */
  readonly torque: number;
  readonly held: Band;
  /** Losses that are an edge, the worst first, and the worst of all that was tried. */
  readonly edges: readonly Loss[];
  readonly worst: Loss | null;
  /** What is lost at the computed speed beside the band where more is [Nm]. */
  readonly beyond: { readonly speedRpm: number; readonly lost: number } | null;
  readonly cutting: Cutting | null;
  /** Speed to aim at, to keep clear of an edge in speed [rpm]. */
  readonly aimAgain: number | null;
  /** A step that the search has left: it has not come to the top [Nm]. */
  readonly climbing: { readonly loss: Loss; readonly gain: number } | null;
  /** The start, where it holds over a wider range than what came of it. */
  readonly saferStart: { readonly torque: number; readonly held: Band } | null;
}

/** A change of the torque by more than this share, for so small a change of the pipe, is an edge. */
const EDGE_SHARE = 0.08;
/** A gain by more than this share, for so small a change, is one that the search has left. */
const SLOPE_SHARE = 0.02;
/** A pipe that holds for less than this beside its target is on an edge of speed [rpm]. */
const NEAR_SPEED = 500;

/** Null: the target was not computed. */
export function safetyOf({ targetSpeed, after, start, sensitivities }: SafetyQuestion): Safety | null {
  const { rows } = after;
  const torque = valueAt(curveOf(rows, 'torque_nm'), targetSpeed);
  const held = bandOf(rows, 'torque_nm', { about: targetSpeed });
  if (torque === null || held === null) return null;
  const losses = lossesOf(sensitivities);
  const edges = losses.filter(({ lost }) => lost > EDGE_SHARE * torque);
  const sides = lostBeside(rows, held, torque);
  const nearAbove = !held.openAbove && held.to - targetSpeed < NEAR_SPEED;
  const nearBelow = !held.openBelow && targetSpeed - held.from < NEAR_SPEED;
  const [above, below] = [sides.above?.lost ?? 0, sides.below?.lost ?? 0];
  const limit = EDGE_SHARE * torque;
  return {
    onEdge: edges.length > 0 || nearAbove || nearBelow,
    torque,
    held,
    edges,
    worst: losses[0] ?? null,
    beyond: above >= below ? (sides.above ?? sides.below) : sides.below,
    cutting: cuttingOf(edges, limit, nearAbove && above > below, nearBelow && below > above),
    aimAgain: clearOf(targetSpeed, nearAbove ? above : 0, nearBelow ? below : 0),
    climbing: climbingOf(losses, torque),
    saferStart: saferStartOf(start, targetSpeed, held),
  };
}

function lossesOf(sensitivities: readonly BothWays[]): readonly Loss[] {
  return sensitivities
    .flatMap(({ name, step, torqueLessNm: less, torqueMoreNm: more }): Loss[] => [
      { name, step, way: 'more', lost: -more, otherWay: -less },
      { name, step, way: 'less', lost: -less, otherWay: -more },
    ])
    .sort((a, b) => b.lost - a.lost);
}

interface Beside {
  readonly above: Safety['beyond'];
  readonly below: Safety['beyond'];
}

function lostBeside(rows: readonly SweepRow[], held: Band, torque: number): Beside {
  const lost = (row: SweepRow | undefined): Safety['beyond'] =>
    row === undefined ? null : { speedRpm: row.speed_rpm, lost: torque - (row.torque_nm ?? torque) };
  return {
    above: lost(rows.find((row) => row.speed_rpm > held.to)),
    below: lost(rows.filter((row) => row.speed_rpm < held.from).at(-1)),
  };
}

/** On which side of the drawing to build, where one side is safe. A longer pipe brings an edge above it down. */
function cuttingOf(
  edges: readonly Loss[],
  limit: number,
  edgeAbove: boolean,
  edgeBelow: boolean,
): Cutting | null {
  // A header is the easiest to cut or to lengthen.
  const loss = edges.find(({ name }) => name === 'header') ?? edges.find(({ name }) => name !== 'wall');
  if (loss === undefined) return null;
  const { name, way, otherWay } = loss;
  if (edges.some((one) => one.name === name && one.way !== way) || otherWay > limit)
    return { kind: 'both', loss };
  if (way === 'less' && edgeAbove) return { kind: 'hold', edge: 'above' };
  if (way === 'more' && edgeBelow) return { kind: 'hold', edge: 'below' };
  return { kind: 'build', loss, side: way === 'more' ? 'short' : 'long' };
}

/** The other way from the deeper edge in speed. */
const clearOf = (target: number, above: number, below: number): number | null =>
  above === below ? null : above > below ? target + NEAR_SPEED : target - NEAR_SPEED;

function climbingOf(losses: readonly Loss[], torque: number): Safety['climbing'] {
  const loss = losses.at(-1);
  if (loss === undefined || loss.name === 'wall' || -loss.lost < SLOPE_SHARE * torque) return null;
  return { loss, gain: -loss.lost };
}

function saferStartOf(start: PipeRows | null, target: number, held: Band): Safety['saferStart'] {
  if (start === null) return null;
  const torque = valueAt(curveOf(start.rows, 'torque_nm'), target);
  const own = bandOf(start.rows, 'torque_nm', { about: target });
  if (torque === null || own === null || own.to - own.from < held.to - held.from + NEAR_SPEED) return null;
  return { torque, held: own };
}

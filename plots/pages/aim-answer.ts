/**
 * How safe an aimed pipe is: how much of its torque at the target a little more or less of a section loses, over which
 * speeds it holds, and what to do about an edge. For the page and for the terminal.
 */

import type { SweepRow } from '../../src/findings/row.ts';
import { newtonMetres, rpm, speed } from '../theme/numbers.ts';
import { type SpeedSpan, valueAt } from './compare-answer.ts';

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

export interface SafetyOf {
  readonly targetSpeed: number;
  readonly after: PipeRows;
  /** The handbook's pipe that the search began with; null: it began with the one before. */
  readonly start: PipeRows | null;
  readonly sensitivities: readonly BothWays[];
}

export interface Safety {
  readonly onEdge: boolean;
  readonly how: string;
  /** Empty: nothing needs to be done. */
  readonly advice: string;
}

/** A change of the torque by more than this share, for so small a change of the pipe, is an edge. */
const edgeShare = 0.08;
/** A gain by more than this share, for so small a change, is one that the search has left. */
const slopeShare = 0.02;
/** Share of the torque at the target above which a speed counts as held. */
const heldShare = 0.9;
/** A pipe that holds for less than this beside its target is on an edge of speed [rpm]. */
const nearSpeed = 500;

/** The unbroken run of computed speeds round the target that keep most of its torque; null: nothing is known there. */
export function heldBand(rows: readonly SweepRow[], target: number): SpeedSpan | null {
  const torque = valueAt(rows, 'torque_nm', target);
  if (torque === null) return null;
  const held = (row: SweepRow | undefined): boolean => (row?.torque_nm ?? 0) >= heldShare * torque;
  let low = rows.findIndex((row) => row.speed_rpm >= target);
  let high = low;
  if (rows[low]?.speed_rpm !== target) {
    low = Math.max(0, low - 1);
    if (!held(rows[low]) || !held(rows[high])) return { from: target, to: target };
  }
  while (low > 0 && held(rows[low - 1])) low--;
  while (high < rows.length - 1 && held(rows[high + 1])) high++;
  return { from: rows[low]?.speed_rpm ?? target, to: rows[high]?.speed_rpm ?? target };
}

interface Loss {
  readonly name: string;
  readonly step: string;
  readonly way: 'more' | 'less';
  /** Torque lost, and what the same step the other way costs [Nm]. */
  readonly lost: number;
  readonly otherWay: number;
}

function lossesOf(sensitivities: readonly BothWays[]): readonly Loss[] {
  return sensitivities
    .flatMap(({ name, step, torqueLessNm: less, torqueMoreNm: more }): Loss[] => [
      { name, step, way: 'more', lost: -more, otherWay: -less },
      { name, step, way: 'less', lost: -less, otherWay: -more },
    ])
    .sort((a, b) => b.lost - a.lost);
}

const said = ({ name, step, way }: Loss): string =>
  name === 'wall' ? `a wall ${step} ${way === 'more' ? 'hotter' : 'cooler'}` : `${step} ${way} ${name}`;

const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** What is lost at the computed speeds next to the band, above and below [Nm]. */
interface Beyond {
  readonly above: number;
  readonly below: number;
  readonly words: string;
}

function beyond(rows: readonly SweepRow[], band: SpeedSpan, torque: number): Beyond {
  const above = rows.find((row) => row.speed_rpm > band.to);
  const below = rows.filter((row) => row.speed_rpm < band.from).at(-1);
  const lost = (row: SweepRow | undefined): number => torque - (row?.torque_nm ?? torque);
  const [up, down] = [lost(above), lost(below)];
  const worse = up >= down ? above : below;
  const words =
    worse === undefined ? '' : `; at ${rpm(worse.speed_rpm)} ${newtonMetres(Math.max(up, down))} are gone`;
  return { above: up, below: down, words };
}

export function safety({ targetSpeed, after, start, sensitivities }: SafetyOf): Safety {
  const { rows } = after;
  const torque = valueAt(rows, 'torque_nm', targetSpeed);
  const band = heldBand(rows, targetSpeed);
  if (torque === null || band === null)
    return { onEdge: false, how: 'Not known: the target was not computed.', advice: '' };
  const losses = lossesOf(sensitivities);
  const worst = losses[0];
  const bad = losses.filter(({ lost }) => lost > edgeShare * torque);
  const [first, last] = [rows[0]?.speed_rpm ?? 0, rows.at(-1)?.speed_rpm ?? 0];
  const next = beyond(rows, band, torque);
  const nearAbove = band.to < last && band.to - targetSpeed < nearSpeed;
  const nearBelow = band.from > first && targetSpeed - band.from < nearSpeed;
  const sections =
    bad.length > 0
      ? `${capital(listed(bad.map(said)))} loses ${bad.length > 1 ? 'up to ' : ''}${newtonMetres(bad[0]?.lost)}.`
      : worst === undefined
        ? ''
        : worst.lost > 0.05
          ? `Nothing tried on it loses more than ${newtonMetres(worst.lost)}: ${said(worst)}.`
          : 'Nothing tried on it loses torque.';
  const speeds = `It keeps nine tenths of its torque from ${speed(band.from)} to ${rpm(band.to)}${next.words}.`;
  return {
    onEdge: bad.length > 0 || nearAbove || nearBelow,
    how: [sections, speeds].filter((text) => text !== '').join(' '),
    advice: [
      cutting(bad, torque, nearAbove && next.above > next.below, nearBelow && next.below > next.above),
      again(targetSpeed, nearAbove ? next.above : 0, nearBelow ? next.below : 0),
      climbing(losses, torque),
      startKeeps(start, targetSpeed, band),
    ]
      .filter((text) => text !== '')
      .join(' '),
  };
}

/** On which side of the drawing to build it, where one side is safe. A longer pipe brings an edge above it down. */
function cutting(bad: readonly Loss[], torque: number, edgeAbove: boolean, edgeBelow: boolean): string {
  // A header is the easiest to cut or to lengthen.
  const worst = bad.find(({ name }) => name === 'header') ?? bad.find(({ name }) => name !== 'wall');
  if (worst === undefined) return '';
  const { name, step, way, otherWay } = worst;
  if (bad.some((one) => one.name === name && one.way !== way) || otherWay > edgeShare * torque)
    return `Both sides of ${name} fall off: hold its length to a millimetre or two, or take another pipe.`;
  if (way === 'less' ? edgeAbove : edgeBelow)
    return `Hold its lengths to a millimetre or two: ${way === 'less' ? 'longer brings the edge above down' : 'shorter brings the edge below up'}.`;
  const cost = otherWay > 0.05 ? `costs ${newtonMetres(otherWay)}` : 'costs nothing';
  return way === 'more'
    ? `Build ${name} ${step} short, which ${cost}; a spacer can lengthen it on the bench.`
    : `Build ${name} ${step} long, which ${cost}; it can be cut back on the bench.`;
}

/** The other way from the deeper edge in speed. */
function again(target: number, above: number, below: number): string {
  if (above === below) return '';
  const other = above > below ? target + nearSpeed : target - nearSpeed;
  return `To keep clear of the edge in speed aim again, at ${rpm(other)}.`;
}

/** A search that ended on a slope. */
function climbing(losses: readonly Loss[], torque: number): string {
  const most = losses.at(-1);
  if (most === undefined || most.name === 'wall' || -most.lost < slopeShare * torque) return '';
  return `${capital(said(most))} would gain ${newtonMetres(-most.lost)}: the search has not come to the top; allow it more drafts.`;
}

/** The start, where it holds over a wider range than what came of it. */
function startKeeps(start: PipeRows | null, target: number, band: SpeedSpan): string {
  if (start === null) return '';
  const torque = valueAt(start.rows, 'torque_nm', target);
  const own = heldBand(start.rows, target);
  if (torque === null || own === null || own.to - own.from < band.to - band.from + nearSpeed) return '';
  return `The handbook’s pipe gives ${newtonMetres(torque)} there and keeps nine tenths of it from ${speed(own.from)} to ${rpm(own.to)}: the safer one.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

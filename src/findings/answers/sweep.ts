/** What a sweep answers: where the pipe works, best torque and power, what limits, and how the target fares. */

import { type Band, bandOf, EDGE_STEP, HELD_SHARE, landingBands, type SpeedSpan } from '../band.ts';
import { highest, rowFor } from '../curve.ts';
import { type Landing, landing } from '../landing.ts';
import type { SweepRow } from '../row.ts';
import { type WorkingBand, workingBand } from '../working-band.ts';
import { type Limit, limitsOf } from './sweep-limits.ts';
import { type Hole, holesOf } from './torque-holes.ts';

export interface SweepAnswer {
  /** Bands of computed speeds at which the wave lands, the widest first. */
  readonly lands: readonly SpeedSpan[];
  /** Where it lands nowhere, what it does instead. */
  readonly misses: 'early' | 'late' | 'none' | 'mixed' | null;
  readonly torque: SweepRow | null;
  readonly power: SweepRow | null;
  /** Where it lands and torque is held, with edges between the computed speeds. */
  readonly band: WorkingBand;
  /** Speeds that keep nine tenths of the best torque; null: too few speeds. */
  readonly broad: BroadTorque | null;
  readonly limits: readonly Limit[];
  /** Holes of the torque curve, and why. */
  readonly holes: readonly Hole[];
  readonly target: TargetOfSweep | null;
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
}

export function sweepAnswer(rows: readonly SweepRow[], targetSpeed: number | null): SweepAnswer {
  const bands = landingBands(rows);
  const widest = bands[0];
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  return {
    lands: bands,
    misses: bands.length > 0 ? null : missesOf(rows),
    torque,
    power,
    band: workingBand(rows),
    broad: broadTorque(rows, widest),
    limits: limitsOf(rows, widest, power),
    holes: holesOf(rows),
    target: targetSpeed === null ? null : targetOf(rows, torque, targetSpeed),
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
const FEW_SPEEDS = 3;

function broadTorque(rows: readonly SweepRow[], widest: SpeedSpan | undefined): BroadTorque | null {
  const band = bandOf(rows, 'torque_nm');
  if (band === null || rows.length < FEW_SPEEDS) return null;
  const soft = widest !== undefined && band.from < widest.from - EDGE_STEP;
  return { share: HELD_SHARE, band, softBelow: soft ? widest.from : null };
}

function targetOf(rows: readonly SweepRow[], best: SweepRow | null, wanted: number): TargetOfSweep {
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

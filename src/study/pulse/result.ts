/**
 * What a pulse leaves: the traces of its probes and vessels, profiles along the duct, and its books. Plain data; the JSON file is this object. Positions run from the left end of the first section.
 */

import type { Pulse } from '../../model/pulse.ts';

/** A trace's extreme and when it came. */
export interface Extreme {
  readonly pressure: number;
  readonly time: number;
}

export interface ProbeRecord {
  readonly name: string;
  readonly position: number;
  readonly pressure: readonly number[];
  readonly velocity: readonly number[];
  readonly temperature: readonly number[];
  readonly density: readonly number[];
  /** Pressures of the waves running right and left, superposed upon the ambient pressure [Pa]. */
  readonly forward: readonly number[];
  readonly backward: readonly number[];
  readonly peak: Extreme;
  readonly trough: Extreme;
}

export interface VesselRecord {
  readonly side: 'left' | 'right';
  readonly pressure: readonly number[];
  readonly temperature: readonly number[];
  readonly mass: readonly number[];
}

export interface ProfileRecord {
  readonly time: number;
  readonly positions: readonly number[];
  readonly pressure: readonly number[];
  readonly velocity: readonly number[];
  readonly temperature: readonly number[];
  readonly density: readonly number[];
}

/** Books of the run: what was held, what came in, and what of it is not accounted for. */
export interface PulseBalance {
  readonly massStart: number;
  readonly massEnd: number;
  /** Mass and energy that came in through the ends, less what left [kg, J]. */
  readonly massIn: number;
  readonly energyStart: number;
  readonly energyEnd: number;
  readonly energyIn: number;
  /** Heat from the walls into the gas [J]. */
  readonly wallHeat: number;
  /** Mass unaccounted for over the mass at the start [-]. */
  readonly massError: number;
  /** Energy unaccounted for over the thermal energy p V/(gamma-1) at the start [-]. */
  readonly energyError: number;
}

export interface DuctRecord {
  readonly name: string;
  readonly start: number;
  readonly length: number;
  readonly cells: number;
  /** Cell length [m]. */
  readonly cell: number;
}

export interface PulseResult {
  readonly schemaVersion: 1;
  readonly kind: 'pulse';
  readonly name: string;
  /** The file as it was understood, every default filled in. */
  readonly pulse: Pulse;
  /** Times of the samples [s]. */
  readonly time: readonly number[];
  readonly probes: readonly ProbeRecord[];
  readonly vessels: readonly VesselRecord[];
  readonly profiles: readonly ProfileRecord[];
  readonly ducts: readonly DuctRecord[];
  readonly steps: number;
  /** Steps that had to be taken again, smaller. */
  readonly rejectedSteps: number;
  readonly balance: PulseBalance;
  /** What was assumed and what did not go as it should, one sentence each. */
  readonly notes: readonly string[];
}

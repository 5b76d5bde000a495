/**
 * What a speed leaves beside its row: the traces of its last cycle, the waves followed through the pipe, and what was noted
 * on the way. Plain data; a sweep's file holds these objects. Angles run over one cycle from exhaust opening, degrees after
 * top dead centre.
 */

import type { PurityCurve } from './purity.ts';
import type { SweepRow } from './row.ts';

/** A wave followed through the pipe: out along u+a to a place, and back along u-a. */
export interface TracedPath {
  /** Where it turns: `baffle start`, `baffle middle`, `baffle end`. */
  readonly name: string;
  readonly outPositions: readonly number[];
  readonly outDeg: readonly number[];
  readonly backPositions: readonly number[];
  readonly backDeg: readonly number[];
}

export interface SpeedRecord {
  readonly row: SweepRow;
  /** What did not go as it should: not settled, steps rejected, model outside its range. One sentence each. */
  readonly notes: readonly string[];
  readonly traces: {
    /** Crank angle, uniform from exhaust opening over 360 degrees [deg]. */
    readonly angleDeg: readonly number[];
    readonly portPressure: readonly number[];
    /** Pressures of the wave running out and of the wave running back at the port face [Pa]. */
    readonly outgoingPressure: readonly number[];
    readonly returningPressure: readonly number[];
    readonly portVelocity: readonly number[];
    readonly cylinderPressure: readonly number[];
    readonly crankcasePressure: readonly number[];
    readonly exhaustArea: readonly number[];
    readonly transferArea: readonly number[];
    readonly passageExitMach: readonly number[];
  };
  /** Pressure over position and crank angle, `pressure[angle * positions.length + position]` [Pa]. */
  readonly diagram: {
    readonly positions: readonly number[];
    readonly angleDeg: readonly number[];
    readonly pressure: readonly number[];
  };
  readonly paths: readonly TracedPath[];
  /** Scavenging of the last cycle. */
  readonly purity: PurityCurve;
  /** Along the pipe over the last cycle: position from the port face, mean gas temperature, wall temperature [m, K]. */
  readonly along: {
    readonly positions: readonly number[];
    readonly gasTemperature: readonly number[];
    /** Weighted by the flow, as a probe in the stream has it [K]; absent in files of earlier versions. */
    readonly streamTemperature?: readonly number[];
    readonly wallTemperature: readonly number[];
  };
}

/** Outline of the exhaust from the port face on, passage included. Lengths in m. */
export interface OutlineSection {
  readonly name: string;
  readonly role: string;
  readonly start: number;
  readonly end: number;
  readonly diameters: readonly [number, number];
}

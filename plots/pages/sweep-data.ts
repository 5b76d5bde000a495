/**
 * What the sweep page is given: the sweep's result as it stands in its file, and what else is known about the inputs.
 * Declared here, structurally, because a page knows nothing of the rooms that compute. Lengths in m, pressures in Pa.
 */

import type { SpeedRow } from '../figures/sweep-row.ts';

export interface SweepPath {
  readonly name: string;
  readonly outPositions: readonly number[];
  readonly outDeg: readonly number[];
  readonly backPositions: readonly number[];
  readonly backDeg: readonly number[];
}

export interface SweepSpeed {
  readonly row: SpeedRow;
  readonly notes: readonly string[];
  readonly traces: {
    readonly angleDeg: readonly number[];
    readonly portPressure: readonly number[];
    readonly outgoingPressure: readonly number[];
    readonly returningPressure: readonly number[];
    readonly cylinderPressure: readonly number[];
    readonly crankcasePressure: readonly number[];
    readonly exhaustArea: readonly number[];
    readonly transferArea: readonly number[];
    readonly passageExitMach: readonly number[];
  };
  readonly diagram: {
    readonly positions: readonly number[];
    readonly angleDeg: readonly number[];
    /** `pressure[angle * positions.length + position]`. */
    readonly pressure: readonly number[];
  };
  readonly paths: readonly SweepPath[];
  readonly along: {
    readonly positions: readonly number[];
    readonly gasTemperature: readonly number[];
    readonly wallTemperature: readonly number[];
  };
}

/** A stretch of the exhaust from the port face on [m]. */
export interface PipeStretch {
  readonly name: string;
  readonly role: string;
  readonly start: number;
  readonly end: number;
  readonly diameters: readonly [number, number];
}

/** One input as the reader sees it. */
export interface InputLine {
  readonly path: string;
  /** With its unit. */
  readonly value: string;
  readonly assumed: boolean;
  readonly reason?: string;
  /** How far a stated change of it moves the answer. */
  readonly moves?: {
    readonly change: string;
    readonly leadDeg: number | null;
    readonly torqueNm: number | null;
  };
}

export interface SweepPageCase {
  readonly name: string;
  readonly note: string;
  readonly engine: { readonly name: string; readonly ambient: { readonly pressure: number } };
  readonly pipe: { readonly name: string };
  readonly run: { readonly cell: number; readonly scheme: string; readonly targetSpeed: number | null };
  readonly assumed: readonly { readonly path: string; readonly value: string; readonly reason: string }[];
}

export interface SweepPageResult {
  readonly program: string;
  readonly case: SweepPageCase;
  readonly outline: readonly PipeStretch[];
  /** [m3] */
  readonly displacement: number;
  readonly rows: readonly SpeedRow[];
  readonly speeds: readonly SweepSpeed[];
  readonly failures: readonly { readonly speedRpm: number; readonly reason: string }[];
}

export interface SweepPageExtras {
  /** Inputs to list; without it the assumed ones of the case are listed. */
  readonly inputs?: readonly InputLine[];
  /** Where their moves were computed: speed [rpm] and cell length [m]. */
  readonly movesAt?: { readonly speedRpm: number; readonly cell: number };
  /** When it was computed, as it is to be printed. */
  readonly date?: string;
}

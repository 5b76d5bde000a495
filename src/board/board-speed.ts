/** A speed as the board keeps and draws it: the row, and traces and diagram in the units of figures, in small typed arrays. */

import type { SpeedRecord, TracedPath } from '../findings/record.ts';
import type { SweepRow } from '../findings/row.ts';

/** Traces over crank angle: degrees, bar, mm2, Mach number. */
export interface BoardTraces {
  readonly angleDeg: Float32Array;
  readonly port: Float32Array;
  readonly outgoing: Float32Array;
  readonly returning: Float32Array;
  readonly cylinder: Float32Array;
  readonly crankcase: Float32Array;
  readonly exhaustArea: Float32Array;
  readonly transferArea: Float32Array;
  readonly mach: Float32Array;
}

export interface BoardSpeed {
  readonly row: SweepRow;
  readonly notes: readonly string[];
  readonly traces: BoardTraces;
  /** Pressure over position [mm] and crank angle [deg], a row an angle [bar], with its lowest and highest. */
  readonly field: {
    readonly positions: Float32Array;
    readonly angleDeg: Float32Array;
    readonly pressure: Float32Array;
    readonly lowest: number;
    readonly highest: number;
  };
  /** Traced waves: positions [mm], angles [deg]. */
  readonly paths: readonly TracedPath[];
}

const PER_BAR = 1e-5;

const scaled = (values: readonly number[], factor: number): Float32Array =>
  Float32Array.from(values, (value) => value * factor);

export function boardSpeed({ row, notes, traces, diagram, paths }: SpeedRecord): BoardSpeed {
  const pressure = scaled(diagram.pressure, PER_BAR);
  const bar = (values: readonly number[]): Float32Array => scaled(values, PER_BAR);
  return {
    row,
    notes,
    traces: {
      angleDeg: scaled(traces.angleDeg, 1),
      port: bar(traces.portPressure),
      outgoing: bar(traces.outgoingPressure),
      returning: bar(traces.returningPressure),
      cylinder: bar(traces.cylinderPressure),
      crankcase: bar(traces.crankcasePressure),
      exhaustArea: scaled(traces.exhaustArea, 1e6),
      transferArea: scaled(traces.transferArea, 1e6),
      mach: scaled(traces.passageExitMach, 1),
    },
    field: {
      positions: scaled(diagram.positions, 1000),
      angleDeg: scaled(diagram.angleDeg, 1),
      pressure,
      lowest: pressure.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY),
      highest: pressure.reduce((high, value) => Math.max(high, value), 0),
    },
    paths: paths.map((path) => ({
      ...path,
      outPositions: path.outPositions.map((place) => 1000 * place),
      backPositions: path.backPositions.map((place) => 1000 * place),
    })),
  };
}

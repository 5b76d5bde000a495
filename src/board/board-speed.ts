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

/** A loop: to make a typed array by a function of each value takes several times as long. */
function scaled(values: readonly number[], factor: number): Float32Array {
  const all = new Float32Array(values.length);
  for (let k = 0; k < all.length; k++) all[k] = values[k]! * factor;
  return all;
}

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
      ...extremesOf(pressure),
    },
    paths: paths.map((path) => ({
      ...path,
      outPositions: path.outPositions.map((place) => 1000 * place),
      backPositions: path.backPositions.map((place) => 1000 * place),
    })),
  };
}

function extremesOf(pressure: Float32Array): { readonly lowest: number; readonly highest: number } {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, 0];
  for (const value of pressure) {
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return { lowest, highest };
}

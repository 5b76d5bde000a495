/** A sweep as its page carries it, packed small, and each speed unpacked again for its figures. */

import type { ColumnBand } from '../../src/findings/member-bands.ts';
import type { PurityCurve } from '../../src/findings/purity.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { AnswerDrivers } from '../../src/findings/width-drivers.ts';
import type { CycleTraces } from '../figures/port-traces.ts';
import type { Along } from '../figures/temperature-along.ts';
import type { WavePath } from '../figures/wave-diagram.ts';
import type { PressureField } from '../marks/pressure-shades.ts';
import type { Stretch } from '../marks/silhouette.ts';
import { evenly, type Packed, unpack } from './packing.ts';

const traceNames = [
  'port',
  'outgoing',
  'returning',
  'cylinder',
  'crankcase',
  'exhaustArea',
  'transferArea',
  'mach',
] as const;

export interface PackedSpeed {
  readonly traces: Readonly<Record<(typeof traceNames)[number], Packed>>;
  readonly field: Packed;
  readonly paths: readonly WavePath[];
  readonly along: { readonly positions: Packed; readonly gas: Packed; readonly wall: Packed };
  readonly purity: PurityCurve;
  readonly notes: readonly string[];
}

export interface PackedSweep {
  readonly ambientBar: number;
  readonly outline: readonly Stretch[];
  readonly rows: readonly SweepRow[];
  readonly cycleAngles: number;
  readonly positions: { readonly from: number; readonly to: number; readonly count: number };
  readonly fieldAngles: number;
  readonly scale: { readonly lowest: number; readonly highest: number };
  /** Largest Mach number at the passage's end from exhaust to transfer opening, one a row [-]. */
  readonly blowdownMach: readonly (number | null)[];
  readonly speeds: readonly PackedSpeed[];
  /** How sure it is: percentiles of the columns that are shaded, and what drives the width. Empty: not asked for. */
  readonly bands: readonly ColumnBand[];
  readonly drivers: readonly AnswerDrivers[];
}

export interface DrawnSpeed {
  readonly row: SweepRow;
  readonly traces: CycleTraces;
  readonly field: PressureField;
  readonly paths: readonly WavePath[];
  readonly along: Along;
  readonly purity: PurityCurve;
  readonly notes: readonly string[];
}

export function unpackSpeed(sweep: PackedSweep, index: number): DrawnSpeed | null {
  const speed = sweep.speeds[index];
  const row = sweep.rows[index];
  if (!speed || !row) return null;
  const opens = row.exhaust_opens_deg;
  const { from, to, count } = sweep.positions;
  const flat = unpack(speed.field);
  const traces = Object.fromEntries(traceNames.map((name) => [name, unpack(speed.traces[name])])) as Record<
    (typeof traceNames)[number],
    Float64Array
  >;
  return {
    row,
    traces: { angleDeg: evenly(opens, opens + 360, sweep.cycleAngles), ...traces },
    field: {
      positions: evenly(from, to, count),
      angleDeg: evenly(opens, opens + 360, sweep.fieldAngles),
      pressure: Array.from({ length: sweep.fieldAngles }, (_, j) =>
        flat.subarray(j * count, (j + 1) * count),
      ),
      ...sweep.scale,
    },
    paths: speed.paths,
    along: {
      positions: unpack(speed.along.positions),
      gas: unpack(speed.along.gas),
      wall: unpack(speed.along.wall),
    },
    purity: speed.purity,
    notes: speed.notes,
  };
}

/** The part of a sweep that its page draws, packed small: 25 speeds take about two megabytes. */

import type { BandsAnswer } from '../../src/findings/answers/bands.ts';
import { columnBand } from '../../src/findings/member-bands.ts';
import type { SpeedRecord } from '../../src/findings/record.ts';
import type { PackedSpeed, PackedSweep } from './packed-sweep.ts';
import { evenly, type Packed, pack, resample } from './packing.ts';
import { fieldOf, resampleField } from './resample-field.ts';
import { stretchMm } from './stretch-mm.ts';
import type { SweepPageResult } from './sweep-data.ts';

/** Angles in a trace (every 0.5°) and rows and columns of a field, at most. */
const limits = { cycleAngles: 721, fieldAngles: 241, positions: 160 };

const bar = (pascal: number): number => pascal / 1e5;
const rounded = (values: readonly number[], factor: number, decimals: number): number[] =>
  values.map((value) => Number((value * factor).toFixed(decimals)));

/** Lowest and highest pressure of all diagrams, so that every speed has the same shades [bar]. */
function commonScale(speeds: readonly SpeedRecord[]): { lowest: number; highest: number } {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = 0;
  for (const { diagram } of speeds)
    for (const pressure of diagram.pressure) {
      if (pressure < lowest) lowest = pressure;
      if (pressure > highest) highest = pressure;
    }
  return { lowest: bar(Math.min(lowest, highest)), highest: bar(highest) };
}

function blowdownMach(speed: SpeedRecord | undefined): number | null {
  if (speed === undefined) return null;
  const { traces, row } = speed;
  const inside = traces.passageExitMach.filter((_, i) => {
    const angle = traces.angleDeg[i] ?? Number.NaN;
    return angle >= row.exhaust_opens_deg && angle <= row.transfers_open_deg;
  });
  return inside.length === 0 ? null : Number(Math.max(...inside).toFixed(3));
}

/** Columns over which members are shaded. */
const SHADED = ['torque_nm', 'power_kw', 'plugback_centroid_deg'] as const;

export function packSweep(result: SweepPageResult, sure: BandsAnswer | null = null): PackedSweep {
  const first = result.speeds[0];
  const cycleAngles = Math.min(limits.cycleAngles, first?.traces.angleDeg.length ?? 2);
  const fieldAngles = Math.min(limits.fieldAngles, first?.diagram.angleDeg.length ?? 2);
  const from = 0;
  const to = result.outline.at(-1)?.end ?? first?.diagram.positions.at(-1) ?? 1;
  const count = Math.min(limits.positions, first?.diagram.positions.length ?? 2);
  const scale = commonScale(result.speeds);
  return {
    ambientBar: bar(result.case.engine.ambient.pressure),
    outline: result.outline.map(stretchMm),
    rows: result.rows,
    cycleAngles,
    positions: { from: 1000 * from, to: 1000 * to, count },
    fieldAngles,
    scale,
    blowdownMach: result.rows.map((_, i) => blowdownMach(result.speeds[i])),
    speeds: result.speeds.map((speed) => packSpeed(speed, evenly(from, to, count))),
    bands: sure === null ? [] : SHADED.flatMap((name) => columnBand(sure.bands, name)),
    drivers: sure?.drivers ?? [],
  };

  function packSpeed(speed: SpeedRecord, positions: ArrayLike<number>): PackedSpeed {
    const { traces, diagram, along } = speed;
    const opens = speed.row.exhaust_opens_deg;
    const angles = evenly(opens, opens + 360, cycleAngles);
    const trace = (values: readonly number[], factor: number): Packed =>
      pack(
        resample(traces.angleDeg, values, angles).map((value) => value * factor),
        16,
      );
    const field = resampleField(
      fieldOf(diagram.angleDeg, diagram.positions, diagram.pressure),
      evenly(opens, opens + 360, fieldAngles),
      positions,
    );
    return {
      traces: {
        port: trace(traces.portPressure, 1e-5),
        outgoing: trace(traces.outgoingPressure, 1e-5),
        returning: trace(traces.returningPressure, 1e-5),
        cylinder: trace(traces.cylinderPressure, 1e-5),
        crankcase: trace(traces.crankcasePressure, 1e-5),
        exhaustArea: trace(traces.exhaustArea, 1e6),
        transferArea: trace(traces.transferArea, 1e6),
        mach: trace(traces.passageExitMach, 1),
      },
      field: pack(field.data.map(bar), 8, { low: scale.lowest, high: scale.highest }),
      paths: speed.paths.map((path) => ({
        name: path.name,
        outPositions: rounded(path.outPositions, 1000, 1),
        outDeg: rounded(path.outDeg, 1, 2),
        backPositions: rounded(path.backPositions, 1000, 1),
        backDeg: rounded(path.backDeg, 1, 2),
      })),
      along: {
        positions: pack(rounded(along.positions, 1000, 1), 16),
        gas: pack(
          along.gasTemperature.map((kelvin) => kelvin - 273.15),
          16,
        ),
        wall: pack(
          along.wallTemperature.map((kelvin) => kelvin - 273.15),
          16,
        ),
      },
      purity: speed.purity,
      notes: speed.notes,
    };
  }
}

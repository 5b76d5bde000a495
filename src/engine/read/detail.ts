/** What the page draws of a speed: traces and diagram of the last cycle, the waves followed through it, means along the pipe. */

import { NO_PURITY, purityCurve } from '../../findings/purity.ts';
import type { SpeedRecord } from '../../findings/record.ts';
import { significant } from '../../findings/significant.ts';
import type { Path } from '../../findings/trace-path.ts';
import { samplePort } from '../../timing/schedule.ts';
import type { EngineNetwork } from '../build.ts';
import { channelOf, TRACE_STEP_DEG } from './read-cycle.ts';
import { CHANNEL, FIELD_STEP_DEG } from './recorder.ts';
import type { Settled } from './window.ts';

/** Columns of the stored wave diagram at most, and degrees between its rows. */
const DIAGRAM_COLUMNS = 110;
const DIAGRAM_STEP_DEG = 2;

export type Detail = Pick<SpeedRecord, 'traces' | 'diagram' | 'paths' | 'purity'>;

export function emptyDetail(): Detail {
  const none: number[] = [];
  return {
    traces: {
      angleDeg: none,
      portPressure: none,
      outgoingPressure: none,
      returningPressure: none,
      portVelocity: none,
      cylinderPressure: none,
      crankcasePressure: none,
      exhaustArea: none,
      transferArea: none,
      passageExitMach: none,
    },
    diagram: { positions: none, angleDeg: none, pressure: none },
    paths: [],
    purity: NO_PURITY,
  };
}

function rounded(values: ArrayLike<number>, digits = 5): number[] {
  return Array.from(values, (value) => significant(value, digits));
}

export function detailOf(engine: EngineNetwork, settled: Settled, opens: number): Detail {
  const { recorder } = settled;
  const { traces, paths } = settled.window.at(-1)!.reading;
  const points = traces.portPressure.length;
  const angleDeg = Array.from({ length: points }, (_, i) => Number((opens + i * TRACE_STEP_DEG).toFixed(3)));
  const area = (table: typeof engine.schedule.exhaustWall): number[] =>
    angleDeg.map((deg) => significant(samplePort(table, deg), 5));
  return {
    traces: {
      angleDeg,
      portPressure: rounded(traces.portPressure),
      outgoingPressure: rounded(traces.outgoing),
      returningPressure: rounded(traces.returning),
      portVelocity: rounded(traces.portVelocity, 4),
      cylinderPressure: rounded(channelOf(recorder, CHANNEL.cylinderPressure)),
      crankcasePressure: rounded(channelOf(recorder, CHANNEL.crankcasePressure)),
      exhaustArea: area(engine.schedule.exhaustWall),
      transferArea: area(engine.schedule.transferWall),
      passageExitMach: rounded(channelOf(recorder, CHANNEL.mach), 3),
    },
    diagram: diagramOf(settled, opens),
    paths: paths.map((path) => tracedPath(path, opens)),
    purity: purityOf(engine, settled),
  };
}

function purityOf({ schedule, rpm }: EngineNetwork, { recorder }: Settled): SpeedRecord['purity'] {
  const { exhaust, transfers } = schedule.events;
  const { ratio, kept, leaving } = purityCurve(
    {
      steps: recorder.steps,
      degPerSecond: 6 * rpm,
      endDeg: recorder.channels[CHANNEL.endDeg]!,
      mass: recorder.channels[CHANNEL.cylinderMass]!,
      burnt: recorder.channels[CHANNEL.cylinderBurnt]!,
      transferFlow: recorder.channels[CHANNEL.transferFlow]!,
      exhaustFlow: recorder.channels[CHANNEL.exhaustFlow]!,
      exhaustBurnt: recorder.channels[CHANNEL.exhaustBurnt]!,
    },
    transfers.opensDeg - exhaust.opensDeg,
    exhaust.closesDeg - exhaust.opensDeg,
  );
  const few = (share: number): number => Number(share.toFixed(4));
  return {
    ratio: ratio.map(few),
    kept: kept.map(few),
    leaving: leaving.map((share) => (share === null ? null : few(share))),
  };
}

/** A wave's way, from degrees after exhaust opening into those of the crank. */
export function tracedPath(
  { name, out, back }: { readonly name: string; readonly out: Path; readonly back: Path },
  opens: number,
): SpeedRecord['paths'][number] {
  const crank = (deg: readonly number[]): number[] =>
    rounded(
      deg.map((d) => d + opens),
      5,
    );
  return {
    name,
    outPositions: rounded(out.positions, 4),
    outDeg: crank(out.deg),
    backPositions: rounded(back.positions, 4),
    backDeg: crank(back.deg),
  };
}

/** Every so many cells a column, that of the first cell being one. */
function columnStride(cells: number): number {
  return Math.max(1, Math.ceil(cells / DIAGRAM_COLUMNS));
}

function diagramOf({ recorder }: Settled, opens: number): SpeedRecord['diagram'] {
  const stride = columnStride(recorder.positions.length);
  const { rows: fields, cells, data } = recorder.pressure;
  const every = DIAGRAM_STEP_DEG / FIELD_STEP_DEG;
  const rows = Math.ceil(fields / every);
  return {
    positions: everyOf(recorder.positions, stride, 4),
    angleDeg: Array.from({ length: rows }, (_, r) => Number((opens + r * DIAGRAM_STEP_DEG).toFixed(3))),
    pressure: Array.from({ length: rows }, (_, r) => rowOf(data, r * every * cells, cells, stride)).flat(),
  };
}

/** Every so many cells of a row of a field, to four digits. */
function rowOf(data: Float64Array, from: number, cells: number, stride: number): number[] {
  const row: number[] = [];
  for (let k = 0; k < cells; k += stride) row.push(significant(data[from + k]!, 4));
  return row;
}

/** Values of every so many cells to some decimals. */
function everyOf(values: ArrayLike<number>, stride: number, decimals: number): number[] {
  const count = Math.ceil(values.length / stride);
  return Array.from({ length: count }, (_, k) => Number(values[k * stride]!.toFixed(decimals)));
}

export function alongOf(engine: EngineNetwork, { recorder }: Settled): SpeedRecord['along'] {
  const { positions, temperatureTime } = recorder;
  const turn = 60 / engine.rpm;
  const walls = engine.exhaust.pieces.flatMap(({ duct }) => [...duct.wallTemperature]);
  const stride = columnStride(positions.length);
  return {
    positions: everyOf(positions, stride, 4),
    gasTemperature: everyOf(
      temperatureTime.map((sum) => sum / turn),
      stride,
      1,
    ),
    streamTemperature: everyOf(
      recorder.fluxTemperature.map((sum, k) => sum / recorder.flux[k]!),
      stride,
      1,
    ),
    wallTemperature: everyOf(walls, stride, 1),
  };
}

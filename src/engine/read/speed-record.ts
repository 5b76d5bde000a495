/** Puts a settled engine's last cycles into the row of the contract and the traces that the page draws. */

import type { SpeedRecord } from '../../findings/record.ts';
import { type Reading, reading, type SweepRow } from '../../findings/row.ts';
import { handbookGasTemperature, handbookSoundSpeed, returnAngle } from '../../timing/handbook.ts';
import { DEFAULT_BMEP } from '../../timing/report.ts';
import { samplePort } from '../../timing/schedule.ts';
import type { EngineNetwork } from '../build.ts';
import type { CycleSummary, Settled } from '../run/settle.ts';
import { echoReturn, outgoingPeak } from './echo.ts';
import { type MeanCycle, meanCycle } from './mean-cycle.ts';
import { notesOf } from './notes.ts';
import { baffleOf, channelOf, TRACE_STEP_DEG } from './read-cycle.ts';
import { CHANNEL, FIELD_STEP_DEG } from './recorder.ts';

/** Columns of the stored wave diagram at most, and degrees between its rows. */
const DIAGRAM_COLUMNS = 110;
const DIAGRAM_STEP_DEG = 2;
const BAR = 1e5;

export function speedRecord(
  engine: EngineNetwork,
  settled: Settled,
  firstPulse: () => number,
  brief: boolean,
): SpeedRecord {
  const last = settled.window.at(-1) as CycleSummary;
  const opens = engine.schedule.events.exhaust.opensDeg;
  const detail = brief ? emptyDetail() : detailOf(engine, settled, last, opens);
  const along = alongOf(engine, settled);
  const cycle = meanCycle(engine, settled.window);
  const echo = echoReturn(engine, settled.recorder, cycle.plugBack, baffleOf(engine));
  // From here on the recorder is used again.
  const first = firstPulse();
  const ambient = engine.subject.engine.ambient.pressure;
  const gain = (outgoingPeak(engine, cycle.outgoing) - ambient) / (first - ambient);
  const row = rowOf(engine, settled, cycle, { opens, echo, gain });
  return { row, notes: notesOf(engine, settled, cycle, row), ...detail, along };
}

interface Echo {
  readonly opens: number;
  readonly echo: number | null;
  readonly gain: number;
}

function rowOf(engine: EngineNetwork, settled: Settled, cycle: MeanCycle, found: Echo): SweepRow {
  const { exhaust, transfers } = engine.schedule.events;
  const { rpm } = engine;
  const { window, spread } = settled;
  const { mean, output, plugBack } = cycle;
  const { opens } = found;
  const afterOpening = (deg: number | null): Reading => (deg === null ? null : opens + deg);
  const peakDeg = afterOpening(plugBack.peakDeg);
  const waveSpeed = handbookSoundSpeed(handbookGasTemperature(DEFAULT_BMEP));
  return {
    speed_rpm: rpm,
    settled: settled.settled,
    cycles: settled.cycles,
    exhaust_opens_deg: exhaust.opensDeg,
    transfers_open_deg: transfers.opensDeg,
    transfers_close_deg: transfers.closesDeg,
    exhaust_closes_deg: exhaust.closesDeg,
    suction_bar: plugBack.suctionPressure / BAR,
    suction_deg: opens + plugBack.suctionDeg,
    port_mean_during_transfer_bar: mean((s) => s.book.portImpulse / s.book.transferTime) / BAR,
    plugback_onset_deg: afterOpening(plugBack.onsetDeg),
    plugback_peak_deg: peakDeg,
    plugback_centroid_deg: afterOpening(plugBack.centroidDeg),
    plugback_end_deg: afterOpening(plugBack.endDeg),
    plugback_peak_bar: plugBack.peakPressure / BAR,
    plugback_lead_deg: peakDeg === null ? null : exhaust.closesDeg - peakDeg,
    plugback_share_before_closing: plugBack.shareBeforeClosing,
    packed_mass_ratio: reading(mean((s) => s.book.packed) / mean((s) => s.book.trapped)),
    echo_return_deg: afterOpening(found.echo),
    echo_gain: reading(found.gain),
    transfer_opening_cylinder_bar: mean((s) => s.book.openingCylinder) / BAR,
    transfer_opening_crankcase_bar: mean((s) => s.book.openingCrankcase) / BAR,
    passage_exit_mach_max: mean((s) => s.reading.machMax),
    delivery_ratio: reading(output.deliveryRatio),
    scavenging_efficiency: reading(output.scavengingEfficiency),
    trapping_efficiency: reading(output.trappingEfficiency),
    charging_efficiency: reading(output.chargingEfficiency),
    imep_bar: reading(output.imep / BAR),
    bmep_bar: reading(output.bmep / BAR),
    torque_nm: reading(output.torque),
    power_kw: reading(output.power / 1000),
    exhaust_gas_temperature_k: reading(mean((s) => s.reading.flangeTemperature)),
    pipe_mean_temperature_k: mean((s) => s.pipeTemperature),
    traced_return_baffle_start_deg: afterOpening(cycle.returns.start),
    traced_return_baffle_middle_deg: afterOpening(cycle.returns.middle),
    traced_return_baffle_end_deg: afterOpening(cycle.returns.end),
    handbook_return_deg: opens + returnAngle(baffleOf(engine).end, waveSpeed, rpm),
    mass_balance_error: reading(Math.max(...window.map((s) => s.book.massError))),
    energy_balance_error: reading(Math.max(...window.map((s) => s.book.energyError))),
    spread_torque_percent: spread.torquePercent,
    spread_plugback_deg: spread.plugBackDeg,
    transfer_backflow_ratio: reading(mean((s) => s.book.transferBack) / mean((s) => s.book.delivered)),
  };
}

type Detail = Pick<SpeedRecord, 'traces' | 'diagram' | 'paths'>;

function emptyDetail(): Detail {
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
  };
}

function rounded(values: ArrayLike<number>, digits = 5): number[] {
  return Array.from(values, (v) => Number(v.toPrecision(digits)));
}

function detailOf(engine: EngineNetwork, settled: Settled, last: CycleSummary, opens: number): Detail {
  const { recorder } = settled;
  const { traces } = last.reading;
  const points = traces.portPressure.length;
  const angleDeg = Array.from({ length: points }, (_, i) => Number((opens + i * TRACE_STEP_DEG).toFixed(3)));
  const area = (table: typeof engine.schedule.exhaustWall): number[] =>
    angleDeg.map((deg) => Number(samplePort(table, deg).toPrecision(5)));
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
    paths: last.reading.paths.map(({ name, out, back }) => ({
      name,
      outPositions: rounded(out.positions, 4),
      outDeg: rounded(
        out.deg.map((d) => d + opens),
        5,
      ),
      backPositions: rounded(back.positions, 4),
      backDeg: rounded(
        back.deg.map((d) => d + opens),
        5,
      ),
    })),
  };
}

function diagramOf(settled: Settled, opens: number): SpeedRecord['diagram'] {
  const { positions, pressure } = settled.recorder;
  const stride = Math.max(1, Math.ceil(positions.length / DIAGRAM_COLUMNS));
  const columns = Array.from({ length: Math.ceil(positions.length / stride) }, (_, k) => k * stride);
  const rows = Math.round(360 / DIAGRAM_STEP_DEG) + 1;
  const values: number[] = [];
  const angleDeg: number[] = [];
  for (let r = 0; r < rows; r++) {
    const field = (r * DIAGRAM_STEP_DEG) / FIELD_STEP_DEG;
    angleDeg.push(Number((opens + r * DIAGRAM_STEP_DEG).toFixed(3)));
    for (const k of columns)
      values.push(Number((pressure[field * positions.length + k] as number).toPrecision(4)));
  }
  return {
    positions: columns.map((k) => Number((positions[k] as number).toFixed(4))),
    angleDeg,
    pressure: values,
  };
}

function alongOf(engine: EngineNetwork, settled: Settled): SpeedRecord['along'] {
  const { positions, temperatureTime } = settled.recorder;
  const turn = 60 / engine.rpm;
  const walls = engine.exhaust.pieces.flatMap(({ duct }) => [...duct.wallTemperature]);
  const stride = Math.max(1, Math.ceil(positions.length / DIAGRAM_COLUMNS));
  const pick = Array.from({ length: Math.ceil(positions.length / stride) }, (_, k) => k * stride);
  return {
    positions: pick.map((k) => Number((positions[k] as number).toFixed(4))),
    gasTemperature: pick.map((k) => Number(((temperatureTime[k] as number) / turn).toFixed(1))),
    wallTemperature: pick.map((k) => Number((walls[k] as number).toFixed(1))),
  };
}

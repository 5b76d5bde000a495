/** Puts a settled engine's last cycles into the row of the contract and the traces that the page draws. */

import type { SweepRow } from '../../findings/row.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import { handbookGasTemperature, handbookSoundSpeed, returnAngle } from '../../timing/handbook.ts';
import { DEFAULT_BMEP } from '../../timing/report.ts';
import { samplePort } from '../../timing/schedule.ts';
import type { SpeedRecord } from '../result.ts';
import type { EngineNetwork } from './build.ts';
import { echoReturn, outgoingPeak } from './echo.ts';
import { baffleOf, channelOf, outputOfBook, TRACE_STEP_DEG } from './read-cycle.ts';
import { CHANNEL, FIELD_STEP_DEG } from './recorder.ts';
import { type CycleSummary, meanOf, QUIET, type Settled, STEADY } from './settle.ts';

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
  const machMax = channelOf(settled.recorder, CHANNEL.mach).reduce((a, b) => Math.max(a, b), 0);
  const echo = echoReturn(engine, settled.recorder, last.reading, baffleOf(engine));
  const gasTemperature = flangeTemperature(engine, settled);
  const outgoing = outgoingPeak(engine, last.reading.traces.outgoing);
  // From here on the recorder is used again.
  const ambient = engine.subject.engine.ambient.pressure;
  const gain = (outgoing - ambient) / (firstPulse() - ambient);
  const row = rowOf(engine, settled, { opens, machMax, echo: echo + opens, gain, gasTemperature });
  return { row, notes: notesOf(engine, settled, last), ...detail, along };
}

interface RowExtras {
  readonly opens: number;
  readonly machMax: number;
  readonly echo: number;
  readonly gain: number;
  readonly gasTemperature: number;
}

function rowOf(engine: EngineNetwork, settled: Settled, extras: RowExtras): SweepRow {
  const { exhaust, transfers } = engine.schedule.events;
  const { rpm } = engine;
  const { window, spread } = settled;
  const mean = (value: (s: CycleSummary) => number): number => meanOf(window.map(value));
  const plug = (key: 'onsetDeg' | 'peakDeg' | 'centroidDeg' | 'endDeg' | 'suctionDeg'): number =>
    extras.opens + mean((s) => s.reading.plugBack[key]);
  // Of the mean books, so that charging = delivery times trapping holds for the means too.
  const output = outputOfBook(engine, {
    cylinderWork: mean((s) => s.book.cylinderWork),
    crankcaseWork: mean((s) => s.book.crankcaseWork),
    delivered: mean((s) => s.book.delivered),
    trapped: mean((s) => s.book.trapped),
    trappedFresh: mean((s) => s.book.trappedFresh),
  });
  const back = (place: 'start' | 'middle' | 'end'): number =>
    extras.opens + mean((s) => s.reading.returns[place]);
  const peakDeg = plug('peakDeg');
  const waveSpeed = handbookSoundSpeed(handbookGasTemperature(DEFAULT_BMEP));
  return {
    speed_rpm: rpm,
    settled: settled.settled,
    cycles: settled.cycles,
    exhaust_opens_deg: exhaust.opensDeg,
    transfers_open_deg: transfers.opensDeg,
    transfers_close_deg: transfers.closesDeg,
    exhaust_closes_deg: exhaust.closesDeg,
    suction_bar: mean((s) => s.reading.plugBack.suctionPressure) / BAR,
    suction_deg: plug('suctionDeg'),
    port_mean_during_transfer_bar: mean((s) => s.book.portImpulse / s.book.transferTime) / BAR,
    plugback_onset_deg: plug('onsetDeg'),
    plugback_peak_deg: peakDeg,
    plugback_centroid_deg: plug('centroidDeg'),
    plugback_end_deg: plug('endDeg'),
    plugback_peak_bar: mean((s) => s.reading.plugBack.peakPressure) / BAR,
    plugback_lead_deg: exhaust.closesDeg - peakDeg,
    plugback_share_before_closing: mean((s) => s.reading.plugBack.shareBeforeClosing),
    packed_mass_ratio: mean((s) => s.book.packed) / mean((s) => s.book.trapped),
    echo_return_deg: extras.echo,
    echo_gain: extras.gain,
    transfer_opening_cylinder_bar: mean((s) => s.book.openingCylinder) / BAR,
    transfer_opening_crankcase_bar: mean((s) => s.book.openingCrankcase) / BAR,
    passage_exit_mach_max: extras.machMax,
    delivery_ratio: output.deliveryRatio,
    scavenging_efficiency: output.scavengingEfficiency,
    trapping_efficiency: output.trappingEfficiency,
    charging_efficiency: output.chargingEfficiency,
    imep_bar: output.imep / BAR,
    bmep_bar: output.bmep / BAR,
    torque_nm: output.torque,
    power_kw: output.power / 1000,
    exhaust_gas_temperature_k: extras.gasTemperature,
    pipe_mean_temperature_k: mean((s) => s.pipeTemperature),
    traced_return_baffle_start_deg: back('start'),
    traced_return_baffle_middle_deg: back('middle'),
    traced_return_baffle_end_deg: back('end'),
    handbook_return_deg: extras.opens + returnAngle(baffleOf(engine).end, waveSpeed, rpm),
    mass_balance_error: Math.max(...window.map((s) => s.book.massError)),
    energy_balance_error: Math.max(...window.map((s) => s.book.energyError)),
    spread_torque_percent: spread.torquePercent,
    spread_plugback_deg: spread.plugBackDeg,
    transfer_backflow_ratio: mean((s) => s.book.transferBack) / mean((s) => s.book.delivered),
  };
}

/** Flow-weighted mean gas temperature at the flange [K]. */
function flangeTemperature(engine: EngineNetwork, settled: Settled): number {
  const { recorder } = settled;
  const at = engine.subject.engine.passage.length;
  let k = 0;
  recorder.positions.forEach((x, i) => {
    if (x <= at) k = i;
  });
  return (recorder.fluxTemperature[k] as number) / (recorder.flux[k] as number);
}

function notesOf(engine: EngineNetwork, settled: Settled, last: CycleSummary): string[] {
  const notes: string[] = [];
  const { spread } = settled;
  if (!settled.settled) {
    notes.push(
      `Not settled after ${settled.cycles} cycles: over the last ${settled.window.length} the torque still varied by ` +
        `${spread.torquePercent.toFixed(2)} %, the plug-back by ${spread.plugBackDeg.toFixed(1)} deg and the pipe's ` +
        `temperature moved ${spread.temperaturePerCycle.toFixed(2)} K a cycle.`,
    );
  }
  if (settled.settled && spread.torquePercent > 100 * QUIET.torque) {
    notes.push(
      `Cycles go on varying about a steady mean: torque by ${spread.torquePercent.toFixed(1)} % over ` +
        `${settled.window.length} cycles (allowed ${100 * STEADY.torque} %).`,
    );
  }
  if (!last.reading.plugBack.found)
    notes.push("The returning wave never rises above ambient pressure where the baffle's echo is expected.");
  const rejected = engine.network.ledger.rejected;
  if (rejected > 0) notes.push(`${rejected} steps were rejected and taken again, smaller.`);
  const speed = meanPistonSpeed(engine.schedule.volumes.crank, engine.rpm);
  if (speed > 26)
    notes.push(
      `Mean piston speed ${speed.toFixed(1)} m/s is beyond common practice (about 23 to 24, no source).`,
    );
  return notes;
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
  const walls = engine.exhaust.flatMap(({ duct }) => [...duct.wallTemperature]);
  const stride = Math.max(1, Math.ceil(positions.length / DIAGRAM_COLUMNS));
  const pick = Array.from({ length: Math.ceil(positions.length / stride) }, (_, k) => k * stride);
  return {
    positions: pick.map((k) => Number((positions[k] as number).toFixed(4))),
    gasTemperature: pick.map((k) => Number(((temperatureTime[k] as number) / turn).toFixed(1))),
    wallTemperature: pick.map((k) => Number((walls[k] as number).toFixed(1))),
  };
}

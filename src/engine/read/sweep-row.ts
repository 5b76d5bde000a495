/** Fills the row of the contract from the mean cycle of a settled engine. A new column is filled here. */

import { type Reading, reading, type SweepRow } from '../../findings/row.ts';
import {
  HANDBOOK_BMEP,
  handbookGasTemperature,
  handbookSoundSpeed,
  returnAngle,
} from '../../timing/handbook.ts';
import type { EngineNetwork } from '../build.ts';
import type { MeanCycle } from './mean-cycle.ts';
import { baffleOf } from './read-cycle.ts';
import type { WhileTransferring } from './while-transferring.ts';
import type { Settled } from './window.ts';

const BAR = 1e5;

/** What is found outside the window of cycles. */
export interface Beside {
  /** Second return of the wave, degrees after exhaust opening; null: it never comes. */
  readonly echo: number | null;
  /** Settled outgoing pulse over that of a first cycle [-]. */
  readonly gain: number;
  readonly during: WhileTransferring;
}

/** An angle without the last digits that its way over heights leaves: 82.5 and not 82.50000000000003 [deg]. */
const asDrawn = (deg: number): number => Number(deg.toFixed(9));

export function sweepRow(engine: EngineNetwork, settled: Settled, cycle: MeanCycle, found: Beside): SweepRow {
  const { exhaust, transfers } = engine.schedule.events;
  const { rpm } = engine;
  const { window, spread } = settled;
  const { mean, output, plugBack } = cycle;
  const { suction, compression, path } = found.during;
  const opens = exhaust.opensDeg;
  const afterOpening = (deg: number | null): Reading => (deg === null ? null : asDrawn(opens + deg));
  const peakDeg = afterOpening(plugBack.peakDeg);
  const waveSpeed = handbookSoundSpeed(handbookGasTemperature(HANDBOOK_BMEP));
  return {
    speed_rpm: rpm,
    settled: settled.verdict !== 'moving',
    cycles: settled.cycles,
    exhaust_opens_deg: asDrawn(exhaust.opensDeg),
    transfers_open_deg: asDrawn(transfers.opensDeg),
    transfers_close_deg: asDrawn(transfers.closesDeg),
    exhaust_closes_deg: asDrawn(exhaust.closesDeg),
    suction_bar: plugBack.suctionPressure / BAR,
    suction_deg: asDrawn(opens + plugBack.suctionDeg),
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
    transfer_backflow_ratio:
      output.deliveryRatio === null
        ? null
        : reading(mean((s) => s.book.transferBack) / mean((s) => s.book.delivered)),
    transfer_compression_bar: compression === null ? null : compression.rise / BAR,
    transfer_compression_deg: afterOpening(compression?.deg ?? null),
    suction_depth_bar: suction === null ? null : suction.depth / BAR,
    suction_length_deg: suction?.length ?? null,
    other_wave_deg: afterOpening(plugBack.beside?.deg ?? null),
    other_wave_counted: plugBack.beside?.counted ?? null,
    header_gas_temperature_k: reading(mean((s) => s.reading.gauges.header.gas)),
    belly_gas_temperature_k: reading(mean((s) => s.reading.gauges.belly.gas)),
    stinger_gas_temperature_k: reading(mean((s) => s.reading.gauges.stinger.gas)),
    header_wall_temperature_k: reading(mean((s) => s.reading.gauges.header.wall)),
    belly_wall_temperature_k: reading(mean((s) => s.reading.gauges.belly.wall)),
    stinger_wall_temperature_k: reading(mean((s) => s.reading.gauges.stinger.wall)),
    stinger_back_pressure_bar: reading(mean((s) => s.reading.gauges.stingerBackPressure) / BAR),
    crankcase_lowest_bar: reading(mean((s) => s.reading.gauges.crankcase[0]) / BAR),
    crankcase_highest_bar: reading(mean((s) => s.reading.gauges.crankcase[1]) / BAR),
    suction_end_deg: afterOpening(suction?.endDeg ?? null),
    transfer_compression_left_deg: afterOpening(path?.out.deg[0] ?? null),
    transfer_burnt_share: reading(mean((s) => s.book.transferInBurnt) / mean((s) => s.book.transferIn)),
  };
}

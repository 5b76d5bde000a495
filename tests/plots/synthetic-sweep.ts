/**
 * SYNTHETIC: an invented sweep in the shape of a real one, for the tests of the pages only. A pulse runs out and is
 * answered by a linear superposition of small echoes from the diffuser (suction) and the baffle (compression) at one
 * wave speed. No number in it is a result.
 */

import type { SweepPageResult } from '../../plots/pages/sweep-data.ts';
import type { OutlineSection, SpeedRecord } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';

const events = { opens: 83, transfersOpen: 114, transfersClose: 246, closes: 277 };
const ambient = 101325;
const waveSpeed = 540;

const stretch = (
  name: string,
  role: string,
  start: number,
  length: number,
  left: number,
  right: number,
): OutlineSection => ({
  name,
  role,
  start: start / 1000,
  end: (start + length) / 1000,
  diameters: [left / 1000, right / 1000],
});

export const syntheticOutline: readonly OutlineSection[] = [
  stretch('passage', 'passage', 0, 75, 38, 40),
  stretch('header', 'header', 75, 225, 40, 44),
  stretch('diffuser 1', 'diffuser', 300, 130, 44, 66),
  stretch('diffuser 2', 'diffuser', 430, 110, 66, 98),
  stretch('diffuser 3', 'diffuser', 540, 70, 98, 118),
  stretch('belly', 'belly', 610, 90, 118, 118),
  stretch('baffle', 'baffle', 700, 180, 118, 24),
  stretch('stinger', 'stinger', 880, 250, 24, 24),
];

const pulse = (degrees: number, speedRpm: number): number =>
  degrees < 0
    ? 0
    : 62_000 * (degrees / 22) ** 2 * Math.exp(2 * (1 - degrees / 22)) * (speedRpm / 10_000) ** 0.4;

/** Echo strength per metre: minus half the logarithmic slope of the area, as a weak wave in a gentle taper has it. */
const echoes = syntheticOutline
  .filter((part) => part.role === 'diffuser' || part.role === 'baffle')
  .flatMap((part) =>
    Array.from({ length: 8 }, (_, i) => {
      const share = (i + 0.5) / 8;
      const [left, right] = part.diameters;
      const diameter = left + (right - left) * share;
      const growth = (right - left) / diameter / 8;
      return { x: part.start + (part.end - part.start) * share, strength: -growth };
    }),
  );

/** Speeds that were made: a field of waves takes some 30 ms, and many tests of pages want the same. */
const made = new Map<number, SpeedRecord>();

function syntheticSpeed(speedRpm: number): SpeedRecord {
  const known = made.get(speedRpm) ?? newSpeed(speedRpm);
  made.set(speedRpm, known);
  return known;
}

function newSpeed(speedRpm: number): SpeedRecord {
  const perMetre = (6 * speedRpm) / waveSpeed;
  const out = (theta: number, x: number): number => pulse(theta - events.opens - perMetre * x, speedRpm);
  const back = (theta: number, x: number): number => {
    let sum = 0;
    for (const echo of echoes)
      if (echo.x > x)
        sum += echo.strength * pulse(theta - events.opens - perMetre * (2 * echo.x - x), speedRpm);
    return 0.9 * sum;
  };
  const angleDeg = Array.from({ length: 361 }, (_, i) => events.opens + i);
  const outgoing = angleDeg.map((theta) => ambient + out(theta, 0) + 0.25 * Math.max(0, back(theta, 0)));
  const returning = angleDeg.map((theta) => ambient + back(theta, 0));
  const port = angleDeg.map((_, i) => (outgoing[i] ?? 0) + (returning[i] ?? 0) - ambient);
  const window = (theta: number, from: number, to: number, top: number): number =>
    theta <= from || theta >= to ? 0 : top * Math.sin((Math.PI * (theta - from)) / (to - from)) ** 1.4;
  const cylinder = angleDeg.map((theta, i) => {
    if (theta < events.closes) {
      const fall = 4.4e5 * Math.exp(-(theta - events.opens) / (11 + speedRpm / 900));
      return Math.max(40_000, ambient + fall + 0.6 * ((port[i] ?? 0) - ambient));
    }
    const squeeze = Math.min(1, (theta - events.closes) / 83);
    return theta < 360
      ? 1.3e5 * (1 + 10 * squeeze ** 3)
      : 45e5 * Math.exp(-(theta - 372) / 32) * (theta > 372 ? 1 : 0.6);
  });
  const crankcase = angleDeg.map(
    (theta) => ambient * (1 + 0.42 * Math.cos(((theta - 128) / 180) * Math.PI) * (theta < 300 ? 1 : 0.55)),
  );
  const positions = Array.from({ length: 114 }, (_, i) => 0.005 + i * 0.0098);
  const fieldAngles = Array.from({ length: 181 }, (_, i) => events.opens + 2 * i);
  const pressure = fieldAngles.flatMap((theta) =>
    positions.map((x) => ambient + out(theta, x) + back(theta, x)),
  );
  const peakIndex = returning.reduce((best, value, i) => (value > (returning[best] ?? 0) ? i : best), 0);
  const peak = angleDeg[peakIndex] ?? 0;
  const lead = events.closes - peak;
  const share = 1 / (1 + Math.exp(-lead / 14));
  const filling = Math.exp(-(((speedRpm - 9600) / 2900) ** 2));
  const torque = 7 + 13.5 * filling;
  const baffle = syntheticOutline.find((part) => part.role === 'baffle');
  const turns = [baffle?.start ?? 0, ((baffle?.start ?? 0) + (baffle?.end ?? 0)) / 2, baffle?.end ?? 0];
  const back2 = (x: number): number => events.opens + 2 * x * perMetre;
  const row: SweepRow = {
    speed_rpm: speedRpm,
    settled: speedRpm !== 12_000,
    cycles: 34,
    exhaust_opens_deg: events.opens,
    transfers_open_deg: events.transfersOpen,
    transfers_close_deg: events.transfersClose,
    exhaust_closes_deg: events.closes,
    suction_bar: Math.min(...returning) / 1e5,
    suction_deg: 190,
    port_mean_during_transfer_bar: 0.86,
    plugback_onset_deg: peak - 26,
    plugback_peak_deg: peak,
    plugback_centroid_deg: peak + 3,
    plugback_end_deg: peak + 40,
    plugback_peak_bar: Math.max(...returning) / 1e5,
    plugback_lead_deg: lead,
    plugback_share_before_closing: share,
    packed_mass_ratio: 0.08 * filling,
    echo_return_deg: peak + 170,
    echo_gain: 1 + 0.2 * filling,
    transfer_opening_cylinder_bar: 0.9 + (speedRpm / 12_000) ** 3,
    transfer_opening_crankcase_bar: 1.38 + 0.1 * filling,
    passage_exit_mach_max: 0.45 + 0.4 * (speedRpm / 12_000),
    delivery_ratio: 0.6 + 0.45 * filling,
    scavenging_efficiency: 0.72 + 0.14 * filling,
    trapping_efficiency: 0.66 + 0.16 * filling,
    charging_efficiency: (0.6 + 0.45 * filling) * (0.66 + 0.16 * filling),
    imep_bar: 5 + 6 * filling,
    bmep_bar: (torque * 2 * Math.PI) / 12.45,
    torque_nm: torque,
    power_kw: (torque * speedRpm * Math.PI) / 30_000,
    exhaust_gas_temperature_k: 900,
    pipe_mean_temperature_k: 760,
    traced_return_baffle_start_deg: back2(turns[0] ?? 0),
    traced_return_baffle_middle_deg: back2(turns[1] ?? 0),
    traced_return_baffle_end_deg: back2(turns[2] ?? 0),
    handbook_return_deg: back2((turns[1] ?? 0) * 1.04),
    mass_balance_error: 3.1e-12,
    energy_balance_error: 4.2e-4,
    spread_torque_percent: speedRpm === 12_000 ? 2.1 : 0.2,
    spread_plugback_deg: speedRpm === 12_000 ? 1.4 : 0.1,
    transfer_backflow_ratio: Math.max(0, (speedRpm - 8500) / 40_000),
    transfer_compression_bar: 0.08,
    transfer_compression_deg: 170,
    suction_depth_bar: 0.4,
    suction_length_deg: 55,
    other_wave_deg: null,
    other_wave_counted: null,
    header_gas_temperature_k: 850,
    belly_gas_temperature_k: 720,
    stinger_gas_temperature_k: 700,
    header_wall_temperature_k: 610,
    belly_wall_temperature_k: 520,
    stinger_wall_temperature_k: 500,
    stinger_back_pressure_bar: 0.15,
    crankcase_lowest_bar: 0.8,
    crankcase_highest_bar: 1.45,
    suction_end_deg: 220,
    transfer_compression_left_deg: null,
    transfer_burnt_share: 0.02,
  };
  return {
    row,
    notes: [],
    traces: {
      angleDeg,
      portPressure: port,
      portVelocity: angleDeg.map(() => 0),
      outgoingPressure: outgoing,
      returningPressure: returning,
      cylinderPressure: cylinder,
      crankcasePressure: crankcase,
      exhaustArea: angleDeg.map((theta) => window(theta, events.opens, events.closes, 900e-6)),
      transferArea: angleDeg.map((theta) =>
        window(theta, events.transfersOpen, events.transfersClose, 1150e-6),
      ),
      passageExitMach: angleDeg.map((_, i) => ((outgoing[i] ?? 0) - (returning[i] ?? 0)) / 95_000),
    },
    diagram: { positions, angleDeg: fieldAngles, pressure },
    paths: turns.map((turn, i) => {
      const there = Array.from({ length: 30 }, (_, k) => (turn * k) / 29);
      return {
        name: ['baffle start', 'baffle middle', 'baffle end'][i] ?? '',
        outPositions: there,
        outDeg: there.map((x) => events.opens + x * perMetre),
        backPositions: [...there].reverse(),
        backDeg: [...there].reverse().map((x) => events.opens + (2 * turn - x) * perMetre),
      };
    }),
    purity: {
      ratio: [0, 0.3, 0.6, 0.9, 1.2, 1.2],
      kept: [0.02, 0.3, 0.57, 0.76, 0.85, 0.89],
      leaving: [0, 0, 0.1, 0.35, 0.6, null],
    },
    along: {
      positions,
      gasTemperature: positions.map((x) => 940 - 260 * x),
      wallTemperature: positions.map((x) => 640 - 190 * x),
    },
  };
}

const nasty = '<script>alert(1)</script> & "Söhne"';

/** `hostile` puts mark-up into every name a user can choose. */
export function syntheticSweep(
  options: {
    readonly from?: number;
    readonly to?: number;
    readonly step?: number;
    readonly hostile?: boolean;
  } = {},
): SweepPageResult {
  const { from = 6000, to = 12_000, step = 250, hostile = false } = options;
  const speeds: SpeedRecord[] = [];
  for (let rpm = from; rpm <= to; rpm += step) speeds.push(syntheticSpeed(rpm));
  const name = (text: string): string => (hostile ? nasty : text);
  return {
    program: 'echocone (synthetic data of a test)',
    case: {
      name: name('Synthetic case'),
      note: name('Synthetic data of a test; no number here is a result.'),
      engine: { name: name('Saltmarsh 125'), ambient: { pressure: ambient } },
      pipe: { name: name('synthetic draft') },
      run: { cell: 0.005, scheme: 'conservative', targetSpeed: 9000 },
      assumed: [
        {
          path: 'engine.scavenging.displacement',
          value: name('0.4'),
          reason: name('Share of perfect displacement; common practice, no source.'),
        },
        {
          path: 'pipe.wall.temperature',
          value: '350 °C',
          reason: 'Sheet steel in the band; common practice, no source.',
        },
      ],
    },
    outline: syntheticOutline.map((part) => ({ ...part, name: name(part.name) })),
    displacement: 124.5e-6,
    rows: speeds.map((speed) => speed.row),
    speeds,
    failures: hostile ? [{ speedRpm: 12_250, reason: nasty }] : [],
  };
}

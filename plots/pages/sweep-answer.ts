/**
 * The answer in words: where the wave lands, best torque and power, what limits, and which way to change the pipe.
 *
 * A change of length ΔL moves the arrival by Δt = 2 ΔL / w, w the mean speed of the wave out and back, taken from the
 * traced return over the distance to the baffle's middle. The arrival must move by (dθ/dN) ΔN to do at N − ΔN what it
 * did at N, so ΔL = (dθ/dN) ΔN / (6 N) · w / 2, with θ in degrees, N in revolutions a minute (6 N degrees a second)
 * and dθ/dN fitted to the rows.
 */

import { type Landing, landing, type SpeedBand, usefulBands } from '../figures/landing.ts';
import { highest, type SpeedRow } from '../figures/sweep-row.ts';
import { bar, degrees, fixed, kilowatts, newtonMetres, percent, rpm, speed, thin } from '../theme/numbers.ts';
import type { PipeStretch } from './sweep-data.ts';

export interface AnswerLine {
  readonly label: string;
  readonly text: string;
  /** The two lines that say which way to change the pipe. */
  readonly way?: 'lower' | 'higher';
}

export interface SweepAnswer {
  readonly headline: string;
  readonly lines: readonly AnswerLine[];
}

const usable = (row: SpeedRow): boolean => row.plugback_peak_deg !== null;

/** Slope of the plug-back peak over speed about a speed, least squares [deg/rpm]; null if it cannot be told. */
export function peakSlope(rows: readonly SpeedRow[], about: number): number | null {
  const known = rows.filter(usable);
  const near = known.filter((row) => Math.abs(row.speed_rpm - about) <= 1500);
  const used = near.length >= 3 ? near : known;
  if (used.length < 2) return null;
  const mean = (of: (row: SpeedRow) => number): number =>
    used.reduce((sum, row) => sum + of(row), 0) / used.length;
  const n = mean((row) => row.speed_rpm);
  const angle = mean((row) => row.plugback_peak_deg ?? 0);
  const covariance = mean((row) => (row.speed_rpm - n) * ((row.plugback_peak_deg ?? 0) - angle));
  const variance = mean((row) => (row.speed_rpm - n) ** 2);
  return variance > 0 ? covariance / variance : null;
}

const nearest = (rows: readonly SpeedRow[], about: number): SpeedRow | undefined =>
  rows.reduce<SpeedRow | undefined>(
    (best, row) =>
      best === undefined || Math.abs(row.speed_rpm - about) < Math.abs(best.speed_rpm - about) ? row : best,
    undefined,
  );

/** Mean speed of the wave there and back [m/s]. */
export function waveSpeed(
  rows: readonly SpeedRow[],
  outline: readonly PipeStretch[],
  about: number,
): number | null {
  const baffle = outline.filter((stretch) => stretch.role === 'baffle');
  const start = baffle[0]?.start;
  const end = baffle.at(-1)?.end;
  const row = nearest(
    rows.filter((one) => one.traced_return_baffle_middle_deg !== null),
    about,
  );
  if (start === undefined || end === undefined || row === undefined) return null;
  const seconds = ((row.traced_return_baffle_middle_deg ?? 0) - row.exhaust_opens_deg) / (6 * row.speed_rpm);
  return seconds > 0 ? (start + end) / seconds : null;
}

/** Length that moves the landing by 500 rpm at a speed [m]; null if it cannot be told. */
export function lengthFor500(
  rows: readonly SpeedRow[],
  outline: readonly PipeStretch[],
  about: number,
): number | null {
  const slope = peakSlope(rows, about);
  const wave = waveSpeed(rows, outline, about);
  if (slope === null || wave === null || slope <= 0) return null;
  return ((slope * 500) / (6 * about)) * (wave / 2);
}

const band = ({ from, to }: SpeedBand): string =>
  from === to ? `at ${rpm(from)}` : `from ${speed(from)} to ${rpm(to)}`;

const lead = (row: SpeedRow): string => {
  const value = row.plugback_lead_deg;
  if (value === null) return 'no plug-back found';
  return value >= 0
    ? `wave peaks ${degrees(value)} before the exhaust closes, ${percent(row.plugback_share_before_closing)} of it in time`
    : `wave peaks ${degrees(-value)} after the exhaust has closed`;
};

function headline(rows: readonly SpeedRow[], bands: readonly SpeedBand[]): string {
  const widest = bands[0];
  if (widest) {
    const others = bands.length > 1 ? `, and ${bands.slice(1).map(band).join(', ')}` : '';
    return `The wave comes back when the port wants it ${band(widest)}${others}.`;
  }
  const found = new Set<Landing>(rows.map(landing));
  const only = (...kinds: Landing[]): boolean => [...found].every((kind) => kinds.includes(kind));
  if (found.size === 0 || only('none')) return 'No plug-back was found at any of the computed speeds.';
  if (only('early', 'none'))
    return 'The wave comes back too early at every computed speed: the pipe is too short for them.';
  if (only('late', 'tail late', 'none'))
    return 'The wave comes back too late at every computed speed: the pipe is too long for them.';
  return 'At none of the computed speeds does the main share of the wave land in the wanted window.';
}

function limits(rows: readonly SpeedRow[], widest: SpeedBand | undefined): string {
  const found: string[] = [];
  const above = widest && rows.find((row) => row.speed_rpm > widest.to && landing(row) !== 'none');
  const below =
    widest && [...rows].reverse().find((row) => row.speed_rpm < widest.from && landing(row) === 'early');
  if (below) found.push(`up to ${rpm(below.speed_rpm)} the wave is back before the transfers close`);
  if (above)
    found.push(
      landing(above) === 'late'
        ? `from ${rpm(above.speed_rpm)} it meets a closed port`
        : `from ${rpm(above.speed_rpm)} more than half of it meets a closed port`,
    );
  const power = highest(rows, 'power_kw');
  if (power) {
    const excess = (power.transfer_opening_cylinder_bar ?? 0) - (power.transfer_opening_crankcase_bar ?? 0);
    if (excess > 0.05) {
      const back = power.transfer_backflow_ratio;
      found.push(
        `at best power the cylinder still stands ${bar(excess)} above the crankcase as the transfers open` +
          (back !== null && back !== undefined && back > 0.005
            ? ` and blows ${percent(back)} of the charge back`
            : ''),
      );
    }
    if ((power.passage_exit_mach_max ?? 0) > 0.9)
      found.push(`the exhaust passage runs at Mach ${fixed(power.passage_exit_mach_max, 2)} at best power`);
  }
  const sentence = found.join('; ');
  return sentence === ''
    ? 'Nothing within the computed speeds'
    : `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`;
}

/** Millimetres in fives: the estimate claims no more. */
const fives = (metres: number): string => `${Math.max(5, 5 * Math.round(200 * metres))}${thin}mm`;

export function sweepAnswer(
  rows: readonly SpeedRow[],
  outline: readonly PipeStretch[],
  targetSpeed: number | null,
): SweepAnswer {
  const bands = usefulBands(rows);
  const widest = bands[0];
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const centre = widest ? (widest.from + widest.to) / 2 : (torque?.speed_rpm ?? rows[0]?.speed_rpm ?? 0);
  const lines: AnswerLine[] = [];
  if (torque)
    lines.push({
      label: 'Best torque',
      text: `${newtonMetres(torque.torque_nm)} at ${rpm(torque.speed_rpm)}; there the ${lead(torque)}`,
    });
  if (power)
    lines.push({
      label: 'Best power',
      text: `${kilowatts(power.power_kw)} at ${rpm(power.speed_rpm)}; there the ${lead(power)}`,
    });
  lines.push({ label: 'What limits', text: limits(rows, widest) });
  const length = lengthFor500(rows, outline, centre);
  const amount = length === null ? '' : ` by about ${fives(length)} for each 500${thin}rpm`;
  lines.push(
    {
      label: 'For a lower speed',
      text: `Lengthen the header${amount} lower; the wave then comes back later.`,
      way: 'lower',
    },
    {
      label: 'For a higher speed',
      text: `Shorten the header${amount} higher; the wave then comes back sooner.`,
      way: 'higher',
    },
  );
  if (targetSpeed !== null)
    lines.push(target(rows, widest, targetSpeed, change(length, centre, targetSpeed, outline)));
  return { headline: headline(rows, bands), lines };
}

/**
 * What brings the middle of the useful speeds to a target. Over a wide step the length goes with the inverse of the
 * speed, L' = L N / N', so the 500 rpm at N are scaled by N / N'.
 */
function change(
  length: number | null,
  centre: number,
  targetSpeed: number,
  outline: readonly PipeStretch[],
): string {
  const gap = targetSpeed - centre;
  if (length === null || Math.abs(gap) < 125) return '';
  const amount = (Math.abs(gap) / 500) * length * (centre / targetSpeed);
  const header = outline
    .filter((stretch) => stretch.role === 'header')
    .reduce((sum, stretch) => sum + stretch.end - stretch.start, 0);
  const much =
    gap > 0 && amount > header / 2
      ? ', more than the header can give: shorten the cones too, or aim a new pipe'
      : '';
  return `; to bring the middle of the useful speeds there, ${gap < 0 ? 'lengthen' : 'shorten'} the header by about ${fives(amount)}${much}`;
}

function target(
  rows: readonly SpeedRow[],
  widest: SpeedBand | undefined,
  targetSpeed: number,
  advice: string,
): AnswerLine {
  const label = `Target ${rpm(targetSpeed)}`;
  const row = nearest(rows, targetSpeed);
  if (!row) return { label, text: 'Not computed.' };
  const kind = landing(row);
  const where = {
    lands: `Lands as wanted: the ${lead(row)}`,
    'tail late': `Peaks in time, but only ${percent(row.plugback_share_before_closing)} of the wave lands before the exhaust closes`,
    early: 'Comes back too early, before the transfers close',
    late: `Comes back too late: the ${lead(row)}`,
    none: 'Shows no plug-back',
  }[kind];
  return { label, text: `${where}${widest ? advice : ''}` };
}

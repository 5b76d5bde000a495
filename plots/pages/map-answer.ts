/** The map in words: the best duration at each speed and what two degrees more cost and buy. */

import { landing } from '../figures/landing.ts';
import type { DurationPoint } from '../figures/speed-duration-field.ts';
import type { SpeedRow } from '../figures/sweep-row.ts';
import { degrees, fixed, newtonMetres, rpm, speed, thin } from '../theme/numbers.ts';
import type { Finding } from './parts.ts';

const highest = (points: readonly DurationPoint[]): DurationPoint | undefined =>
  points.reduce<DurationPoint | undefined>(
    (best, point) =>
      point.row.torque_nm !== null && point.row.torque_nm > (best?.row.torque_nm ?? Number.NEGATIVE_INFINITY)
        ? point
        : best,
    undefined,
  );

const signed = (value: number, decimals: number): string =>
  `${value > 0 ? '+' : ''}${fixed(value, decimals)}`;

function difference(from: SpeedRow, to: SpeedRow): string {
  const parts: string[] = [];
  const add = (name: string, a: number | null, b: number | null, decimals: number, unit: string): void => {
    if (a !== null && b !== null) parts.push(`${name} ${signed(b - a, decimals)}${thin}${unit}`);
  };
  add('torque', from.torque_nm, to.torque_nm, 1, 'Nm');
  add('lead', from.plugback_lead_deg, to.plugback_lead_deg, 0, '°');
  add(
    'cylinder at transfer opening',
    from.transfer_opening_cylinder_bar,
    to.transfer_opening_cylinder_bar,
    2,
    'bar',
  );
  return parts.join(', ');
}

export function mapAnswer(
  points: readonly DurationPoint[],
  ownDuration: number | null,
): { readonly headline: string; readonly lines: readonly Finding[] } {
  const best = highest(points);
  if (!best) return { headline: 'No point of the map was finished.', lines: [] };
  const headline = `Most torque with ${degrees(best.durationDeg)} of exhaust duration: ${newtonMetres(best.row.torque_nm)} at ${rpm(best.row.speed_rpm)}.`;
  const speeds = [...new Set(points.map((point) => point.row.speed_rpm))].sort((a, b) => a - b);
  const lines: Finding[] = [];
  const chosen = [0.25, 0.5, 0.75].map((share) => speeds[Math.round(share * (speeds.length - 1))] ?? 0);
  lines.push({
    label: 'Best duration',
    text: [...new Set(chosen)]
      .map((at) => {
        const there = highest(points.filter((point) => point.row.speed_rpm === at));
        return there ? `${degrees(there.durationDeg)} at ${rpm(at)}` : '';
      })
      .filter((text) => text !== '')
      .join(', '),
  });
  const useful = points.filter((point) => landing(point.row) === 'lands');
  lines.push({
    label: 'The wave lands',
    text:
      useful.length === 0
        ? 'Nowhere on this map as wanted.'
        : `As wanted at ${useful.length} of ${points.length} points, from ${speed(Math.min(...useful.map((point) => point.row.speed_rpm)))} to ${rpm(Math.max(...useful.map((point) => point.row.speed_rpm)))}`,
  });
  const own = ownDuration ?? best.durationDeg;
  const at = best.row.speed_rpm;
  const line = points
    .filter((point) => point.row.speed_rpm === at)
    .sort((a, b) => a.durationDeg - b.durationDeg);
  const index = line.reduce(
    (near, point, i) =>
      Math.abs(point.durationDeg - own) < Math.abs((line[near]?.durationDeg ?? 0) - own) ? i : near,
    0,
  );
  const here = line[index];
  const longer = line[index + 1];
  const shorter = line[index - 1];
  if (here && longer)
    lines.push({
      label: 'A step longer',
      text: `${degrees(here.durationDeg)} to ${degrees(longer.durationDeg)} at ${rpm(at)}: ${difference(here.row, longer.row)}`,
      way: true,
    });
  if (here && shorter)
    lines.push({
      label: 'A step shorter',
      text: `${degrees(here.durationDeg)} to ${degrees(shorter.durationDeg)} at ${rpm(at)}: ${difference(here.row, shorter.row)}`,
      way: true,
    });
  return { headline, lines };
}

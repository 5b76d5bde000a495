/** The map in words: the best duration at each speed and what two degrees more cost and buy. */

import type { DurationPoint } from '../figures/duration-grid.ts';
import { landing, middleLead } from '../figures/landing.ts';
import type { SpeedRow } from '../figures/sweep-row.ts';
import { degrees, fixed, newtonMetres, rpm, signed, speed, thin } from '../theme/numbers.ts';
import type { Finding } from './parts.ts';

const highest = (points: readonly DurationPoint[]): DurationPoint | undefined =>
  points.reduce<DurationPoint | undefined>(
    (best, point) =>
      point.row.torque_nm !== null && point.row.torque_nm > (best?.row.torque_nm ?? Number.NEGATIVE_INFINITY)
        ? point
        : best,
    undefined,
  );

function difference(from: SpeedRow, to: SpeedRow): string {
  const parts: string[] = [];
  const add = (name: string, a: number | null, b: number | null, decimals: number, unit: string): void => {
    if (a !== null && b !== null) parts.push(`${name} ${signed(b - a, decimals)}${thin}${unit}`);
  };
  add('torque', from.torque_nm, to.torque_nm, 1, 'Nm');
  add('middle before EC', middleLead(from), middleLead(to), 0, '°');
  add(
    'cylinder at transfer opening',
    from.transfer_opening_cylinder_bar,
    to.transfer_opening_cylinder_bar,
    2,
    'bar',
  );
  return parts.join(', ');
}

/** Torque within this share of the best is as good: the ridge is flat there. */
const alikeShare = 0.01;

/** The best duration at the best speed, or those about it that are as good. */
function headlineOf(points: readonly DurationPoint[], best: DurationPoint): string {
  const line = points
    .filter((point) => point.row.speed_rpm === best.row.speed_rpm)
    .sort((a, b) => a.durationDeg - b.durationDeg);
  const top = best.row.torque_nm ?? 0;
  const good = (point: DurationPoint | undefined): boolean =>
    (point?.row.torque_nm ?? Number.NEGATIVE_INFINITY) >= (1 - alikeShare) * top;
  let [first, last] = [line.indexOf(best), line.indexOf(best)];
  while (good(line[first - 1])) first -= 1;
  while (good(line[last + 1])) last += 1;
  const alike = line.slice(first, last + 1);
  const at = rpm(best.row.speed_rpm);
  if (alike.length < 2)
    return `Most torque with ${degrees(best.durationDeg)} of exhaust duration: ${newtonMetres(top)} at ${at}.`;
  const least = Math.min(...alike.map((point) => point.row.torque_nm ?? top));
  const [from, to] = [fixed(least, 1), newtonMetres(top)];
  return `Most torque with ${degrees(alike[0]?.durationDeg)} to ${degrees(alike.at(-1)?.durationDeg)} of exhaust duration, all within 1${thin}%: ${from} to ${to} at ${at}.`;
}

export function mapAnswer(
  points: readonly DurationPoint[],
  ownDuration: number | null,
): { readonly headline: string; readonly lines: readonly Finding[] } {
  const best = highest(points);
  if (!best) return { headline: 'No point of the map was finished.', lines: [] };
  const speeds = [...new Set(points.map((point) => point.row.speed_rpm))].sort((a, b) => a - b);
  const headline = headlineOf(points, best);
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

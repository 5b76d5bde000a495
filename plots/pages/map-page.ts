/** The map page: the plug-back, the echo and the torque over speed and exhaust duration. */

import type { BestTorque } from '../../src/findings/answers/map.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { DurationPoint } from '../../src/findings/row.ts';
import type { DurationGrid } from '../figures/duration-grid.ts';
import { outlineDrawing } from '../figures/outline-drawing.ts';
import { html, type Markup } from '../theme/markup.ts';
import { degrees, rpm, speed } from '../theme/numbers.ts';
import { mapGrid } from './map-grid.ts';
import { mapHeadline } from './map-words.ts';
import { type Finding, findings, playerBar } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';

export interface MapPageResult {
  readonly program: string;
  readonly name: string;
  readonly note: string;
  readonly engine: string;
  readonly pipe: string;
  readonly outline: readonly OutlineSection[];
  /** Finished points in any order. */
  readonly points: readonly DurationPoint[];
  /** Exhaust duration of the case as it stands [deg]. */
  readonly ownDuration: number | null;
  /** Most torque of the map; null: no point was finished. */
  readonly best: BestTorque | null;
  /** What it says in words. */
  readonly findings: readonly Finding[];
  readonly failures: readonly {
    readonly speedRpm: number;
    readonly durationDeg: number;
    readonly reason: string;
  }[];
  readonly date?: string;
}

export interface MapPageData {
  readonly grid: DurationGrid;
  readonly points: readonly DurationPoint[];
  readonly ownDuration: number | null;
  readonly speeds: readonly number[];
}

/** The points that did not settle, by their duration; nothing if all did. */
function looseWords(points: readonly DurationPoint[]): Markup | null {
  const loose = points.filter((point) => !point.row.settled);
  if (loose.length === 0) return null;
  const durations = [...new Set(loose.map((point) => point.durationDeg))].sort((a, b) => a - b);
  const each = durations.map((duration) => {
    const speeds = loose
      .filter((point) => point.durationDeg === duration)
      .map((point) => point.row.speed_rpm)
      .sort((a, b) => a - b);
    return `${degrees(duration)} at ${speeds.map(speed).join(', ')}`;
  });
  return html`<div class="warn"><p>${loose.length} of ${points.length} points did not settle and are marked by crosses: take them as averages. <span class="small">${each.join('; ')}\u202frpm.</span></p></div>`;
}

export function mapPage(result: MapPageResult, assets: Assets): string {
  const { points } = result;
  const speeds = [...new Set(points.map((point) => point.row.speed_rpm))].sort((a, b) => a - b);
  const durations = points.map((point) => point.durationDeg);
  const start = Math.max(0, speeds.indexOf(result.best?.speedRpm ?? 0));
  const failed = result.failures.map(
    (one) => html`<li>${rpm(one.speedRpm)}, ${degrees(one.durationDeg)}: ${one.reason}</li>`,
  );
  const shared =
    'Highlighted: the middle of the wave lands between transfer closing (TC) and exhaust closing (EC). Full dots: it does at a computed point, and half of the wave is in time.';
  const body = html`<section class="answer even"><div><h1>${mapHeadline(result.best)}</h1>${findings(result.findings)}${looseWords(points)}</div>
<div>${place('lead', 'How long before exhaust closing the middle of the wave lands [°]', `${shared} Green: too early, grey: too late. Dotted: the peak meets EC. Crosses: not settled.`, 'Islands in the shades: a speed that did not settle, or a step too coarse for the line between.', 'How long before exhaust closing the middle of the plug-back lands, over speed and exhaust duration.', 'first')}</div></section>
<section><h2>Over speed and duration</h2><div class="pair">
${place('torque', 'Torque [Nm]', `The deeper the colour, the more torque. Go along a level line for one duration, up and down for one speed. Between the two lines the middle of the wave lands in the window.`, 'The ridge of torque beside the band between them: blowdown decides there, not the wave.', 'Torque over speed and exhaust duration.')}
${place('share', 'Share of the wave that lands before closing [%]', 'Half of it or more is wanted.', 'High everywhere: the wave is early; see the first figure.', 'Share of the plug-back before exhaust closing over speed and exhaust duration.')}</div>
${place('echo', 'Echo’s return before (−) or after (+) the next opening [°]', 'What lands on the closed port runs out again and comes back; near 0 it meets the next opening and helps the next suction.', 'Far from 0 everywhere: the echo plays no part with this pipe.', 'Phase of the echo on the next exhaust opening.')}</section>
<section><h2>At one speed</h2>${playerBar('Engine speed', speeds.length, start)}
${place('curves', 'What a longer duration costs and buys', 'Read upwards from a duration: the middle of the wave should run through the highlighted window, the cylinder near the crankcase, the torque high. Dotted: the peak.', 'The middle falls as duration grows at a fixed speed: look whether the roof was moved, and not the floor.', 'The plug-back before exhaust closing, packed mass, blowdown pressures, echo gain and torque against exhaust duration.')}</section>
${failed.length > 0 && html`<div class="warn"><p>Points that failed:</p><ul>${failed}</ul></div>`}
<h2>The pipe</h2>${outlineDrawing([{ name: result.pipe, outline: result.outline.map(stretchMm) }], 'Outline of the pipe, to scale')}${result.note && html`<p class="note">${result.note}</p>`}`;
  const data: MapPageData = { grid: mapGrid(points), points, ownDuration: result.ownDuration, speeds };
  return sheet({
    title: `${result.name} – map`,
    titleBlock: [
      ['Case', result.name],
      ['Engine', result.engine],
      ['Pipe', result.pipe],
      ['Speeds', `${speed(speeds[0])} to ${rpm(speeds.at(-1))}`],
      ['Durations', `${degrees(Math.min(...durations))} to ${degrees(Math.max(...durations))}`],
      ['Program', result.program, 'minor'],
      ...(result.date === undefined ? [] : [['Computed', result.date, 'minor'] as const]),
    ],
    body,
    data,
    program: result.program,
    assets,
  });
}

/**
 * The answer at a glance: the middle of the plug-back against speed over the window it is wanted in, with its onset, peak
 * and end behind it, as a small drawing without axes to study. Useful speeds are full dots and a bar on the speed axis.
 * Colours come from the page's style. It is drawn as wide as a telephone shows it, so that its letters keep their size.
 */

import { landingBands, type SpeedSpan } from '../../src/findings/band.ts';
import { column } from '../../src/findings/curve.ts';
import { landing } from '../../src/findings/landing.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { pushApart } from '../marks/end-label.ts';
import { rangeOf } from '../theme/axes.ts';
import { html, type Markup } from '../theme/markup.ts';
import { speed } from '../theme/numbers.ts';

const frame = { width: 360, height: 226, left: 8, right: 112, top: 22, bottom: 40 };

/** Speeds written below the axis: the ends of the range and of the useful band, as far as they do not touch. */
function speedTicks(
  ends: { readonly slow: number; readonly fast: number },
  wanted: SpeedSpan | undefined,
  across: (rpm: number) => number,
): Markup[] {
  /** Width of a speed of five digits [px], and the least gap between two. */
  const [wide, gap] = [36, 8];
  const tick = (x: number, anchor: string, text: string): Markup =>
    html`<text class="tick" x="${x.toFixed(1)}" y="${frame.height - frame.bottom + 21}" text-anchor="${anchor}">${text}</text>`;
  const start = across(ends.slow);
  const end = across(ends.fast);
  const ticks: Markup[] = [];
  let [low, high] = [end, start];
  if (wanted) {
    const [x0, x1] = [across(wanted.from), across(wanted.to)];
    const apart = x1 - x0 >= wide + gap;
    const one = wanted.from === wanted.to;
    const half = apart || one ? wide / 2 : wide;
    const place = (x: number): number => Math.min(end - half, Math.max(start + half, x));
    if (apart) {
      ticks.push(tick(place(x0), 'middle', speed(wanted.from)), tick(place(x1), 'middle', speed(wanted.to)));
      [low, high] = [place(x0) - half, place(x1) + half];
    } else {
      const x = place((x0 + x1) / 2);
      const text = one ? speed(wanted.from) : `${speed(wanted.from)}–${speed(wanted.to)}`;
      ticks.push(tick(x, 'middle', text));
      [low, high] = [x - half, x + half];
    }
  }
  if (low - start > wide + gap) ticks.push(tick(start, 'start', speed(ends.slow)));
  if (end - high > wide + gap) ticks.push(tick(end, 'end', speed(ends.fast)));
  return ticks;
}

export function timingGlance(rows: readonly SweepRow[], title: string): Markup {
  const first = rows[0];
  const final = rows.at(-1);
  if (!first || !final) return html``;
  const { transfers_close_deg: closed, exhaust_closes_deg: shut } = first;
  const onset = column(rows, 'plugback_onset_deg');
  const end = column(rows, 'plugback_end_deg');
  const peak = column(rows, 'plugback_peak_deg');
  const middle = column(rows, 'plugback_centroid_deg');
  const [low, high] = rangeOf([...onset, ...end, ...peak], 0.04, [closed - 10, shut + 10]);
  const slow = first.speed_rpm;
  const fast = Math.max(final.speed_rpm, slow + 1);
  const floor = frame.height - frame.bottom;
  const across = (rpm: number): number =>
    frame.left + 8 + ((rpm - slow) / (fast - slow)) * (frame.width - frame.left - frame.right - 16);
  const up = (angle: number): number => frame.top + ((high - angle) / (high - low)) * (floor - frame.top);
  const right = frame.width - frame.right;
  const at = (x: number, y: number): string => `${x.toFixed(1)},${y.toFixed(1)}`;
  const line = (values: readonly (number | null)[]): string[] =>
    rows.flatMap((row, i) => {
      const value = values[i];
      return value === null || value === undefined ? [] : [at(across(row.speed_rpm), up(value))];
    });
  const bandPoints = [...line(onset), ...line(end).reverse()].join(' ');
  const dots = rows.flatMap((row, i) => {
    const value = middle[i];
    if (value === null || value === undefined) return [];
    const kind = landing(row) === 'lands' ? 'lands' : 'misses';
    return [
      html`<circle class="dot ${kind}" cx="${across(row.speed_rpm).toFixed(1)}" cy="${up(value).toFixed(1)}" r="${kind === 'lands' ? 4.5 : 2.6}"/>`,
    ];
  });
  const bands = landingBands(rows);
  const bars = bands.map((band) => {
    const x0 = across(band.from) - 5;
    return html`<rect class="useful-bar" x="${x0.toFixed(1)}" y="${floor + 1}" width="${(across(band.to) + 5 - x0).toFixed(1)}" height="7"/>`;
  });
  const last = (values: readonly (number | null)[]): number =>
    [...values].reverse().find((value) => value !== null) ?? shut;
  const places = pushApart(
    [up(shut), up(closed), ...[middle, peak, onset, end].map((values) => up(last(values)))],
    13,
    frame.top + 2,
    floor - 4,
  );
  const names = [
    ['exhaust', `exhaust closes ${Math.round(shut)}°`],
    ['transfer', `transfers close ${Math.round(closed)}°`],
    ['returning', 'middle of the wave'],
    ['edge', 'its peak'],
    ['edge', 'its onset'],
    ['edge', 'its end'],
  ].map(
    ([quantity, text], i) =>
      html`<text class="name ${quantity}" x="${right + 5}" y="${((places[i] ?? 0) + 4).toFixed(1)}">${text}</text>`,
  );
  return html`<svg class="glance" role="img" aria-label="${title}" viewBox="0 0 ${frame.width} ${frame.height}">
<rect class="window" x="${frame.left}" y="${up(shut).toFixed(1)}" width="${right - frame.left}" height="${(up(closed) - up(shut)).toFixed(1)}"/>
<text class="wanted" x="${frame.left + 5}" y="${(up(shut) + 14).toFixed(1)}">wanted here</text>
<polygon class="spread" points="${bandPoints}"/>
<line class="level exhaust" x1="${frame.left}" x2="${right}" y1="${up(shut).toFixed(1)}" y2="${up(shut).toFixed(1)}"/>
<line class="level transfer" x1="${frame.left}" x2="${right}" y1="${up(closed).toFixed(1)}" y2="${up(closed).toFixed(1)}"/>
<polyline class="crest" points="${line(peak).join(' ')}"/>
<polyline class="middle" points="${line(middle).join(' ')}"/>
${dots}
<line class="base" x1="${frame.left}" x2="${right}" y1="${floor}" y2="${floor}"/>
${bars}${speedTicks({ slow, fast }, bands[0], across)}
<text class="tick" x="${((frame.left + right) / 2).toFixed(1)}" y="${floor + 36}" text-anchor="middle">engine speed [rpm]</text>
<text class="tick" x="${frame.left}" y="13">↑ later in the turn</text>${names}</svg>`;
}

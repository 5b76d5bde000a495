/**
 * The gas in the drawing: pressure as shades within the pipe's outline, gas that left with the transfers open as marks to be
 * followed, the piston and the ports as they stand at a crank angle.
 */

import type { Turn } from '../../../src/board/turn.ts';
import { pistonTravel } from '../../../src/timing/crank.ts';
import { fieldScale } from '../../marks/pressure-shades.ts';
import { silhouette } from '../../marks/silhouette.ts';
import type { Look } from '../../theme/look.ts';
import { shadeAt, shadesOf } from './canvas-heat.ts';
import type { Bench } from './pipe-scale.ts';

/** What is drawn at an instant; without a turn the pipe is empty and the piston stands at the exhaust's opening. */
export interface Instant {
  readonly turn: Turn | null;
  /** Degrees since the exhaust opened. */
  readonly degrees: number;
  readonly ambientBar: number;
}

export function paintGas(
  canvas: HTMLCanvasElement,
  bench: Bench,
  { turn, degrees, ambientBar }: Instant,
  look: Look,
): void {
  const pixels = devicePixelRatio;
  const [width, height] = [Math.round(bench.width * pixels), Math.round(bench.height * pixels)];
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
    canvas.style.width = `${bench.width}px`;
    canvas.style.height = `${bench.height}px`;
  }
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.setTransform(pixels, 0, 0, pixels, 0, 0);
  pen.clearRect(0, 0, bench.width, bench.height);
  const opens = bench.events.exhaust.opensDeg;
  paintEngine(pen, bench, opens + degrees, look);
  pen.save();
  insideOf(pen, bench);
  pen.clip();
  pen.fillStyle = look.palette.grid;
  pen.fillRect(bench.x(0), 0, bench.width, bench.height);
  if (turn !== null) {
    paintPressure(pen, bench, turn, degrees, ambientBar, look);
    paintSlugs(pen, bench, turn, degrees, look);
  }
  pen.restore();
}

function insideOf(pen: CanvasRenderingContext2D, { stretches, x, y }: Bench): void {
  const line = silhouette(stretches);
  pen.beginPath();
  line.x.forEach((at, k) => {
    if (k === 0) pen.moveTo(x(at), y(line.y[k] ?? 0));
    else pen.lineTo(x(at), y(line.y[k] ?? 0));
  });
}

function paintPressure(
  pen: CanvasRenderingContext2D,
  bench: Bench,
  turn: Turn,
  degrees: number,
  ambientBar: number,
  look: Look,
): void {
  const { positions, pressure, lowest, highest } = turn;
  const cells = positions.length;
  const shades = shadesOf(fieldScale(look, lowest, ambientBar, highest));
  const row = Math.max(0, Math.min(359, Math.floor(degrees)));
  const part = degrees - row;
  const pitch = ((positions[cells - 1] ?? 1) - (positions[0] ?? 0)) / Math.max(1, cells - 1);
  for (let k = 0; k < cells; k++) {
    const here = pressure[row * cells + k] ?? 0;
    const value = here + part * ((pressure[(row + 1) * cells + k] ?? here) - here);
    const at = shadeAt(value, lowest, highest);
    pen.fillStyle = `rgb(${shades[at]},${shades[at + 1]},${shades[at + 2]})`;
    const left = bench.x((positions[k] ?? 0) - pitch / 2);
    pen.fillRect(left, 0, pitch * bench.perMm + 0.6, bench.height);
  }
}

function paintSlugs(
  pen: CanvasRenderingContext2D,
  bench: Bench,
  turn: Turn,
  degrees: number,
  look: Look,
): void {
  pen.fillStyle = look.palette.line.transfer;
  pen.strokeStyle = look.palette.sheet;
  pen.lineWidth = 1;
  turn.slugs.forEach(({ leaves, places }, k) => {
    const across = ((k % 5) - 2) / 6;
    for (let since = degrees - leaves; since < places.length; since += 360) {
      if (since < 0) continue;
      const place = places[Math.floor(since)];
      if (place === undefined) continue;
      const radius = since < 360 ? 3.6 : 2;
      pen.globalAlpha = since < 360 ? 1 : 0.55;
      pen.beginPath();
      pen.arc(bench.x(place), bench.y(across * diameterAt(bench, place)), radius, 0, 2 * Math.PI);
      pen.fill();
      pen.stroke();
    }
  });
  pen.globalAlpha = 1;
}

function diameterAt({ stretches }: Bench, place: number): number {
  const stretch = stretches.find(({ end }) => place <= end) ?? stretches.at(-1);
  if (stretch === undefined) return 0;
  const { start, end, diameters } = stretch;
  return diameters[0] + ((diameters[1] - diameters[0]) * (place - start)) / (end - start || 1);
}

/** Barrel, piston, and the windows: exhaust at the pipe's side, transfers at the other, filled as far as they are open. */
function paintEngine(pen: CanvasRenderingContext2D, bench: Bench, deg: number, look: Look): void {
  const { x, y, bore, stroke, axisTravel, events, perMmAcross } = bench;
  const { line, ink, hairline, sheet } = look.palette;
  const level = (travel: number): number => y(axisTravel - travel);
  const [left, right] = [x(-bore), x(0)];
  const crown = 1000 * pistonTravel(events.crank, deg);
  pen.fillStyle = sheet;
  pen.fillRect(left, level(-8), right - left, level(stroke + 16) - level(-8));
  pen.fillStyle = hairline;
  pen.fillRect(
    left + 2,
    level(crown),
    right - left - 4,
    Math.min(0.55 * stroke, stroke + 16 - crown) * perMmAcross,
  );
  pen.strokeStyle = ink;
  pen.lineWidth = 1.6;
  pen.strokeRect(left, level(-8), right - left, level(stroke + 16) - level(-8));
  const windows = (shapes: typeof events.exhaust.windows, at: number, colour: string): void => {
    for (const { shape } of shapes) {
      const [roof, floor] = [1000 * shape.roof, 1000 * shape.floor];
      pen.fillStyle = sheet;
      pen.fillRect(at - 2, level(roof), 5, (floor - roof) * perMmAcross);
      pen.fillStyle = colour;
      const open = Math.max(0, Math.min(crown, floor) - roof);
      pen.fillRect(at - 2, level(roof), 5, open * perMmAcross);
      pen.strokeStyle = colour;
      pen.lineWidth = 1;
      pen.strokeRect(at - 2, level(roof), 5, (floor - roof) * perMmAcross);
    }
  };
  windows(events.transfers.windows, left, line.transfer);
  windows(events.exhaust.windows, right, line.exhaust);
}

/** A field as shades on a canvas, and the scale of its shades. */

import type { Bag } from '../../theme/axes.ts';
import { FONT_STACK, type Look } from '../../theme/look.ts';
import { type Frame, type Panel, roundTicks } from './canvas-frame.ts';

const STEPS = 256;

type Scale = readonly (readonly [number, string])[];

const channels = (colour: string): readonly [number, number, number] => [
  Number.parseInt(colour.slice(1, 3), 16),
  Number.parseInt(colour.slice(3, 5), 16),
  Number.parseInt(colour.slice(5, 7), 16),
];

/** Red, green and blue of so many shades from the lowest to the highest, four bytes each. */
export function shadesOf(scale: Scale): Uint8ClampedArray {
  const shades = new Uint8ClampedArray(4 * STEPS);
  for (let k = 0; k < STEPS; k++) {
    const share = k / (STEPS - 1);
    const upper = Math.max(
      1,
      scale.findIndex(([at]) => at >= share),
    );
    const [[from, low], [to, high]] = [scale[upper - 1], scale[upper]] as [
      [number, string],
      [number, string],
    ];
    const part = Math.max(0, Math.min(1, (share - from) / (to - from || 1)));
    const [a, b] = [channels(low), channels(high)];
    for (let c = 0; c < 3; c++) shades[4 * k + c] = (a[c] ?? 0) + part * ((b[c] ?? 0) - (a[c] ?? 0));
    shades[4 * k + 3] = 255;
  }
  return shades;
}

/** Which shade a value takes. */
export const shadeAt = (value: number, lowest: number, highest: number): number =>
  4 * Math.max(0, Math.min(STEPS - 1, Math.round(((value - lowest) / (highest - lowest)) * (STEPS - 1))));

let sheet: HTMLCanvasElement | null = null;

export function drawHeat(pen: CanvasRenderingContext2D, panel: Panel, trace: Bag): void {
  const rows = trace.z as readonly ArrayLike<number>[];
  const [xs, ys] = [trace.x as ArrayLike<number>, trace.y as ArrayLike<number>];
  const [width, height] = [rows[0]?.length ?? 0, rows.length];
  if (width === 0 || height === 0) return;
  const shades = shadesOf(trace.colorscale as Scale);
  const image = new ImageData(width, height);
  rows.forEach((row, r) => {
    for (let k = 0; k < width; k++) {
      const from = shadeAt(row[k] ?? 0, Number(trace.zmin), Number(trace.zmax));
      // Later angles stand higher.
      image.data.set(shades.subarray(from, from + 4), 4 * ((height - 1 - r) * width + k));
    }
  });
  sheet ??= document.createElement('canvas');
  sheet.width = width;
  sheet.height = height;
  sheet.getContext('2d')?.putImageData(image, 0, 0);
  const half = ((xs[width - 1] ?? 1) - (xs[0] ?? 0)) / Math.max(1, width - 1) / 2;
  const [left, right] = [panel.x((xs[0] ?? 0) - half), panel.x((xs[width - 1] ?? 1) + half)];
  const [top, bottom] = [panel.y(ys[height - 1] ?? 1), panel.y(ys[0] ?? 0)];
  pen.imageSmoothingEnabled = true;
  pen.drawImage(sheet, left, top, right - left, bottom - top);
}

/** The scale of a field's shades below the right-hand end of the plot. */
export function drawScale(pen: CanvasRenderingContext2D, frame: Frame, trace: Bag, look: Look): void {
  const bar = trace.colorbar as
    | { len: number; thickness: number; ypad: number; title: { text: string } }
    | undefined;
  if (bar === undefined) return;
  const { right, left, bottom } = frame.plot;
  const width = bar.len * (right - left);
  const [x, y] = [right - width, bottom + bar.ypad];
  const gradient = pen.createLinearGradient(x, 0, right, 0);
  for (const [at, colour] of trace.colorscale as Scale)
    gradient.addColorStop(Math.max(0, Math.min(1, at)), colour);
  pen.fillStyle = gradient;
  pen.fillRect(x, y, width, bar.thickness);
  const [low, high] = [Number(trace.zmin), Number(trace.zmax)];
  pen.fillStyle = look.palette.faint;
  pen.font = `11px ${FONT_STACK}`;
  pen.textAlign = 'center';
  pen.textBaseline = 'top';
  for (const at of roundTicks(low, high, 6))
    pen.fillText(String(at), x + ((at - low) / (high - low)) * width, y + bar.thickness + 3);
  pen.fillText(bar.title.text, x + width / 2, y + bar.thickness + 17);
}

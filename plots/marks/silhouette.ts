/** The pipe cut along its axis: outline, its curve in a figure, and the names of its stretches where they fit. */

import type { Bag } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { Palette } from '../theme/palette.ts';
import { curve } from './curve.ts';
import { words } from './note.ts';

/** A stretch of the pipe: where it lies and its diameters [mm]. */
export interface Stretch {
  readonly name: string;
  readonly role: string;
  readonly start: number;
  readonly end: number;
  readonly diameters: readonly [number, number];
}

/** Outline above and below the axis as one closed line [mm]. */
export function silhouette(outline: readonly Stretch[]): { readonly x: number[]; readonly y: number[] } {
  const there = outline.flatMap(({ start, end, diameters: [left, right] }) => [
    { x: start, y: left / 2 },
    { x: end, y: right / 2 },
  ]);
  const back = there.map(({ x, y }) => ({ x, y: -y })).reverse();
  const round = [...there, ...back, ...there.slice(0, 1)];
  return { x: round.map(({ x }) => x), y: round.map(({ y }) => y) };
}

/** Where the last stretch ends [mm]. */
export const lengthOf = (outline: readonly Stretch[]): number | undefined => outline.at(-1)?.end;

/** Largest diameter [mm], at least 1. */
export const widestOf = (outline: readonly Stretch[]): number =>
  Math.max(1, ...outline.flatMap(({ diameters }) => [...diameters]));

/** Range of the axis a silhouette stands on [mm]. */
export const silhouetteRange = (outline: readonly Stretch[]): [low: number, high: number] => {
  const half = 0.56 * widestOf(outline);
  return [-half, half];
};

export const silhouetteCurve = (outline: readonly Stretch[], palette: Palette, yaxis: string): Bag => {
  const { x, y } = silhouette(outline);
  return curve(
    x,
    y,
    { color: palette.ink, width: 1.4 },
    { yaxis, fill: 'toself', fillcolor: palette.grid, hoverinfo: 'skip' },
  );
};

/** Letters of a stretch's name that are drawn. */
const MOST = 14;

/** Names in the middle of the stretches that have room for them: `plotPx` is the width the whole pipe is drawn at. */
export function stretchNames(
  outline: readonly Stretch[],
  palette: Palette,
  room: { readonly plotPx: number; readonly size: number; readonly yref: string },
): Bag[] {
  const perMm = room.plotPx / (lengthOf(outline) ?? 1);
  const letterPx = 0.5 * room.size;
  return outline
    .filter(({ start, end, name }) => (end - start) * perMm > letterPx * Math.min(name.length, MOST))
    .map(({ start, end, name }) =>
      words(
        label(name.slice(0, MOST)),
        palette.ink,
        { x: (start + end) / 2, y: 0, yref: room.yref },
        room.size,
      ),
    );
}

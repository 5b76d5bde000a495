/**
 * A field of pressure as shades: that of the sheet at the surroundings' pressure, greyer to ink above it, green below
 * it. The same scale wherever two fields are to be told apart.
 */

import type { Bag } from '../theme/axes.ts';
import type { Look } from '../theme/look.ts';

export interface PressureField {
  /** Uniform positions from the port face [mm] and uniform angles [deg]. */
  readonly positions: ArrayLike<number>;
  readonly angleDeg: ArrayLike<number>;
  /** One row of pressures an angle [bar]. */
  readonly pressure: readonly ArrayLike<number>[];
  /** The same scale for every speed [bar]. */
  readonly lowest: number;
  readonly highest: number;
}

/** Colours from the lowest value to the highest with the neutral one at a reference. */
export function fieldScale(
  look: Look,
  lowest: number,
  reference: number,
  highest: number,
): [number, string][] {
  const [low, lowMiddle, middle, highMiddle, high] = look.palette.field;
  const zero = Math.min(0.95, Math.max(0.05, (reference - lowest) / (highest - lowest)));
  return [
    [0, low],
    [zero * 0.55, lowMiddle],
    [zero, middle],
    [zero + (1 - zero) * 0.42, highMiddle],
    [1, high],
  ];
}

/** The field with its scale below it. */
export const pressureShades = (field: PressureField, ambientBar: number, look: Look): Bag => ({
  type: 'heatmap',
  x: field.positions,
  y: field.angleDeg,
  z: field.pressure,
  zmin: field.lowest,
  zmax: field.highest,
  zsmooth: 'fast',
  colorscale: fieldScale(look, field.lowest, ambientBar, field.highest),
  hoverinfo: 'none',
  colorbar: levelScale(look, `Pressure [bar], surroundings ${ambientBar.toFixed(2)}`, look.print ? 36 : 46),
});

/** A level scale of shades under the right-hand end of a plot, so many pixels below it. */
export const levelScale = (look: Look, title: string, ypad: number): Bag => ({
  orientation: 'h',
  thickness: 9,
  len: look.narrow ? 0.9 : 0.5,
  x: 1,
  xanchor: 'right',
  y: 0,
  yanchor: 'top',
  ypad,
  outlinewidth: 0,
  tickfont: { size: 11, color: look.palette.faint },
  ticksuffix: '',
  nticks: 6,
  title: { text: title, side: 'bottom', font: { size: 11, color: look.palette.faint } },
});

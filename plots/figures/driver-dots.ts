/**
 * What drives the width of the bands: a line an input, a dot an answer, at the share of that answer's variance that goes with the
 * input alone, with one standard error either side.
 */

import type { AnswerDrivers } from '../../src/findings/width-drivers.ts';
import { dots } from '../marks/curve.ts';
import { leftEdge, words } from '../marks/note.ts';
import { axis, type Bag, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { Look } from '../theme/look.ts';
import type { Quantity } from '../theme/palette.ts';
import type { Figure } from './figure.ts';

const STYLES: Readonly<
  Record<
    AnswerDrivers['answer'],
    { readonly name: string; readonly colour: Quantity; readonly symbol: string }
  >
> = {
  torque_nm: { name: 'torque', colour: 'torque', symbol: 'circle' },
  works_from_rpm: { name: 'lower edge', colour: 'transfer', symbol: 'triangle-left' },
  works_to_rpm: { name: 'upper edge', colour: 'exhaust', symbol: 'triangle-right' },
  best_power_kw: { name: 'best power', colour: 'power', symbol: 'diamond' },
};

/** Inputs that are drawn. */
const SHOWN = 8;
const ROW_PX = 34;

/** The inputs that matter most to any answer, the strongest first. */
export function strongestInputs(drivers: readonly AnswerDrivers[]): readonly string[] {
  const most = new Map<string, number>();
  for (const { path, share } of drivers.flatMap(({ shares }) => shares))
    most.set(path, Math.max(most.get(path) ?? 0, share));
  return [...most.entries()]
    .sort((a, b) => b[1] - a[1])
    .slice(0, SHOWN)
    .map(([path]) => path);
}

function dotsOf(
  { answer, shares }: AnswerDrivers,
  inputs: readonly string[],
  shift: number,
  look: Look,
): Bag {
  const { colour, symbol, name } = STYLES[answer];
  const color = look.palette.line[colour];
  const found = inputs.map((path) => shares.find((one) => one.path === path));
  return dots(
    found.map((one) => (one === undefined ? null : 100 * one.share)),
    inputs.map((_, k) => -k + shift),
    { symbol, size: 8, color },
    {
      name,
      cliponaxis: false,
      hovertemplate: `${name}: %{x:.0f} %<extra></extra>`,
      error_x: {
        type: 'data',
        array: found.map((one) => (one === undefined ? 0 : 100 * one.error)),
        color,
        thickness: 1.2,
        width: 0,
      },
    },
  );
}

/** @param nameOf an input's name in words, short enough for the left of a figure */
export function driverDots(
  drivers: readonly AnswerDrivers[],
  nameOf: (path: string) => string,
  look: Look,
): Figure {
  const inputs = strongestInputs(drivers);
  const { palette } = look;
  const middle = (drivers.length - 1) / 2;
  const reach = Math.max(
    5,
    ...drivers.flatMap(({ shares }) =>
      shares.filter(({ path }) => inputs.includes(path)).map(({ share, error }) => 100 * (share + error)),
    ),
  );
  const names = inputs.map((path, k) =>
    words(label(nameOf(path)), palette.ink, {
      ...leftEdge(look.narrow ? 4 : -6),
      y: look.narrow ? -k + 0.45 : -k,
      xanchor: look.narrow ? 'left' : 'right',
      yanchor: 'middle',
    }),
  );
  const key = drivers.map(({ answer }, k) => {
    const { name, colour } = STYLES[answer];
    return words(name, palette.line[colour], {
      xref: 'paper',
      yref: 'paper',
      x: (k % 2) * 0.5 + (look.narrow ? 0 : 0.02),
      y: 1,
      xanchor: 'left',
      yanchor: 'bottom',
      yshift: k < 2 ? 18 : 2,
    });
  });
  const height = 96 + ROW_PX * Math.max(1, inputs.length);
  return {
    data: drivers.map((one, k) => dotsOf(one, inputs, 0.14 * (middle - k), look)),
    layout: baseLayout(
      look,
      height,
      { t: 44, b: 44, l: look.narrow ? 12 : 240, r: 20 },
      {
        hovermode: 'closest',
        xaxis: axis(look, { range: [0, 1.05 * reach], ticksuffix: ' %', nticks: 6, zeroline: true }),
        yaxis: axis(look, { range: [-inputs.length + 0.4, 0.6], visible: false }),
        annotations: [...names, ...key],
      },
    ),
  };
}

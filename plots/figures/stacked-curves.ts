/** Several quantities against one horizontal axis, in panels one above the other, each line named at its end. */

import { levelBand } from '../marks/band.ts';
import { CROSS, curve, dots } from '../marks/curve.ts';
import { endLabels, lastOf } from '../marks/end-label.ts';
import { levelLine } from '../marks/event-line.ts';
import { axis, axisName, type Bag, baseLayout, type Range, rangeOf, topMargin } from '../theme/axes.ts';
import type { Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface Curve {
  readonly name: string;
  readonly y: readonly (number | null)[];
  /** Its own places, where the stack's do not serve. */
  readonly x?: readonly number[];
  readonly color: string;
  readonly dash: string;
  readonly width?: number;
  /** Points to be crossed out, one a value: there the cycles did not settle. */
  readonly doubtful?: readonly boolean[];
}

export interface Panel {
  /** Quantity with its unit in brackets. */
  readonly name: string;
  readonly curves: readonly Curve[];
  /** Values that must show. */
  readonly include?: readonly number[];
  /** The axis starts at nought, so that heights are to scale. */
  readonly fromZero?: boolean;
  /** d3 format of readings, with the unit after it. */
  readonly reading: string;
  /** Right-hand names are dropped where several panels show the same lines. */
  readonly unnamed?: boolean;
  readonly levels?: readonly {
    readonly at: number;
    readonly text: string;
    readonly color: string;
  }[];
  /** Level bands laid under the curves. */
  readonly bands?: readonly { readonly from: number; readonly to: number; readonly color: string }[];
}

export interface Stack {
  readonly x: readonly number[];
  readonly xaxis: Bag;
  readonly panels: readonly Panel[];
  readonly panelPx: number;
  readonly rightPx: number;
  /** Room below, for the horizontal axis [px]. */
  readonly bottomPx?: number;
  readonly shapes?: readonly Bag[];
}

function rangeFor({ curves, fromZero, include }: Panel): Range {
  const values = curves.flatMap(({ y }) => [...y]);
  const padded = rangeOf(values, 0.1, fromZero ? [0] : (include ?? []));
  const negative = values.some((value) => value !== null && value < 0);
  return fromZero && !negative ? [0, padded[1]] : padded;
}

/** A curve, and crosses where it is doubtful. */
function tracesOf(one: Curve, panel: Panel, x: readonly number[], yaxis: string): Bag[] {
  const { name, y, color, dash, width = 2, doubtful } = one;
  const places = one.x ?? x;
  const line = curve(places, y, { color, dash, width }, { yaxis, name, hovertemplate: panel.reading });
  if (!doubtful?.includes(true)) return [line];
  const crossed = y.map((value, i) => (doubtful[i] === true ? value : null));
  const marker = { symbol: CROSS, size: 8, line: { color, width: 2 } };
  return [line, dots(places, crossed, marker, { yaxis, hoverinfo: 'skip' })];
}

/** Names at the right of a panel: of its curves and of its levels. */
const namesOf = ({ unnamed, curves, levels = [] }: Panel) => [
  ...(unnamed ? [] : curves).map(({ name, color, y }) => ({ text: name, colour: color, y: lastOf(y) })),
  ...levels.map(({ text, color, at }) => ({ text, colour: color, y: at })),
];

/** Levels and bands under the curves of a panel. */
const shapesOf = ({ levels = [], bands = [] }: Panel, yref: string): Bag[] => [
  ...levels.map(({ at, color }) =>
    levelLine({ color, width: 1.5, dash: 'dot' }, at, { yref, layer: 'below' }),
  ),
  ...bands.map(({ from, to, color }) => levelBand(color, from, to, yref)),
];

export function stackedCurves(stack: Stack, look: Look): Figure {
  const { panels, panelPx, rightPx, bottomPx = 50 } = stack;
  const gapPx = look.print ? 26 : 40;
  const innerPx = panels.length * panelPx + (panels.length - 1) * gapPx;
  const margin = { t: topMargin(look), b: bottomPx, l: 46, r: rightPx };
  const drawn = panels.map((panel, index) => {
    const suffix = index === 0 ? '' : String(index + 1);
    const top = 1 - (index * (panelPx + gapPx)) / innerPx;
    const range = rangeFor(panel);
    const yref = `y${suffix}`;
    return {
      data: panel.curves.flatMap((one) => tracesOf(one, panel, stack.x, yref)),
      shapes: shapesOf(panel, yref),
      annotations: [
        axisName(look, panel.name, top),
        ...endLabels(look, namesOf(panel), { range, heightPx: panelPx, yref }),
      ],
      yaxis: [
        `yaxis${suffix}`,
        axis(look, {
          domain: [Math.max(0, top - panelPx / innerPx), top],
          range: [...range],
          nticks: Math.max(5, Math.round(panelPx / 25)),
        }),
      ] as const,
    };
  });
  return {
    data: drawn.flatMap(({ data }) => data),
    layout: baseLayout(look, innerPx + margin.t + margin.b, margin, {
      xaxis: { ...stack.xaxis, anchor: panels.length === 1 ? 'y' : `y${panels.length}` },
      ...Object.fromEntries(drawn.map(({ yaxis }) => yaxis)),
      hoversubplots: 'axis',
      shapes: [...(stack.shapes ?? []), ...drawn.flatMap(({ shapes }) => shapes)],
      annotations: drawn.flatMap(({ annotations }) => annotations),
    }),
  };
}

/** Several quantities against one horizontal axis, in panels one above the other, each line named at its end. */

import {
  axis,
  axisName,
  type Bag,
  baseLayout,
  endLabels,
  type Range,
  rangeOf,
  topMargin,
} from '../theme/axes.ts';
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
  readonly shapes?: readonly object[];
}

export function stackedCurves(stack: Stack, look: Look): Figure {
  const count = stack.panels.length;
  const gapPx = look.print ? 26 : 40;
  const innerPx = count * stack.panelPx + (count - 1) * gapPx;
  const margin = { t: topMargin(look), b: 50, l: 46, r: stack.rightPx };
  const height = innerPx + margin.t + margin.b;
  const data: Bag[] = [];
  const annotations: Bag[] = [];
  const shapes: object[] = [...(stack.shapes ?? [])];
  const axes: Record<string, Bag> = {};
  stack.panels.forEach((panel, index) => {
    const suffix = index === 0 ? '' : String(index + 1);
    const top = 1 - (index * (stack.panelPx + gapPx)) / innerPx;
    const bottom = top - stack.panelPx / innerPx;
    const padded: Range = rangeOf(
      panel.curves.flatMap((curve) => [...curve.y]),
      0.1,
      panel.fromZero ? [0] : (panel.include ?? []),
    );
    const lowest = Math.min(0, ...panel.curves.flatMap(({ y }) => y.map((value) => value ?? 0)));
    const range: Range = panel.fromZero && lowest === 0 ? [0, padded[1]] : padded;
    axes[`yaxis${suffix}`] = axis(look, {
      domain: [Math.max(0, bottom), top],
      range: [...range],
      nticks: Math.max(5, Math.round(stack.panelPx / 25)),
    });
    annotations.push(
      axisName(look, panel.name, top),
      ...endLabels(
        look,
        [
          ...(panel.unnamed ? [] : panel.curves).map((curve) => ({
            text: curve.name,
            colour: curve.color,
            y: [...curve.y].reverse().find((value) => value !== null),
          })),
          ...(panel.levels ?? []).map((level) => ({
            text: level.text,
            colour: level.color,
            y: level.at,
          })),
        ],
        { range, heightPx: stack.panelPx, yref: `y${suffix}` },
      ),
    );
    for (const level of panel.levels ?? [])
      shapes.push({
        type: 'line',
        xref: 'paper',
        x0: 0,
        x1: 1,
        yref: `y${suffix}`,
        y0: level.at,
        y1: level.at,
        line: { color: level.color, width: 1.5, dash: 'dot' },
        layer: 'below',
      });
    for (const band of panel.bands ?? [])
      shapes.push({
        type: 'rect',
        xref: 'paper',
        x0: 0,
        x1: 1,
        yref: `y${suffix}`,
        y0: band.from,
        y1: band.to,
        line: { width: 0 },
        fillcolor: band.color,
        layer: 'below',
      });
    for (const curve of panel.curves) {
      const shared = { type: 'scatter', x: curve.x ?? stack.x, yaxis: `y${suffix}` };
      data.push({
        ...shared,
        mode: 'lines',
        y: curve.y,
        name: curve.name,
        line: { color: curve.color, dash: curve.dash, width: curve.width ?? 2 },
        hovertemplate: panel.reading,
      });
      if (curve.doubtful?.includes(true))
        data.push({
          ...shared,
          mode: 'markers',
          y: curve.y.map((value, i) => (curve.doubtful?.[i] === true ? value : null)),
          marker: { symbol: 'x-thin', size: 8, line: { color: curve.color, width: 2 } },
          hoverinfo: 'skip',
        });
    }
  });
  return {
    data,
    layout: baseLayout(look, height, margin, {
      xaxis: { ...stack.xaxis, anchor: count === 1 ? 'y' : `y${count}` },
      ...axes,
      hoversubplots: 'axis',
      shapes,
      annotations,
    }),
  };
}

/** Named bars, level, with their values beside them: importances and sensitivities. */

import { axis, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { Look } from '../theme/look.ts';
import { fixed } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';

export interface NamedBar {
  readonly name: string;
  readonly value: number;
}

export interface BarStyle {
  readonly title: string;
  readonly decimals: number;
  readonly unit: string;
  readonly colour: 'returning' | 'torque' | 'power';
}

export function levelBars(bars: readonly NamedBar[], style: BarStyle, look: Look): Figure {
  const { palette } = look;
  const reach = Math.max(1e-9, ...bars.map((bar) => Math.abs(bar.value)));
  const negative = bars.some((bar) => bar.value < 0);
  const rows = bars.map((_, i) => -i);
  return {
    data: [
      {
        type: 'bar',
        orientation: 'h',
        x: bars.map((bar) => bar.value),
        y: rows,
        marker: { color: palette.line[style.colour] },
        text: bars.map(
          (bar) => `${bar.value > 0 && negative ? '+' : ''}${fixed(bar.value, style.decimals)} ${style.unit}`,
        ),
        textposition: 'outside',
        cliponaxis: false,
        textfont: { size: 12, color: palette.ink },
        hoverinfo: 'skip',
        width: 0.5,
      },
    ],
    layout: baseLayout(
      look,
      46 + 40 * Math.max(1, bars.length),
      { t: 28, b: 12, l: 12, r: 20 },
      {
        hovermode: false,
        bargap: 0.5,
        xaxis: axis(look, {
          range: [negative ? -1.5 * reach : 0, (negative ? 1.5 : 1.35) * reach],
          showticklabels: false,
          ticks: '',
          showline: false,
          showgrid: false,
          zeroline: true,
          zerolinecolor: palette.hairline,
        }),
        yaxis: axis(look, { range: [-bars.length + 0.45, 0.75], visible: false }),
        annotations: [
          {
            text: style.title,
            xref: 'paper',
            yref: 'paper',
            x: 0,
            y: 1,
            xanchor: 'left',
            yanchor: 'bottom',
            showarrow: false,
            font: { size: 12, color: palette.faint },
          },
          ...bars.map((bar, i) => ({
            text: label(bar.name),
            xref: 'paper',
            x: 0,
            y: -i + 0.25,
            xanchor: 'left',
            yanchor: 'bottom',
            showarrow: false,
            font: { size: 12, color: palette.ink },
          })),
        ],
      },
    ),
  };
}

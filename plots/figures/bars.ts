/**
 * Named bars, level, with their values beside them: importances and sensitivities. A row is one line: its name on the
 * left, then one bar, or two where a change was made both ways.
 */

import { axis, type Bag, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { Look } from '../theme/look.ts';
import { fixed } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';

export interface NamedBar {
  readonly name: string;
  /** One value, or that of less and that of more. */
  readonly values: readonly [number] | readonly [less: number, more: number];
}

export interface BarStyle {
  readonly title: string;
  readonly decimals: number;
  readonly unit: string;
  readonly colour: 'returning' | 'torque' | 'power';
}

/** Letters of a line of a name, and what a letter takes [px]. */
const nameLetters = { wide: 24, narrow: 14 };
const letterPx = 6.6;

/** A name in lines of so many letters at most, broken at blanks. */
function inLines(name: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map((line) => (line.length > most ? `${line.slice(0, most - 1)}…` : line));
}

export function levelBars(bars: readonly NamedBar[], style: BarStyle, look: Look): Figure {
  const { palette } = look;
  const values = bars.flatMap((bar) => [...bar.values]);
  const reach = Math.max(1e-9, ...values.map(Math.abs));
  const both = values.some((value) => value < 0);
  const paired = bars.some((bar) => bar.values.length === 2);
  const names = bars.map((bar) => inLines(bar.name, look.narrow ? nameLetters.narrow : nameLetters.wide));
  const longest = Math.max(4, ...names.flat().map((line) => line.length));
  const colour = palette.line[style.colour];
  const rowPx = Math.max(
    paired ? (look.print ? 30 : 42) : 26,
    ...names.map((lines) => 15 * lines.length + 4),
  );
  const series = (which: number): Bag => ({
    type: 'bar',
    orientation: 'h',
    x: bars.map((bar) => bar.values[which] ?? null),
    y: bars.map((_, i) => -i + (paired ? 0.2 - 0.4 * which : 0)),
    width: paired ? 0.3 : 0.55,
    marker:
      paired && which === 0
        ? { color: palette.sheet, line: { color: colour, width: 1.5 } }
        : { color: colour },
    text: bars.map((bar) => {
      const value = bar.values[which];
      if (value === undefined) return '';
      const text = fixed(value, style.decimals);
      const sign = value > 0 && both && Number(text) !== 0 ? '+' : '';
      return `${sign}${text}${style.unit === '°' ? '' : ' '}${style.unit}`;
    }),
    textposition: 'outside',
    cliponaxis: false,
    constraintext: 'none',
    textfont: { size: 12, color: palette.ink },
    hoverinfo: 'skip',
  });
  const left = Math.round(letterPx * longest) + 14;
  return {
    data: paired ? [series(0), series(1)] : [series(0)],
    layout: baseLayout(
      look,
      44 + rowPx * Math.max(1, bars.length),
      { t: 30, b: 10, l: left, r: 12 },
      {
        hovermode: false,
        barmode: 'overlay',
        xaxis: axis(look, {
          range: [both ? -1.65 * reach : 0, (both ? 1.65 : 1.35) * reach],
          showticklabels: false,
          ticks: '',
          showline: false,
          showgrid: false,
          zeroline: true,
          zerolinecolor: palette.hairline,
        }),
        yaxis: axis(look, { range: [-bars.length + 0.45, 0.55], visible: false }),
        annotations: [
          {
            text: style.title,
            xref: 'paper',
            yref: 'paper',
            x: 0,
            xshift: 8 - left,
            y: 1,
            xanchor: 'left',
            yanchor: 'bottom',
            showarrow: false,
            font: { size: 12, color: palette.faint },
          },
          ...names.map((lines, i) => ({
            text: lines.map(label).join('<br>'),
            xref: 'paper',
            x: 0,
            xshift: -6,
            y: -i,
            xanchor: 'right',
            yanchor: 'middle',
            align: 'right',
            showarrow: false,
            font: { size: 12, color: palette.ink },
          })),
        ],
      },
    ),
  };
}

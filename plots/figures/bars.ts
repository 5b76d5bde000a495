/**
 * Named bars, level, with their values beside them: importances and sensitivities. A row is one line: its name on the
 * left, then one bar, or two where a change was made both ways.
 */

import wrapAnsi from 'wrap-ansi';
import { leftEdge, topRight, words } from '../marks/note.ts';
import { axis, type Bag, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { Look } from '../theme/look.ts';
import { fixed, signed } from '../theme/numbers.ts';
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
const LETTER_PX = 6.6;

/** A name in lines of so many letters at most, broken at blanks; a longer word is cut off. */
const inLines = (name: string, most: number): string[] =>
  wrapAnsi(name, most, { hard: false })
    .split('\n')
    .map((line) => (line.length > most ? `${line.slice(0, most - 1)}…` : line));

/** Bars of less (0) or of more (1), or the only ones, with their values beside them. */
function barsOf(bars: readonly NamedBar[], which: 0 | 1, style: BarStyle, look: Look): Bag {
  const { palette } = look;
  const values = bars.map((bar) => bar.values[which] ?? null);
  const paired = isPaired(bars);
  const colour = palette.line[style.colour];
  const hollow = { color: palette.sheet, line: { color: colour, width: 1.5 } };
  const told = hasSign(bars) ? signed : fixed;
  const gap = style.unit === '°' ? '' : ' ';
  return {
    type: 'bar',
    orientation: 'h',
    x: values,
    y: bars.map((_, i) => -i + (paired ? 0.2 - 0.4 * which : 0)),
    width: paired ? 0.3 : 0.55,
    marker: paired && which === 0 ? hollow : { color: colour },
    text: values.map((value) => (value === null ? '' : `${told(value, style.decimals)}${gap}${style.unit}`)),
    textposition: 'outside',
    cliponaxis: false,
    constraintext: 'none',
    textfont: { size: 12, color: palette.ink },
    hoverinfo: 'skip',
  };
}

const isPaired = (bars: readonly NamedBar[]): boolean => bars.some((bar) => bar.values.length === 2);
const hasSign = (bars: readonly NamedBar[]): boolean =>
  bars.some((bar) => bar.values.some((value) => value < 0));

/** Names on the left of their bars, in lines. */
const nameWords = (names: readonly (readonly string[])[], look: Look): Bag[] =>
  names.map((lines, i) =>
    words(lines.map(label).join('<br>'), look.palette.ink, {
      ...leftEdge(-6),
      y: -i,
      xanchor: 'right',
      yanchor: 'middle',
      align: 'right',
    }),
  );

export function levelBars(bars: readonly NamedBar[], style: BarStyle, look: Look): Figure {
  const { palette } = look;
  const reach = Math.max(1e-9, ...bars.flatMap((bar) => bar.values.map(Math.abs)));
  const paired = isPaired(bars);
  const names = bars.map((bar) => inLines(bar.name, look.narrow ? nameLetters.narrow : nameLetters.wide));
  const longest = Math.max(4, ...names.flat().map((line) => line.length));
  const barPx = paired ? (look.print ? 30 : 42) : 26;
  const rowPx = Math.max(barPx, ...names.map((lines) => 15 * lines.length + 4));
  const left = Math.round(LETTER_PX * longest) + 14;
  const title = { ...topRight, yshift: 0, xanchor: 'left', x: 0, xshift: 8 - left };
  return {
    data: (paired ? ([0, 1] as const) : ([0] as const)).map((which) => barsOf(bars, which, style, look)),
    layout: baseLayout(
      look,
      44 + rowPx * Math.max(1, bars.length),
      { t: 30, b: 10, l: left, r: 12 },
      {
        hovermode: false,
        barmode: 'overlay',
        xaxis: axis(look, {
          range: hasSign(bars) ? [-1.65 * reach, 1.65 * reach] : [0, 1.35 * reach],
          showticklabels: false,
          ticks: '',
          showline: false,
          showgrid: false,
          zeroline: true,
          zerolinecolor: palette.hairline,
        }),
        yaxis: axis(look, { range: [-bars.length + 0.45, 0.55], visible: false }),
        annotations: [words(style.title, palette.faint, title), ...nameWords(names, look)],
      },
    ),
  };
}

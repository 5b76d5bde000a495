/** At one speed: what a longer exhaust duration does to the wave, the blowdown, the echo and the torque. */

import { column } from '../../src/findings/curve.ts';
import { middleLead } from '../../src/findings/landing.ts';
import type { ColumnName, DurationPoint, SweepRow } from '../../src/findings/row.ts';
import { bandUnder } from '../marks/band.ts';
import { uprightLine } from '../marks/event-line.ts';
import { axis, axisTitle, rangeOf } from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import { PEAK_DASH, type Quantity } from '../theme/palette.ts';
import type { Figure } from './figure.ts';
import { type Panel, stackedCurves } from './stacked-curves.ts';

/** The map's points at one speed, the shortest duration first. */
const pointsAt = (points: readonly DurationPoint[], speedRpm: number): readonly DurationPoint[] =>
  points.filter((point) => point.row.speed_rpm === speedRpm).sort((a, b) => a.durationDeg - b.durationDeg);

const windowOf = (row: SweepRow): number => row.exhaust_closes_deg - row.transfers_close_deg;

function panelsOf(rows: readonly SweepRow[], look: Look): Panel[] {
  const { palette } = look;
  const curve = (name: string, quantity: ColumnName, line: Quantity, factor = 1) => ({
    name,
    y: column(rows, quantity).map((value) => (value === null ? null : factor * value)),
    color: palette.line[line],
    dash: lineOf(look, line).dash,
  });
  const window = rows.map(windowOf);
  return [
    {
      name: 'The plug-back before exhaust closing [°]',
      reading: '%{y:.0f}°',
      include: [-5, ...window.map((width) => width + 5)],
      curves: [
        {
          name: 'TC',
          y: window,
          color: palette.line.transfer,
          dash: lineOf(look, 'transfer').dash,
          width: 1.5,
        },
        { ...curve('peak', 'plugback_lead_deg', 'returning'), dash: PEAK_DASH, width: 1.6 },
        { name: 'middle', y: rows.map(middleLead), color: palette.line.returning, dash: 'solid', width: 2.8 },
      ],
      levels: [{ at: 0, text: 'EC', color: palette.line.exhaust }],
    },
    {
      name: 'Mass packed back after transfer closing [% of trapped]',
      reading: '%{y:.1f} %',
      include: [0],
      curves: [curve('packed', 'packed_mass_ratio', 'returning', 100)],
    },
    {
      name: 'Pressure as the transfers open [bar]',
      reading: '%{y:.2f} bar',
      curves: [
        curve('cylinder', 'transfer_opening_cylinder_bar', 'cylinder'),
        curve('crankcase', 'transfer_opening_crankcase_bar', 'crankcase'),
      ],
    },
    {
      name: 'Echo gain: settled pulse over that of a first cycle into a quiet pipe [–]',
      reading: '%{y:.2f}',
      curves: [curve('echo', 'echo_gain', 'outgoing')],
    },
    { name: 'Torque [Nm]', reading: '%{y:.1f} Nm', curves: [curve('torque', 'torque_nm', 'torque')] },
  ];
}

export function durationCurves(
  points: readonly DurationPoint[],
  speedRpm: number,
  ownDuration: number | null,
  look: Look,
): Figure {
  const here = pointsAt(points, speedRpm);
  const rows = here.map((point) => point.row);
  const durations = here.map((point) => point.durationDeg);
  const { palette } = look;
  const own = { color: palette.line.exhaust, width: 1.5, dash: 'dash' };
  return stackedCurves(
    {
      x: durations,
      xaxis: axis(look, {
        range: [...rangeOf(durations, 0.02)],
        ticksuffix: '°',
        nticks: look.narrow ? 6 : 14,
        title: axisTitle(look, 'Exhaust duration [°]'),
      }),
      panelPx: heightOf(look, 100, 92, 60),
      rightPx: look.narrow ? 74 : 90,
      panels: panelsOf(rows, look),
      shapes: [
        // From exhaust closing up to transfer closing, which lies the further before it the longer the duration.
        ...(durations.length > 1 ? [bandUnder(palette.useful, durations, rows.map(windowOf))] : []),
        ...(ownDuration === null ? [] : [uprightLine(own, ownDuration)]),
      ],
    },
    look,
  );
}

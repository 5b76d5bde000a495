/**
 * Several drafts over engine speed, each in its own colour and dash: middle of the plug-back before exhaust closing,
 * torque, power. A cross marks a speed whose cycles did not settle.
 */

import { column } from '../../src/findings/curve.ts';
import { middleLead } from '../../src/findings/landing.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { uprightLine } from '../marks/event-line.ts';
import { rangeOf, speedAxis } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { draftDashes } from '../theme/palette.ts';
import type { Figure } from './figure.ts';
import { type Curve, type Panel, stackedCurves } from './stacked-curves.ts';

export interface SweptDraft {
  readonly name: string;
  readonly rows: readonly SweepRow[];
}

const short = (name: string, look: Look): string => {
  const most = look.narrow ? 15 : 22;
  return label(name.length > most ? `${name.slice(0, most - 1)}…` : name);
};

export const draftStyle = (index: number, look: Look): { color: string; dash: string } => ({
  color: look.palette.drafts[index % look.palette.drafts.length] ?? look.palette.ink,
  dash: draftDashes[index % draftDashes.length] ?? 'solid',
});

type Read = (rows: readonly SweepRow[]) => readonly (number | null)[];

const middles: Read = (rows) =>
  rows.map((row) => {
    const lead = middleLead(row);
    return lead !== null && Number.isFinite(lead) ? lead : null;
  });

function curvesOf(drafts: readonly SweptDraft[], read: Read, look: Look): Curve[] {
  return drafts.map((draft, index) => ({
    name: short(draft.name, look),
    x: draft.rows.map((row) => row.speed_rpm),
    y: read(draft.rows),
    doubtful: draft.rows.map((row) => !row.settled),
    width: index === 0 ? 2.6 : 2,
    ...draftStyle(index, look),
  }));
}

/** Room that a name at the end of a line takes [px]. */
const NAME_PX = 14;

export function draftCurves(drafts: readonly SweptDraft[], targetSpeed: number | null, look: Look): Figure {
  const { palette } = look;
  const panelPx = heightOf(look, 190, 170, 94);
  // The names of all drafts and of two levels, or in the panels below only.
  const crowded = (drafts.length + 2) * NAME_PX > panelPx;
  const panel = (name: string, read: Read, reading: string, more: Partial<Panel> = {}): Panel => ({
    name,
    reading,
    curves: curvesOf(drafts, read, look),
    ...more,
  });
  const speeds = drafts.flatMap((draft) => draft.rows.map((row) => row.speed_rpm));
  const first = drafts[0]?.rows[0];
  const window = first === undefined ? null : first.exhaust_closes_deg - first.transfers_close_deg;
  return stackedCurves(
    {
      x: [],
      xaxis: speedAxis(look, rangeOf(speeds, 0.02)),
      panelPx,
      rightPx: look.narrow ? 98 : 150,
      shapes:
        targetSpeed === null
          ? []
          : [uprightLine({ color: palette.usefulInk, width: 1.5, dash: 'dot' }, targetSpeed)],
      panels: [
        panel(
          look.narrow
            ? 'Middle of the plug-back before EC [°]'
            : 'Middle of the plug-back before exhaust closing (EC) [°], wanted in the highlighted window',
          middles,
          '%{y:.0f}°',
          {
            unnamed: crowded,
            include: [0, ...(window === null ? [] : [window])],
            bands: window === null ? [] : [{ from: 0, to: window, color: palette.useful }],
            levels: [
              { at: 0, text: 'EC', color: palette.line.exhaust },
              ...(window === null ? [] : [{ at: window, text: 'TC', color: palette.line.transfer }]),
            ],
          },
        ),
        panel('Torque [Nm]', (rows) => column(rows, 'torque_nm'), '%{y:.1f} Nm', { fromZero: true }),
        panel('Power [kW]', (rows) => column(rows, 'power_kw'), '%{y:.1f} kW', { fromZero: true }),
      ],
    },
    look,
  );
}

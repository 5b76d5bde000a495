/** What a builder can measure, against engine speed: temperatures of gas and wall, pressure before the stinger, in the crankcase. */

import { column } from '../../src/findings/curve.ts';
import type { ColumnName, SweepRow } from '../../src/findings/row.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { speedStack, styled } from './breathing.ts';
import type { Figure } from './figure.ts';
import { type Curve, type Panel, stackedCurves } from './stacked-curves.ts';

const ABSOLUTE_ZERO = -273.15;
const PLACES = [
  ['header', 'solid'],
  ['belly', 'dash'],
  ['stinger', 'dot'],
] as const;

/** Temperatures along the pipe of gas or wall. */
function temperatures(of: 'gas' | 'wall', rows: readonly SweepRow[], look: Look): Panel {
  const curves = PLACES.map(([place, dash]): Curve => {
    const name: ColumnName = `${place}_${of}_temperature_k`;
    const y = column(rows, name).map((kelvin) => (kelvin === null ? null : kelvin + ABSOLUTE_ZERO));
    return { name: place, y, color: look.palette.line[of], dash };
  });
  return {
    name: `${of === 'gas' ? 'Gas, weighted by its flow' : 'Wall'}, middle of each [°C]`,
    reading: '%{y:.0f} °C',
    curves,
  };
}

export const gauges = (rows: readonly SweepRow[], look: Look): Figure =>
  stackedCurves(
    {
      ...speedStack(rows, look),
      panelPx: heightOf(look, 110, 100, 40),
      panels: [
        temperatures('gas', rows, look),
        temperatures('wall', rows, look),
        {
          name: 'Mean pressure before the stinger, above ambient [bar]',
          reading: '%{y:.2f} bar',
          include: [0],
          curves: [
            { name: 'stinger', y: column(rows, 'stinger_back_pressure_bar'), ...styled(look, 'port') },
          ],
        },
        {
          name: 'Crankcase, lowest and highest in a turn [bar]',
          reading: '%{y:.2f} bar',
          curves: (['lowest', 'highest'] as const).map((end) => ({
            name: end,
            y: column(rows, `crankcase_${end}_bar`),
            ...styled(look, 'crankcase'),
          })),
        },
      ],
    },
    look,
  );

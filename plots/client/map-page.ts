/** The map page alive: four fields over speed and duration, and the curves at a chosen speed. */

import { durationCurves } from '../figures/duration-curves.ts';
import { type DurationField, speedDurationField } from '../figures/speed-duration-field.ts';
import type { MapPageData } from '../pages/map-page.ts';
import { rpm } from '../theme/numbers.ts';
import { fileDate } from './file-date.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const { points, grid, ownDuration, speeds } = pageData<MapPageData>();
const board = new Board();
let chosen = speeds[0] ?? 0;

const fields: readonly (DurationField & { readonly id: string })[] = [
  {
    id: 'lead',
    title: 'Middle before exhaust closing [°]',
    of: 'lead',
    reading: 'lead %{z:.0f}°',
    fromWindow: true,
    labelFormat: '.0f',
  },
  {
    id: 'torque',
    title: 'Torque [Nm]',
    of: 'torque',
    reading: '%{z:.1f} Nm',
    labelFormat: '.1f',
  },
  {
    id: 'share',
    title: 'Share before closing [%]',
    of: 'share',
    reading: '%{z:.0f} %',
    neutral: 50,
    labelFormat: '.0f',
  },
  {
    id: 'echo',
    title: 'Return against the next opening [°]',
    of: 'echo',
    reading: '%{z:.0f}°',
    neutral: 0,
    labelFormat: '.0f',
  },
];
for (const field of fields)
  board.add(field.id, (look) => speedDurationField({ grid, points }, field, ownDuration, look));
board.add('curves', (look) => durationCurves(points, chosen, ownDuration, look));
fileDate();
player((index, redraw) => {
  chosen = speeds[index] ?? chosen;
  if (redraw) board.draw('curves');
  return rpm(chosen);
});
board.redrawAll();

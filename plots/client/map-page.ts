/** The map page alive: four fields over speed and duration, and the curves at a chosen speed. */

import { middleLead } from '../../src/findings/landing.ts';
import { durationCurves } from '../figures/duration-curves.ts';
import { type DurationField, speedDurationField } from '../figures/speed-duration-field.ts';
import type { MapPageData } from '../pages/map-page.ts';
import { rpm } from '../theme/numbers.ts';
import { fileDate } from './file-date.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const { points, ownDuration, speeds } = pageData<MapPageData>();
const board = new Board();
let chosen = speeds[0] ?? 0;

const fields: readonly (DurationField & { readonly id: string })[] = [
  {
    id: 'lead',
    title: 'Middle before exhaust closing [°]',
    value: middleLead,
    reading: 'lead %{z:.0f}°',
    fromWindow: true,
    labelFormat: '.0f',
  },
  {
    id: 'torque',
    title: 'Torque [Nm]',
    value: (row) => row.torque_nm,
    reading: '%{z:.1f} Nm',
    labelFormat: '.1f',
  },
  {
    id: 'share',
    title: 'Share before closing [%]',
    value: (row) =>
      row.plugback_share_before_closing === null ? null : 100 * row.plugback_share_before_closing,
    reading: '%{z:.0f} %',
    neutral: 50,
    labelFormat: '.0f',
  },
  {
    id: 'echo',
    title: 'Return against the next opening [°]',
    value: (row) =>
      row.echo_return_deg === null ? null : row.echo_return_deg - (row.exhaust_opens_deg + 360),
    reading: '%{z:.0f}°',
    neutral: 0,
    labelFormat: '.0f',
  },
];
for (const field of fields)
  board.add(field.id, (look) => speedDurationField(points, field, ownDuration, look));
board.add('curves', (look) => durationCurves(points, chosen, ownDuration, look));
fileDate();
player((index, redraw) => {
  chosen = speeds[index] ?? chosen;
  if (redraw) board.draw('curves');
  return rpm(chosen);
});
board.redrawAll();

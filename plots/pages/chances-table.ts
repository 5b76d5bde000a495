/** In how many members each draft beats the first, as a table. */

import type { DraftChances, Lead } from '../../src/findings/member-chances.ts';
import { html, type Markup } from '../theme/markup.ts';
import { leadText } from './chances-words.ts';
import { table } from './parts.ts';

const cell = (lead: Lead | null, unit: string) => ({
  text: lead === null ? '–' : leadText(lead, unit),
  number: true,
});

export function chancesTable(chances: readonly DraftChances[]): Markup {
  const lines = chances.map(({ draft, against, at_target, over_band, best_power, best_torque }) => ({
    cells: [
      { text: `${draft} against ${against}` },
      cell(at_target, 'Nm'),
      cell(over_band, 'Nm'),
      cell(best_power, 'kW'),
      cell(best_torque, 'Nm'),
    ],
  }));
  const headings = [
    { name: 'draft' },
    { name: 'at the target', number: true },
    { name: 'over the band', number: true },
    { name: 'best power', number: true },
    { name: 'best torque', number: true },
  ];
  return html`${table('In how many members a draft beats the first, and by how much: the median, ± for nine in ten', headings, lines)}<p class="small">A member is the same engine with other values of what is not known exactly; every draft has the same ones. What the drafts share goes out of their difference.</p>`;
}

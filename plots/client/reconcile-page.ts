/** The page of a reconciliation alive: measured against predicted, and what is left. */

import { measuredAgainst } from '../figures/measured-against.ts';
import { residuals } from '../figures/residuals.ts';
import type { ReconcilePageData } from '../pages/reconcile-page.ts';
import { fileDate } from './file-date.ts';
import { Board, pageData } from './plotly.ts';

const { groups } = pageData<ReconcilePageData>();
const board = new Board();
fileDate();
for (const [k, group] of groups.entries()) {
  board.add(`group-${k}`, (look) => measuredAgainst(group, look));
  if (group.kind === 'torque') board.add(`rest-${k}`, (look) => residuals(group, look));
}
board.redrawAll();

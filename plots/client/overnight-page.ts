/** The overnight page alive: sorting, filtering, and what the score depends on. */

import { levelBars } from '../figures/bars.ts';
import { draftCurves } from '../figures/draft-curves.ts';
import { parallelAxes } from '../figures/parallel-axes.ts';
import { scoreAgainst } from '../figures/score-against.ts';
import type { OvernightPageData } from '../pages/overnight-page.ts';
import { fileDate } from './file-date.ts';
import { Board, pageData } from './plotly.ts';
import { filtered, sortable } from './sortable-table.ts';

const data = pageData<OvernightPageData>();
const best = Math.max(1, data.best.length);
const board = new Board();
fileDate();
sortable('ranking');
filtered('ranking', 'filter');
board.add('importance', (look) =>
  levelBars(
    [...data.importance]
      .sort((a, b) => b.share - a.share)
      .map(({ name, share }) => ({ name, values: [100 * share] })),
    { title: 'Share of the score’s variation [%]', decimals: 0, unit: '%', colour: 'returning' },
    look,
  ),
);
board.add('parallel', (look) => parallelAxes(data.drafts, data.varied, data.scoreUnit, best, look));
data.varied.forEach((quantity, index) => {
  board.add(`score-${index}`, (look) =>
    scoreAgainst(data.drafts, quantity, index, data.scoreName, best, look),
  );
});
board.add('curves', (look) => draftCurves(data.best, null, look));
board.redrawAll();

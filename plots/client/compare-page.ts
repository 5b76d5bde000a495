/** The compare page alive: curves of all drafts, and their waves at the chosen speed. */

import { draftCurves } from '../figures/draft-curves.ts';
import { draftPort } from '../figures/draft-port.ts';
import { type ComparePageData, wavesAt } from '../pages/compare-page.ts';
import { rpm } from '../theme/numbers.ts';
import { fileDate } from './file-date.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const data = pageData<ComparePageData>();
const board = new Board();
fileDate();
let chosen = data.speeds[0] ?? 0;
board.add('curves', (look) => draftCurves(data.drafts, data.targetSpeed, look));
board.add('waves', (look) => {
  const events = data.drafts
    .flatMap((draft) => draft.waves)
    .find((waves) => waves.speedRpm === chosen)?.events;
  return events ? draftPort(wavesAt(data, chosen), events, data.ambientBar, look) : { data: [], layout: {} };
});
player((index, redraw) => {
  chosen = data.speeds[index] ?? chosen;
  if (redraw) board.draw('waves');
  return rpm(chosen);
});
board.redrawAll();

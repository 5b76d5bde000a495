/** The verify page alive: computed over exact. */

import { exactOverlay } from '../figures/exact-overlay.ts';
import type { VerifyPageData } from '../pages/verify-page.ts';
import { fileDate } from './file-date.ts';
import { Board, pageData } from './plotly.ts';

const data = pageData<VerifyPageData>();
const board = new Board();
fileDate();
data.overlays.forEach((overlay, index) => {
  board.add(`overlay-${index}`, (look) => exactOverlay(overlay, look));
});
board.redrawAll();

/** The aim page alive: before and after, sensitivities, and the search. */

import { type BarStyle, levelBars } from '../figures/bars.ts';
import { draftCurves } from '../figures/draft-curves.ts';
import { searchHistory } from '../figures/search-history.ts';
import type { AimPageData } from '../pages/aim-page.ts';
import { fileDate } from './file-date.ts';
import { Board, pageData } from './plotly.ts';

const data = pageData<AimPageData>();
const board = new Board();
const styles = {
  lead: { title: 'Change of the middle [°], + is sooner', decimals: 1, unit: '°', colour: 'returning' },
  torque: { title: 'Change of torque [Nm]', decimals: 1, unit: 'Nm', colour: 'torque' },
  power: { title: 'Change of power [kW]', decimals: 1, unit: 'kW', colour: 'power' },
} as const satisfies Record<string, BarStyle>;
fileDate();
board.add('curves', (look) => draftCurves(data.drafts, data.targetSpeed, look));
for (const name of ['torque', 'lead', 'power'] as const)
  board.add(name, (look) => levelBars(data[name], styles[name], look));
board.add('history', (look) => searchHistory(data.history, data.scoreName, look));
board.redrawAll();

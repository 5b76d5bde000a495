/** The pulse page alive: probe traces, and the duct at the chosen instant. */

import { probeTraces } from '../figures/probe-traces.ts';
import { pulseProfiles } from '../figures/pulse-profiles.ts';
import type { PulsePageData } from '../pages/pulse-page.ts';
import { fixed, THIN } from '../theme/numbers.ts';
import { fileDate } from './file-date.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const data = pageData<PulsePageData>();
const board = new Board();
fileDate();
let chosen = 0;
board.add('probes', (look) => probeTraces(data.probes, look));
board.add('profiles', (look) => pulseProfiles(data.profiles, chosen, data.outline, look));
player((index, redraw) => {
  chosen = index;
  if (redraw) board.draw('profiles');
  return `${fixed(data.profiles[index]?.time, 2)}${THIN}ms`;
});
board.redrawAll();
